import { describe, expect, it } from "vitest";
import { lifeStage } from "../../../src/core/crown/life-stage.ts";
import { doseLimit } from "../../../src/core/prescription/dose-limit.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, standard, traits, tree } from "./scene.ts";

const limitOf = (over: Parameters<typeof tree>[0]) => doseLimit(tree(over), AS_OF, standard);

describe("the limit on one season's dose", () => {
  it("is 25 percent of a young, 20 of a medium, 15 of a mature and 10 of an over-mature tree, or one in poor condition", () => {
    // 8, 12 and 16 of 20 m are 40, 60 and 80 percent of the mature height; our policy divides at 50 and 75.
    expect(limitOf({ heightM: 8 })).toMatchObject({ share: 0.25, reason: "young: at most 25 % in 12 months" });
    expect(limitOf({})).toMatchObject({ share: 0.2, reason: "medium: at most 20 % in 12 months" });
    expect(limitOf({ heightM: 16 })).toMatchObject({ share: 0.15, reason: "mature: at most 15 % in 12 months" });
    expect(limitOf({ heightM: 16, dbhM: 1 })).toMatchObject({
      share: 0.1,
      reason: expect.stringMatching(/^over-mature/),
    });
    for (const heightM of [8, 12, 16]) expect(limitOf({ heightM, condition: "poor" }).share).toBe(0.1);
    expect(limitOf({ condition: "poor" }).reason).toContain("in poor condition");
    expect(limitOf({ condition: "fair" }).share).toBe(0.2);
  });

  it("never passes the ceiling of the standard", () => {
    const strict = { ...standard, pruning: { ...standard.pruning, ceilingShare: 0.12 } };
    for (const heightM of [8, 12, 16]) expect(doseLimit(tree({ heightM }), AS_OF, strict).share).toBe(0.12);
  });

  it("is spent by a pruning of the last twelve months", () => {
    const known = limitOf({ lastPruned: isoDate("2026-02-01"), lastDoseShare: 0.1 });
    // Of the 20 percent of a medium tree.
    expect(known.leftShare).toBeCloseTo(0.1, 12);
    expect(known.freshOn).toBe("2027-02-01");
    const unknown = limitOf({ lastPruned: isoDate("2026-02-01") });
    expect(unknown.leftShare).toBe(0);
  });

  it("says what was spent, when and how much of it is known", () => {
    const told = (over: Parameters<typeof tree>[0]) => limitOf({ lastPruned: isoDate("2026-02-01"), ...over }).reason;
    expect(told({ lastDoseShare: 0.1 })).toBe(
      "medium: at most 20 % in 12 months; 10 % spent by the pruning of 1 Feb 2026",
    );
    expect(told({})).toBe("medium: at most 20 % in 12 months; all of it counted as spent by the pruning of 1 Feb 2026");
  });

  it("is whole where a pruning is known to have taken nothing, and nothing is left where it took more", () => {
    expect(limitOf({ lastPruned: isoDate("2026-02-01"), lastDoseShare: 0 })).toEqual(limitOf({}));
    expect(limitOf({ lastPruned: isoDate("2026-02-01"), lastDoseShare: 0.24 }).leftShare).toBe(0);
  });

  it("is no larger for poor condition than the tree's stage allows", () => {
    const lax = { ...standard, pruning: { ...standard.pruning, stressedShare: 0.2 } };
    const at = (heightM: number) => doseLimit(tree({ heightM, condition: "poor" }), AS_OF, lax);
    expect(at(16)).toMatchObject({ share: 0.15, reason: "mature: at most 15 % in 12 months" });
    // As much as a medium tree's own: the condition is told.
    expect(at(12)).toMatchObject({ share: 0.2, reason: "in poor condition: at most 20 % in 12 months" });
  });

  it("is whole again after twelve months to the day", () => {
    expect(limitOf({ lastPruned: isoDate("2025-07-01") }).freshOn).toBeNull();
    expect(limitOf({ lastPruned: isoDate("2025-07-02") }).freshOn).toBe("2026-07-02");
  });
});

it("tells a tree's life stage by its species' mature height, and the largest by a measured stem", () => {
  const stages = [9.9, 10, 14.9, 15].map((heightM) =>
    lifeStage(tree({ heightM, traits: traits({ matureHeightM: 20 }) })),
  );
  expect(stages).toEqual(["young", "medium", "medium", "mature"]);
  const old = { heightM: 15, dbhM: 1.2 };
  expect(lifeStage(tree(old))).toBe("over-mature");
  expect(lifeStage(tree({ ...old, dbhBasis: "estimated" }))).toBe("mature");
  expect(lifeStage(tree({ ...old, dbhM: 0.99 }))).toBe("mature");
  expect(lifeStage(tree({ ...old, heightM: 14 }))).toBe("medium");
});
