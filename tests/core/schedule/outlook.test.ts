import { describe, expect, it } from "vitest";
import type { Conflict } from "../../../src/core/model/conflict.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import { URGENCIES } from "../../../src/core/model/terms.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import { forecastVisits } from "../../../src/core/schedule/forecast-visits.ts";
import { Outlook } from "../../../src/core/schedule/outlook.ts";
import { schedule } from "../../../src/core/schedule/schedule.ts";
import { WORLDS } from "../../../src/core/schedule/tree-on-date.ts";
import { addDays, addMonths, type IsoDate, isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, conflict, planOptions, setting, standard, tree } from "../prescription/scene.ts";

function scene(of: Tree, conflicts: readonly Conflict[]) {
  const options = planOptions();
  const settings = [setting()];
  const drafts = prescribe([of], conflicts, settings, standard, options);
  const prescriptions = schedule([of], drafts, conflicts, settings, standard, options);
  const plan = { trees: [of], conflicts, settings, prescriptions, options } as unknown as Plan;
  const visits = forecastVisits([of], prescriptions, conflicts, settings, standard, options);
  return { prescription: prescriptions[0]!, visits, outlook: new Outlook(plan, standard, visits) };
}

const days = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 86_400_000;
const grownIn2033 = { reachedOn: isoDate("2033-05-20") };
const CASES: readonly (readonly [string, Tree, readonly Conflict[]])[] = [
  ["a lane below its minimum", tree(), [conflict("roadway", 4.2)]],
  ["a hazard over a lane", tree(), [conflict("roadway", 3.5, { hazard: "vehicle-height" })]],
  ["a walk reached later", tree(), [conflict("walkway", 2.6, grownIn2033)]],
  ["a conflict that is only possible", tree(), [conflict("walkway", 2.2, { certainty: "possible" })]],
  ["a dead tree", tree({ condition: "dead" }), [conflict("walkway", 2.2)]],
  ["a dead limb", tree({ defects: ["dead-limb"] }), [conflict("walkway", 2.2)]],
  ["nothing at all", tree(), []],
];

describe("a tree on a date", () => {
  it.each(CASES)("is on the as-of date what the plan says, with %s", (_, of, conflicts) => {
    const { outlook, prescription } = scene(of, conflicts);
    for (const world of WORLDS) {
      const { urgency, overdue, ahead, done } = outlook.treeOn(0, AS_OF, world);
      expect({ urgency, overdue }, world).toEqual({ urgency: prescription.urgency, overdue: prescription.overdue });
      expect(ahead.flatMap(({ visit }) => visit ?? [])).toEqual(prescription.visits);
      expect(done).toEqual([]);
    }
  });

  it.each(CASES)(
    "never gets less urgent while nothing is done, nor a passed due date undone, with %s",
    (_, of, conflicts) => {
      const { outlook } = scene(of, conflicts);
      let before = outlook.treeOn(0, AS_OF, "nothing-done");
      for (let month = 1; month <= 120; month += 1) {
        const now = outlook.treeOn(0, addMonths(AS_OF, month), "nothing-done");
        expect(URGENCIES.indexOf(now.urgency)).toBeLessThanOrEqual(URGENCIES.indexOf(before.urgency));
        if (before.overdue) expect(now.overdue).toBe(true);
        before = now;
      }
    },
  );

  it("has a visit done the day after it was due, as planned, and overdue where nothing is done", () => {
    const { outlook, prescription } = scene(tree(), [conflict("roadway", 4.2)]);
    const { due } = prescription.visits[0]!;
    expect(outlook.treeOn(0, due, "as-planned").done).toEqual([]);
    expect(outlook.treeOn(0, due, "nothing-done").overdue).toBe(false);
    const next = addDays(due, 1);
    const planned = outlook.treeOn(0, next, "as-planned");
    expect(planned.done).toMatchObject([{ on: due }]);
    expect(planned.overdue).toBe(false);
    expect(planned.workedIds.size).toBe(1);
    expect(planned.ahead[0]).toMatchObject({ cause: "return", visit: null });
    expect(outlook.treeOn(0, next, "nothing-done")).toMatchObject({ overdue: true, urgency: "next-window" });
  });

  it("is wanted in the next window again when its return comes near, and is done again", () => {
    const { outlook, visits } = scene(tree(), [conflict("roadway", 4.2)]);
    const back = visits.find(({ cause }) => cause === "return")!;
    expect(outlook.treeOn(0, back.due, "as-planned").urgency).toBe("next-window");
    const after = outlook.treeOn(0, addDays(back.due, 1), "as-planned");
    expect(after.done.at(-1)).toEqual({ on: back.due, tasks: null });
    expect(["this-cycle", "watch"]).toContain(after.urgency);
  });

  it("stays now and overdue where a hazard is left, and is free of it once its visit is done", () => {
    const { outlook, prescription } = scene(tree(), [conflict("roadway", 3.5, { hazard: "vehicle-height" })]);
    expect(prescription.urgency).toBe("now");
    const late = addDays(prescription.visits[0]!.due, 1);
    expect(outlook.treeOn(0, late, "nothing-done")).toMatchObject({ urgency: "now", overdue: true });
    expect(outlook.treeOn(0, late, "as-planned").urgency).not.toBe("now");
  });

  it("works the plan's growth before the minimum is reached, and without work finds it reached", () => {
    const { outlook, visits } = scene(tree(), [conflict("walkway", 2.6, grownIn2033)]);
    expect(outlook.treeOn(0, grownIn2033.reachedOn, "as-planned").done).toHaveLength(
      visits.filter(({ due }) => due < grownIn2033.reachedOn).length,
    );
    expect(outlook.treeOn(0, isoDate("2033-05-19"), "nothing-done").urgency).not.toBe("now");
    expect(outlook.treeOn(0, grownIn2033.reachedOn, "nothing-done").urgency).toBe("next-window");
  });

  it("leaves a dead tree as it is", () => {
    const { outlook } = scene(tree({ condition: "dead" }), [conflict("walkway", 2.2)]);
    for (const world of WORLDS) {
      expect(outlook.treeOn(0, outlook.endsOn, world)).toMatchObject({ urgency: "next-window", done: [] });
    }
  });

  it("is not to be asked for before the plan or past its ten years", () => {
    const { outlook } = scene(tree(), []);
    expect(outlook.endsOn).toBe("2036-07-01");
    expect(() => outlook.treeOn(0, addDays(AS_OF, -1), "as-planned")).toThrow(/2026-06-30/);
    expect(() => outlook.treeOn(0, addDays(outlook.endsOn, 1), "as-planned")).toThrow(RangeError);
    expect(() => outlook.treeOn(1, AS_OF, "as-planned")).toThrow(/0 to 0, got 1/);
  });
});

describe("a crown on a date", () => {
  const { droopMPerYear } = standard.pruning;

  it("grows by its species' rates and droops, and stands still where no year has passed", () => {
    const { outlook } = scene(tree(), []);
    expect(outlook.on(AS_OF, "nothing-done").crownOn(0)).toMatchObject({ heightM: 12, crownBaseM: 3 });
    // 3653 days are 10.0014 years: 0.4 m a year up, 0.15 m a year out.
    const years = days(AS_OF, "2036-07-01") / 365.25;
    const { heightM, crownBaseM, radii } = outlook.on(isoDate("2036-07-01"), "nothing-done").crownOn(0);
    expect(heightM).toBeCloseTo(12 + 0.4 * years, 9);
    expect(radii.northM).toBeCloseTo(4 + 0.15 * years, 9);
    expect(crownBaseM).toBeCloseTo(3 - droopMPerYear * years, 9);
  });

  it("stands on what a lift leaves, and sinks from there", () => {
    const { outlook, prescription } = scene(tree({ baseM: 1.5, heightM: 14, radiusM: 5 }), [
      conflict("roadway", 3.9, { admits: ["lift"] }),
    ]);
    const lifts = prescription.visits.flatMap(({ tasks }) => tasks).filter(({ remedy }) => remedy === "lift");
    const liftedM = Math.max(...lifts.map(({ belowM }) => belowM!));
    const { due } = prescription.visits.findLast(({ tasks }) => tasks.some(({ remedy }) => remedy === "lift"))!;
    const later: IsoDate = addDays(due, 100);
    expect(outlook.on(later, "as-planned").crownOn(0).crownBaseM).toBeCloseTo(
      liftedM - (droopMPerYear * 100) / 365.25,
      9,
    );
    expect(outlook.on(later, "nothing-done").crownOn(0).crownBaseM).toBeLessThan(1.5);
  });
});
