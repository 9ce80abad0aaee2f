import { describe, expect, it } from "vitest";
import { doseLimit, isMature, isYoung } from "../../../src/core/prescription/dose-limit.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, standard, traits, tree } from "./scene.ts";

const limitOf = (over: Parameters<typeof tree>[0]) => doseLimit(tree(over), AS_OF, standard);

describe("the limit on one season's dose", () => {
  it("is 25, mature 15, in poor condition 10 percent", () => {
    expect(limitOf({}).share).toBe(0.25);
    // 16 of 20 m is 80 percent of the mature height, over the 75 of our policy.
    expect(limitOf({ heightM: 16 }).share).toBe(0.15);
    expect(limitOf({ heightM: 16, condition: "poor" }).share).toBe(0.1);
    expect(limitOf({ condition: "poor" }).reason).toContain("poor condition");
  });

  it("is spent by a pruning of the last twelve months", () => {
    const known = limitOf({ lastPruned: isoDate("2026-02-01"), lastDoseShare: 0.1 });
    expect(known.leftShare).toBeCloseTo(0.15, 12);
    expect(known.freshOn).toBe("2027-02-01");
    const unknown = limitOf({ lastPruned: isoDate("2026-02-01") });
    expect(unknown.leftShare).toBe(0);
  });

  it("is whole again after twelve months to the day", () => {
    expect(limitOf({ lastPruned: isoDate("2025-07-01") }).freshOn).toBeNull();
    expect(limitOf({ lastPruned: isoDate("2025-07-02") }).freshOn).toBe("2026-07-02");
  });
});

it("tells young and mature trees by their species' mature height", () => {
  const of = (heightM: number) => tree({ heightM, traits: traits({ matureHeightM: 20 }) });
  expect([isYoung(of(9.9)), isYoung(of(10)), isMature(of(14.9)), isMature(of(15))]).toEqual([true, false, false, true]);
});
