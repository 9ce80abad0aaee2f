import { describe, expect, it } from "vitest";
import type { Conflict, TreeSetting } from "../../../src/core/model/conflict.ts";
import type { PlanOptions } from "../../../src/core/model/plan.ts";
import type { Prescription } from "../../../src/core/model/prescription.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import { schedule } from "../../../src/core/schedule/schedule.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { conflict, planOptions, setting, standard, traits, tree } from "../prescription/scene.ts";

function planOf(
  of: Tree,
  conflicts: readonly Conflict[],
  around: Partial<TreeSetting> = {},
  options: Partial<PlanOptions> = {},
): Prescription {
  const given = planOptions(options);
  const settings = [setting(around)];
  const drafts = prescribe([of], conflicts, settings, standard, given);
  return schedule([of], drafts, conflicts, settings, standard, given)[0]!;
}

describe("hazards", () => {
  it("have their days from when they were first seen", () => {
    // 3.5 m over a lane is under 13 ft 6 in; 30 days from 1 July.
    const plan = planOf(tree(), [conflict("roadway", 3.5)]);
    expect(plan.urgency).toBe("now");
    expect(plan.overdue).toBe(false);
    expect(plan.visits[0]).toMatchObject({
      due: "2026-07-31",
      windowStart: "2026-07-01",
      windowEnd: "2026-07-31",
      urgency: "now",
    });
  });

  it("are overdue once the days have run out, and get as many again to be worked in", () => {
    const plan = planOf(tree(), [conflict("roadway", 3.5, { firstSeen: isoDate("2026-03-01") })]);
    expect(plan.overdue).toBe(true);
    expect(plan.visits[0]).toMatchObject({
      due: "2026-03-31",
      windowStart: "2026-07-01",
      windowEnd: "2026-07-31",
      overdue: true,
    });
  });

  it("may be worked on in a closed season, with its precautions, while the rest waits", () => {
    const oak = tree({ traits: traits({ genus: "Quercus" }) });
    const wall = conflict("building-side", 0.3, { distanceM: 4, bearingDeg: 270 });
    const plan = planOf(
      oak,
      [conflict("roadway", 3.5), wall],
      {},
      { asOf: isoDate("2026-07-01"), place: { hardinessZone: 5, region: "US-WI" } },
    );
    // Wisconsin closes oaks from 1 April to 31 July.
    expect(plan.visits).toHaveLength(2);
    expect(plan.visits[0]!.tasks.flatMap((task) => task.conflictIds)).toEqual(["t1/roadway/x"]);
    expect(plan.visits[0]!.windowReason).toContain("oak wilt");
    expect(plan.visits[0]!.windowReason).toContain("disinfect");
    expect(plan.visits[1]!.tasks.flatMap((task) => task.conflictIds)).toEqual(["t1/building-side/x"]);
    expect(plan.visits[1]!.urgency).toBe("this-cycle");
    expect(plan.visits[1]!.windowStart >= "2027-07-31").toBe(true);
  });

  it("do not run for a conflict that is only possible", () => {
    const plan = planOf(tree(), [conflict("roadway", 3.5, { certainty: "possible" })]);
    expect(plan.urgency).toBe("next-window");
    expect(plan.visits).toEqual([]);
    expect(plan.refer?.code).toBe("inspect-first");
  });
});

describe("urgency", () => {
  // Over a lane, but under no legal vehicle: 4.2 m of 4.27 m.
  const low = (reachedOn: string) => conflict("roadway", 4.2, { reachedOn: isoDate(reachedOn), distanceM: 2.5 });

  it("is next-window where the minimum is reached or the next window is the last", () => {
    expect(planOf(tree(), [low("2026-07-01")]).urgency).toBe("next-window");
    const closed = { asOf: isoDate("2026-10-01") };
    expect(planOf(tree(), [low("2027-04-20")], {}, closed)).toMatchObject({
      urgency: "next-window",
      visits: [{ due: "2027-03-31" }],
    });
  });

  it("is this-cycle for what is due within five years", () => {
    const plan = planOf(tree(), [low("2029-05-01")], {}, { asOf: isoDate("2026-10-01") });
    expect(plan).toMatchObject({ urgency: "this-cycle", visits: [{ due: "2029-03-31" }] });
  });

  it("is watch beyond the cycle, and nobody is sent", () => {
    const plan = planOf(tree(), [low("2033-05-01")]);
    expect(plan.urgency).toBe("watch");
    expect(plan.visits).toEqual([]);
    expect(plan.remedy).toBe("none");
  });

  it("is clear only when every kind could be checked", () => {
    expect(planOf(tree(), []).urgency).toBe("clear");
    const partly = planOf(tree(), [], { notChecked: ["conductor", "sign"] });
    expect(partly.urgency).toBe("watch");
    expect(partly.why).toBe("No conflict found among what was checked. Not checked: overhead lines and signs.");
  });

  it("is next-window for a tree that is referred with a reached conflict", () => {
    const wire = conflict("conductor", 0.6, { distanceM: 1, wireM: 9.3, minimumM: 1 });
    const plan = planOf(tree({ heightM: 9 }), [{ ...wire, hazard: null }]);
    expect(plan.refer?.code).toBe("only-top-would-cure");
    expect(plan.urgency).toBe("next-window");
  });
});

describe("the urgency of a referral", () => {
  it("is next-window for a dead or decayed tree, whatever stands around it", () => {
    const far = conflict("walkway", 3, { reachedOn: isoDate("2034-01-01") });
    expect(planOf(tree({ condition: "dead" }), [far]).urgency).toBe("next-window");
    expect(planOf(tree({ defects: ["decay"] }), [far]).urgency).toBe("next-window");
    expect(planOf(tree(), [far]).urgency).toBe("watch");
  });

  it("is that of an open conflict that no visit cures, though a later visit is dated", () => {
    // A broad crown beside a wire, in poor condition: a third of it, too much for three visits of 10 percent. The walk is reached in 2029.
    const wire = conflict("conductor", 1, { distanceM: 3.5, wireM: 6, minimumM: 1.2 });
    const walk = conflict("walkway", 2.6, { bearingDeg: 270, distanceM: 4.5, reachedOn: isoDate("2029-05-01") });
    const plan = planOf(tree({ baseM: 2, radiusM: 6, condition: "poor" }), [{ ...wire, hazard: null }, walk]);
    expect(plan.refer?.code).toBe("dose-beyond-limits");
    expect(plan.visits.map(({ urgency }) => urgency)).toEqual(["this-cycle"]);
    expect(plan.urgency).toBe("next-window");
  });
});

describe("visits", () => {
  it("follow one another in open seasons, a year at least after the window before", () => {
    const cone = tree({ heightM: 16, baseM: 1, radiusM: 6, dbhM: 0.6, habit: "cone" });
    const plan = planOf(cone, [conflict("roadway", 4.2, { distanceM: 0.5 })]);
    expect(plan.visits.length).toBeGreaterThan(1);
    expect(plan.visits.map(({ number }) => number)).toEqual(plan.visits.map((_, at) => at + 1));
    // The first window closes on 14 September 2026. A year on only that day is left of the summer's, so the winter's is taken.
    expect(plan.visits[0]).toMatchObject({ windowStart: "2026-07-01", windowEnd: "2026-09-14" });
    expect(plan.visits[1]).toMatchObject({ windowStart: "2027-11-01", windowEnd: "2028-03-31", urgency: "this-cycle" });
    expect(plan.visits[0]!.openAfter).toEqual(["the lane: not yet clear"]);
    expect(plan.visits.at(-1)!.openAfter).toEqual([]);
  });

  it("of a new planting wait until it is established, save for dead wood", () => {
    const planted = isoDate("2025-10-01");
    const plan = planOf(tree({ planted, baseM: 2, defects: ["dead-limb"] }), [conflict("walkway", 2.2)]);
    // Two inches in zone 5 take 24 months, to 1 October 2027; the next open day is 1 November.
    expect(plan.visits.map(({ windowStart }) => windowStart)).toEqual(["2026-07-01", "2027-11-01"]);
    expect(plan.visits[0]!.tasks.map(({ remedy }) => remedy)).toEqual(["remedial"]);
    // 180 days from 1 July.
    expect(plan.visits[0]!.due).toBe("2026-12-28");
    expect(plan.openUntilYear).toBe(2027);
    expect(plan.why).toContain("newly planted");
  });

  it("take dead wood off on the way when the first visit comes soon", () => {
    const plan = planOf(tree({ defects: ["dead-limb"] }), [conflict("roadway", 4.2, { distanceM: 2.5 })]);
    expect(plan.visits).toHaveLength(1);
    expect(plan.visits[0]!.tasks.map(({ remedy }) => remedy)).toEqual(["remedial", "remove-limb"]);
    // The summer's window closes before 180 days are over.
    expect(plan.visits[0]!.due).toBe("2026-09-14");
  });

  it("come within a month for a branch that hangs loose, and take the rest with them where its window is open", () => {
    const open = planOf(tree({ defects: ["hanger"] }), [conflict("roadway", 4.2, { distanceM: 2.5 })]);
    expect(open.visits).toMatchObject([{ windowStart: "2026-07-01", due: "2026-07-31" }]);
    // From 1 October to 1 November the window is closed: thirty days end before a fortnight of it.
    const closed = planOf(
      tree({ defects: ["hanger"] }),
      [conflict("roadway", 4.2, { distanceM: 2.5, reachedOn: isoDate("2026-10-01") })],
      {},
      { asOf: isoDate("2026-10-01") },
    );
    expect(closed.visits.map(({ windowStart, due }) => [windowStart, due])).toEqual([
      ["2026-10-01", "2026-10-31"],
      ["2026-11-01", "2027-03-31"],
    ]);
  });

  it("wait out the year of a pruning whose dose is not known", () => {
    const plan = planOf(tree({ lastPruned: isoDate("2026-02-01") }), [conflict("roadway", 4.2, { distanceM: 2.5 })]);
    expect(plan.visits[0]!.windowStart).toBe("2027-02-01");
    expect(plan.why).toContain("pruned less than 12 months ago");
  });

  it("are refused to a hazard that comes before live wood may be taken, with the reason", () => {
    const plan = planOf(tree({ lastPruned: isoDate("2026-02-01") }), [conflict("roadway", 3.5)]);
    expect(plan.urgency).toBe("now");
    expect(plan.refer?.code).toBe("hazard-before-allowed");
    expect(plan.visits[0]!.windowStart).toBe("2027-02-01");
  });

  it("have ids of their tree and number", () => {
    expect(planOf(tree(), [conflict("roadway", 3.5)]).visits[0]!.visitId).toBe("t1/v1");
  });

  it("are withheld where the rules leave no day", () => {
    const closed = standard.seasons.map((rule) =>
      rule.id === "first-flush" ? { ...rule, avoidFrom: "01-01", avoidTo: "12-31" } : rule,
    );
    const given = planOptions();
    const rules = { ...standard, seasons: closed };
    const conflicts = [conflict("roadway", 4.2, { distanceM: 2.5 })];
    const drafts = prescribe([tree()], conflicts, [setting()], rules, given);
    const [plan] = schedule([tree()], drafts, conflicts, [setting()], rules, given);
    expect(plan!.visits).toEqual([]);
    expect(plan!.refer?.code).toBe("no-allowed-season");
  });
});
