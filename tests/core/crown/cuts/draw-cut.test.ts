import { describe, expect, test } from "vitest";
import { CUT_FIGURES, CUT_TITLES } from "../../../../src/core/crown/cuts/cut-figures.ts";
import { drawCut } from "../../../../src/core/crown/cuts/draw-cut.ts";
import type { Drawing } from "../../../../src/core/crown/drawing.ts";
import { textWidthMm } from "../../../../src/core/crown/section/text-width.ts";

const texts = ({ shapes }: Drawing) => shapes.flatMap((shape) => (shape.type === "text" ? [shape] : []));

describe.each(CUT_FIGURES)("the drawing %s", (figure) => {
  const drawing = drawCut(figure, "us", 0.1);

  test("stays on its paper, writing included", () => {
    for (const { text, xMm, yMm, sizeMm, anchor, bold } of texts(drawing)) {
      const width = textWidthMm(text, sizeMm, bold);
      const left = anchor === "start" ? xMm : anchor === "middle" ? xMm - width / 2 : xMm - width;
      expect(left, text).toBeGreaterThanOrEqual(0);
      expect(left + width, text).toBeLessThanOrEqual(drawing.widthMm);
      expect(yMm - sizeMm * 0.7, text).toBeGreaterThanOrEqual(0);
      expect(yMm + sizeMm * 0.2, text).toBeLessThanOrEqual(drawing.heightMm);
    }
    for (const shape of drawing.shapes) {
      if (shape.type !== "path") continue;
      expect(shape.d).toMatch(/^[MLCZ\d. -]+$/);
      const numbers = (shape.d.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
      numbers.forEach((value, at) => {
        expect(value).toBeGreaterThanOrEqual(0);
        expect(value).toBeLessThanOrEqual(at % 2 === 0 ? drawing.widthMm : drawing.heightMm);
      });
    }
  });

  test("writes no text over another", () => {
    const boxes = texts(drawing).map(({ text, xMm, yMm, sizeMm, anchor, bold }) => {
      const width = textWidthMm(text, sizeMm, bold);
      const left = anchor === "start" ? xMm : anchor === "middle" ? xMm - width / 2 : xMm - width;
      return { text, left, right: left + width, top: yMm - sizeMm * 0.7, bottom: yMm + sizeMm * 0.2 };
    });
    boxes.forEach((one, at) => {
      for (const other of boxes.slice(at + 1)) {
        const apart =
          one.right <= other.left || other.right <= one.left || one.bottom <= other.top || other.bottom <= one.top;
        expect(apart, `${one.text} | ${other.text}`).toBe(true);
      }
    });
  });

  test("has words for people who do not see it, and what comes off is hatched", () => {
    expect(drawing.description.length).toBeGreaterThan(80);
    expect(drawing.shapes.some((shape) => shape.type === "path" && shape.hatched === true)).toBe(true);
  });
});

test("each drawing has a letter of its own", () => {
  const letters = CUT_FIGURES.map((figure) => CUT_TITLES[figure][0]);
  expect(new Set(letters).size).toBe(CUT_FIGURES.length);
});

test("the three cuts are numbered in order, with their distances in the reader's unit", () => {
  const words = (units: "us" | "metric", diameterM: number) =>
    texts(drawCut("three-cut", units, diameterM)).map(({ text }) => text);
  expect(words("us", 0.1)).toEqual(expect.arrayContaining(["1", "2", "3", "12–24 in", "2 in"]));
  expect(words("us", 0.04)).toEqual(expect.arrayContaining(["6–12 in", "1 in"]));
  expect(words("metric", 0.1)).toEqual(expect.arrayContaining(["30–60 cm", "5 cm"]));
  expect(words("metric", 0.04)).toEqual(expect.arrayContaining(["15–30 cm", "2.5 cm"]));
});

test("where no collar shows, saw line and bark ridge make the same angle with the line of the trunk", () => {
  // The saw line is the only line 0.8 mm thick, the ridge the only one 0.6 mm thick; the trunk's line is upright.
  const off = (widthMm: number): number => {
    const shape = drawCut("no-collar", "us", 0.1).shapes.find(
      (one) => one.type === "path" && one.stroke?.widthMm === widthMm,
    );
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = (shape?.type === "path" ? shape.d : "").match(/-?[\d.]+/g)!.map(Number);
    return (Math.atan2(Math.abs(x2 - x1), Math.abs(y2 - y1)) * 180) / Math.PI;
  };
  // Path data is rounded to 0.01 mm, on a line of 13 mm less than 0.1 degrees.
  expect(Math.abs(off(0.8) - off(0.6))).toBeLessThan(0.1);
  expect(off(0.8)).toBeGreaterThan(20);
});
