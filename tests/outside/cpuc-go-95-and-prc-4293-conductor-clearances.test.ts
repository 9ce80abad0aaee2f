// Sources: California Public Resources Code 4293 (read): 4 ft from 2,400 V, 6 ft from 72 kV, 10 ft from 110 kV; CPUC General Order 95, Table 1
// cases 13 and 14 (second-hand, a copy in public code): 18 in, 4 ft to 300 kV and 10 ft to 550 kV in a fire-threat zone; its
// Appendix E, case 14, text of 2009 and 2012 (read): 6.5, 10 and 20 ft at time of trimming. The text of 2017 is memory and not tested.
import { describe, expect, it, test } from "vitest";
import { conductorRuleOf } from "../../src/core/standard/conductor-rule.ts";
import type { Standard } from "../../src/core/standard/standard.ts";
import { shipped } from "../core/standard/shipped.ts";

const FT = 0.3048;
const minimumFt = (standard: Standard, volts: number): number =>
  (conductorRuleOf(standard, volts)?.minimumM ?? Number.NaN) / FT;

describe("Public Resources Code 4293", () => {
  const standard = shipped("california-wildland");
  test.each([
    [2_400, 4],
    [12_000, 4],
    [71_999, 4],
    [72_000, 6],
    [109_999, 6],
    [110_000, 10],
    [500_000, 10],
  ])("at %i V asks for %i ft", (volts, ft) => {
    expect(minimumFt(standard, volts)).toBeCloseTo(ft, 9);
  });
});

describe("General Order 95, Table 1", () => {
  it("case 13 asks for 18 in from 750 V, and for nothing below", () => {
    expect(minimumFt(shipped("us-common"), 750)).toBeCloseTo(1.5, 9);
    expect(minimumFt(shipped("us-common"), 22_500)).toBeCloseTo(1.5, 9);
    expect(conductorRuleOf(shipped("us-common"), 749)).toBeNull();
  });

  test.each([
    [750, 4],
    [22_500, 4],
    [72_000, 4],
    [300_000, 4],
    [300_001, 10],
    [550_000, 10],
  ])("case 14 at %i V asks for %i ft", (volts, ft) => {
    expect(minimumFt(shipped("california-fire-threat"), volts)).toBeCloseTo(ft, 9);
  });

  it("has no class above 550 kV", () => {
    expect(conductorRuleOf(shipped("california-fire-threat"), 550_001)).toBeNull();
  });
});

test.each([
  [12_000, 6.5],
  [72_000, 10],
  [115_000, 20],
  [345_000, 20],
])("Appendix E case 14 at %i V: pruning reaches at least %d ft", (volts, ft) => {
  for (const id of ["california-wildland", "california-fire-threat"]) {
    expect((conductorRuleOf(shipped(id), volts)?.clearToM ?? 0) / FT).toBeGreaterThanOrEqual(ft - 1e-9);
  }
});
