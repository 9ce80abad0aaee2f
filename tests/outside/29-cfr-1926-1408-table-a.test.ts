// Source: 29 CFR 1926.1408 Table A, read: minimum clearance of equipment by line voltage in kV, alternating current; "to" includes the
// value, and above 1,000 kV a qualified engineer decides.
import { expect, it, test } from "vitest";
import { equipmentDistanceM } from "../../src/core/standard/approach-distance.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";

const FT = 0.3048;
const standard = usCommon();

test.each([
  [12.47, 10],
  [50, 10],
  [50.1, 15],
  [200, 15],
  [200.1, 20],
  [350, 20],
  [350.1, 25],
  [500, 25],
  [500.1, 35],
  [750, 35],
  [750.1, 45],
  [1000, 45],
])("at %d kV it is %i ft", (kV, ft) => {
  expect(equipmentDistanceM(standard, kV * 1000)).toBeCloseTo(ft * FT, 9);
});

it("is for an engineer to decide above 1,000 kV", () => {
  expect(equipmentDistanceM(standard, 1_000_001)).toBeNull();
});
