import { expect, test } from "vitest";
import type { Drawing } from "../../../src/core/crown/drawing.ts";
import { drawingToSvg, escapeText } from "../../../src/core/crown/drawing-to-svg.ts";

const drawing: Drawing = {
  widthMm: 10,
  heightMm: 5,
  description: "A <b>crown</b> & more",
  shapes: [
    {
      type: "path",
      d: "M0 0L1 1Z",
      fill: "removed",
      hatched: true,
      stroke: { tone: "ink", widthMm: 0.2, dashMm: [1, 2] },
    },
    {
      type: "text",
      xMm: 1,
      yMm: 2,
      text: '<script>alert("x")</script>',
      sizeMm: 2.1,
      anchor: "end",
      tone: "ink",
      rotateDeg: -90,
    },
  ],
};

test("texts cannot become markup, and the drawing is told in words", () => {
  const svg = drawingToSvg(drawing, { idPrefix: "d1", title: "T-1 'oak'" });
  expect(svg).not.toContain("<script");
  expect(svg).toContain("&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;");
  expect(svg).toContain('role="img" aria-labelledby="d1-title" aria-describedby="d1-desc"');
  expect(svg).toContain('<title id="d1-title">T-1 &#39;oak&#39;</title>');
  expect(svg).toContain('<desc id="d1-desc">A &lt;b&gt;crown&lt;/b&gt; &amp; more</desc>');
});

test("ids are the caller's, so that two drawings can share a page", () => {
  const svg = drawingToSvg(drawing, { idPrefix: "d2" });
  expect(svg).toContain('<pattern id="d2-hatch"');
  expect(svg).toContain('fill="url(#d2-hatch)"');
  expect(() => drawingToSvg(drawing, { idPrefix: 'x"y' })).toThrow(RangeError);
});

test("colors are custom properties, so that a theme decides", () => {
  expect(drawingToSvg(drawing, { idPrefix: "d" })).toContain('fill="var(--bough-removed, #f4f2ec)"');
});

test("characters that XML 1.0 cannot hold are shown as a replacement, not dropped", () => {
  expect(escapeText("a\u0000b\uFFFEc\td")).toBe("a\uFFFDb\uFFFDc\td");
});
