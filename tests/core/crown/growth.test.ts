import { expect, it } from "vitest";
import { roundCrown } from "../../../src/core/crown/crown.ts";
import { crownInYears } from "../../../src/core/crown/growth.ts";
import { traits } from "../prescription/scene.ts";

const growing = traits({ radiusGrowthMPerYear: 0.2, heightGrowthMPerYear: 0.5, matureHeightM: 13 });

it("widens a crown and lets its base sink, but does not raise its top", () => {
  // Five years: radius 4 + 5 * 0.2, base 3 - 5 * 0.02.
  const crown = crownInYears(roundCrown(12, 3, 4, "dome"), growing, 5, 0.02);
  expect(crown.radii.eastM).toBeCloseTo(5, 12);
  expect(crown.crownBaseM).toBeCloseTo(2.9, 12);
  expect(crown.heightM).toBe(12);
});

it("raises the top when asked, up to the mature height", () => {
  expect(crownInYears(roundCrown(12, 3, 4, "dome"), growing, 1, 0.02, true).heightM).toBeCloseTo(12.5, 12);
  expect(crownInYears(roundCrown(12, 3, 4, "dome"), growing, 9, 0.02, true).heightM).toBe(13);
  expect(crownInYears(roundCrown(15, 3, 4, "dome"), growing, 9, 0.02, true).heightM).toBe(15);
});

it("never sinks a base into the ground, nor runs backwards", () => {
  expect(crownInYears(roundCrown(12, 0.05, 4, "dome"), growing, 10, 0.02).crownBaseM).toBe(0);
  expect(crownInYears(roundCrown(12, 3, 4, "dome"), growing, -2, 0.02)).toEqual(roundCrown(12, 3, 4, "dome"));
});
