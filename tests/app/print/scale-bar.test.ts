import { describe, expect, test } from "vitest";
import { metersPerPx, scaleBar } from "../../../src/app/print/scale-bar.ts";

describe("the scale of a web map", () => {
  test("is the earth's girth over the world's width at the equator, and shrinks with the cosine of latitude", () => {
    // 2 pi 6,378,137 m / 512 px = 78,271.517 m at zoom 0.
    expect(metersPerPx(0, 0)).toBeCloseTo(78_271.517, 3);
    expect(metersPerPx(0, 10)).toBeCloseTo(78_271.517 / 1024, 6);
    expect(metersPerPx(60, 0)).toBeCloseTo(78_271.517 / 2, 3);
  });
});

describe("a bar", () => {
  test("is the longest of 1, 2, 4 or 5 times a power of ten that fits", () => {
    // 250 px of 0.3048 m are 250 ft: 200 ft are 200 px, in four parts of 50 ft.
    expect(scaleBar(0.3048, "us", 250)).toMatchObject({ label: "200 ft", divisions: 4 });
    expect(scaleBar(0.3048, "us", 250).lengthPx).toBeCloseTo(200, 9);
    // 250 px of 1 m: 200 m. At 300 px of 0.2 m, 60 m: 50 m in five parts, 250 px.
    expect(scaleBar(1, "metric", 250)).toMatchObject({ label: "200 m", divisions: 4, lengthPx: 200 });
    expect(scaleBar(0.2, "metric", 300)).toMatchObject({ label: "50 m", divisions: 5, lengthPx: 250 });
    expect(scaleBar(0.2, "metric", 200)).toMatchObject({ label: "40 m", divisions: 4, lengthPx: 200 });
  });

  test("goes on in miles and kilometers", () => {
    // 200 px of 10 m are 2 km, 1.24 mi.
    expect(scaleBar(10, "metric", 200)).toMatchObject({ label: "2 km", lengthPx: 200 });
    expect(scaleBar(10, "us", 200)).toMatchObject({ label: "1 mi" });
    expect(scaleBar(10, "us", 200).lengthPx).toBeCloseTo(160.9344, 9);
  });

  test("names the ratio at full size", () => {
    // One CSS pixel is 1/96 in = 0.0254 m / 96; 0.264583 m of ground to it is 1:1000.
    expect(scaleBar(0.0254 * (1000 / 96), "metric", 200).ratio).toBe("1:1,000");
    expect(scaleBar(0.0254 * (1234 / 96), "metric", 200).ratio).toBe("1:1,200");
  });

  test("never runs over its room, at any scale", () => {
    for (let step = 0; step < 400; step += 1) {
      const mPerPx = 0.01 * 1.05 ** step;
      for (const units of ["us", "metric"] as const) {
        const { lengthPx } = scaleBar(mPerPx, units, 200);
        expect(lengthPx).toBeLessThanOrEqual(200 + 1e-6);
        // Steps of 1, 2, 4, 5, 10 are never more than 2 apart.
        expect(lengthPx).toBeGreaterThan(99);
      }
    }
  });

  test("asks for a scale that is one", () => {
    expect(() => scaleBar(0, "us", 200)).toThrow(RangeError);
    expect(() => scaleBar(Number.NaN, "us", 200)).toThrow(RangeError);
  });
});
