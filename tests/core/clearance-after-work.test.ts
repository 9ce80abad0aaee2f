import { describe, expect, test } from "vitest";
import { clearanceAfterWork } from "../../src/core/clearance-after-work.ts";
import { type Conflict, RAY_COUNT } from "../../src/core/model/conflict.ts";
import type { ClearedConflict } from "../../src/core/plan/record/tree-after-work.ts";
import { parseStandard, usCommonSource } from "../../src/core/standard/parse-standard.ts";
import { addDays, isoDate } from "../../src/core/units/calendar.ts";
import { smallPlan } from "./packet/small-plan.ts";

const parsed = parseStandard(usCommonSource);
if ("faults" in parsed) throw new Error(parsed.faults.join("\n"));
const { standard } = parsed;
/** Rates of loss that the case below can be redone with: limbs taken off whole grow back 0.2 m a year, and branches droop 0.05 m. */
const rates = { ...standard, pruning: { ...standard.pruning, regrowthRemoveMPerYear: 0.2, droopMPerYear: 0.05 } };

const asOf = isoDate("2027-03-12");
const rays = (valueM: number): Float64Array => new Float64Array(RAY_COUNT).fill(valueM);
const conflict: Conflict = {
  ...smallPlan.conflicts.find(({ kind }) => kind === "roadway")!,
  minimumM: 4,
  clearToM: 4.6,
  measuredM: 3,
  encroachmentM: 1,
  droopAllowanceM: 0,
  certainty: "confirmed",
  hazard: "vehicle-height",
  reachedOn: asOf,
  datumM: 0,
  region: { fromM: rays(1), toM: rays(9), lowM: 0, highM: 4.6 },
};
const cleared: ClearedConflict = {
  remedy: "remove-limb",
  on: asOf,
  targetM: 5,
  measuredM: null,
  lastsYears: null,
  belowM: 5,
};

describe("a conflict whose work was reported done", () => {
  test("is clear to its target, assumed and no hazard, until it has grown back", () => {
    const after = clearanceAfterWork(conflict, cleared, asOf, rates)!;
    expect(after).toMatchObject({
      measuredM: 5,
      encroachmentM: 0,
      basis: "assumed",
      certainty: "probable",
      hazard: null,
    });
    // 1 m above the minimum, lost at 0.25 m a year: four years.
    expect(after.reachedOn).toBe(addDays(asOf, 1461));
    // What is cut next is what has grown back: above the minimum.
    expect(after.region.lowM).toBe(4);
    expect(after.encroachment).toBeNull();
  });

  test("is measured where the crew measured its free height, which then tells by itself how long it lasts", () => {
    const after = clearanceAfterWork(conflict, { ...cleared, measuredM: 4.5, lastsYears: 5 }, asOf, rates)!;
    expect(after).toMatchObject({ measuredM: 4.5, basis: "measured" });
    expect(after.reachedOn).toBe(addDays(asOf, Math.round(2 * 365.25)));
  });

  test("lasts as long as its option was to, where that is longer", () => {
    const after = clearanceAfterWork(conflict, { ...cleared, lastsYears: 5 }, asOf, rates)!;
    expect(after.reachedOn).toBe(addDays(asOf, Math.round(5 * 365.25)));
  });

  test("is none where it is clear beyond two cycles", () => {
    const years = 2 * rates.pruning.cycleYears + 1;
    expect(clearanceAfterWork(conflict, { ...cleared, lastsYears: years }, asOf, rates)).toBeNull();
  });

  test("stands where it was cut in part only, without what was cut", () => {
    const after = clearanceAfterWork(conflict, { ...cleared, targetM: 3.5 }, asOf, rates)!;
    expect(after).toMatchObject({ measuredM: 3.5, encroachmentM: 0.5, basis: "assumed", reachedOn: asOf });
    expect(after.region.lowM).toBe(3.5);
  });

  test("stands as measured where the crew found less free height than is needed", () => {
    const after = clearanceAfterWork(conflict, { ...cleared, measuredM: 3.8 }, asOf, rates)!;
    expect(after).toMatchObject({ measuredM: 3.8, basis: "measured" });
    expect(after.encroachmentM).toBeCloseTo(0.2, 12);
  });
});
