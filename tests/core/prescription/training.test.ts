import { describe, expect, it } from "vitest";
import type { Tree } from "../../../src/core/model/trees.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import { trainingOf } from "../../../src/core/prescription/training.ts";
import { schedule } from "../../../src/core/schedule/schedule.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { conflict, planOptions, setting, standard, tree } from "./scene.ts";

/** 4 m of a species of 20 m, 5 cm thick, crown from 1.5 m. */
const young = (over: Parameters<typeof tree>[0] = {}) =>
  tree({ heightM: 4, baseM: 1.5, radiusM: 1, dbhM: 0.05, ...over });
const planOf = (of: Tree, conflicts: Parameters<typeof schedule>[2] = [], by = standard) => {
  const drafts = prescribe([of], conflicts, [setting()], by, planOptions());
  return schedule([of], drafts, conflicts, [setting()], by, planOptions())[0]!;
};
const dateOf = (of: Tree) => trainingOf(of, standard, planOptions())?.notBefore ?? null;

describe("structural pruning of young trees", () => {
  it("begins when the roots are established, not before", () => {
    // Planted 1 October 2025, 2 in in zone 5: 2 x 12 months.
    const planted = young({ planted: isoDate("2025-10-01"), caliperAtPlantingM: 0.0508 });
    expect(dateOf(planted)).toBe("2027-10-01");
    const { visits, remedy } = planOf(planted);
    expect(remedy).toBe("structural");
    expect(visits).toHaveLength(1);
    // Out of leaf: fall hardening ends on 31 October.
    expect(visits[0]).toMatchObject({ windowStart: "2027-11-01", windowEnd: "2028-03-31", due: "2028-03-31" });
    expect(visits[0]!.tasks[0]).toMatchObject({ objective: "structure", timing: "window", cut: "reduction" });
    expect(visits[0]!.doseShare).toBe(0.1);
  });

  it("comes round three years after the last pruning", () => {
    const planted = isoDate("2021-04-01");
    expect(dateOf(young({ planted, lastPruned: isoDate("2025-02-10") }))).toBe("2028-02-10");
    // Never pruned since it was established: at once. One before that was no training.
    expect(dateOf(young({ planted }))).toBe("2026-07-01");
    expect(dateOf(young({ planted: isoDate("2023-04-01"), lastPruned: isoDate("2024-02-10") }))).toBe("2026-07-01");
    const pruned = planOf(young({ planted, lastPruned: isoDate("2025-02-10") }));
    // 10 February 2028 lies in the open window to 31 March.
    expect(pruned.visits[0]!.windowStart).toBe("2028-02-10");
  });

  it("ends with the height, the years and the form that are trained", () => {
    const planted = isoDate("2020-04-01");
    expect(dateOf(young({ planted }))).not.toBeNull();
    expect(dateOf(young({ planted, heightM: 6.6 }))).toBeNull();
    expect(dateOf(young({ planted: isoDate("2011-06-30") }))).toBeNull();
    expect(dateOf(young({ planted, form: "palm" }))).toBeNull();
    expect(dateOf(young({ planted, form: "conifer" }))).toBeNull();
    expect(dateOf(young({ planted, condition: "poor" }))).toBeNull();
    expect(dateOf(tree({ planted }))).toBeNull();
  });

  it("takes an undated tree for young by measured sizes only, and lets it root first", () => {
    // May be new: 5 cm are 1.97 in, 24 months in zone 5.
    expect(dateOf(young())).toBe("2028-07-01");
    expect(dateOf(young({ dbhM: 0.12 }))).toBeNull();
    const of = young();
    expect(dateOf({ ...of, height: { ...of.height, basis: "estimated" } })).toBeNull();
  });

  it("goes with the visit that clears, where both fit, and is not counted twice with reported defects", () => {
    const of = young({ planted: isoDate("2020-04-01"), radiusM: 1.5 });
    const walk = conflict("walkway", 2.3, { distanceM: 1.35 });
    // For a cycle of one year the tips are cut back by so little that there is room for both.
    const yearly = { ...standard, pruning: { ...standard.pruning, cycleYears: 1 } };
    const { visits, doseLimitShare } = planOf(of, [walk], yearly);
    expect(visits).toHaveLength(1);
    expect(visits[0]!.tasks.map(({ remedy }) => remedy)).toContain("structural");
    expect(visits[0]!.doseShare).toBeLessThanOrEqual(doseLimitShare + 1e-9);
    const split = planOf(young({ planted: isoDate("2020-04-01"), defects: ["codominant-stem"] }));
    expect(split.tasks.map(({ taskId }) => taskId)).toEqual(["t1/codominant-stem"]);
  });

  it("is left out where the standard asks for none", () => {
    const without = { ...standard, pruning: { ...standard.pruning, training: null } };
    expect(trainingOf(young({ planted: isoDate("2020-04-01") }), without, planOptions())).toBeNull();
  });
});
