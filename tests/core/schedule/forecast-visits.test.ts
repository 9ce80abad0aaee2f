import { describe, expect, it } from "vitest";
import type { Conflict, TreeSetting } from "../../../src/core/model/conflict.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import { type ForecastVisit, forecastVisits } from "../../../src/core/schedule/forecast-visits.ts";
import { schedule } from "../../../src/core/schedule/schedule.ts";
import { workload } from "../../../src/core/schedule/workload.ts";
import { addDays, isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, conflict, planOptions, setting, standard, tree } from "../prescription/scene.ts";

function scene(of: Tree, conflicts: readonly Conflict[], around: Partial<TreeSetting> = {}) {
  const options = planOptions();
  const settings = [setting(around)];
  const drafts = prescribe([of], conflicts, settings, standard, options);
  const prescriptions = schedule([of], drafts, conflicts, settings, standard, options);
  return {
    prescription: prescriptions[0]!,
    visits: forecastVisits([of], prescriptions, conflicts, settings, standard, options),
  };
}

const days = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 86_400_000;

describe("forecastVisits", () => {
  it("returns to a cleared tree before its cure wears off, with the crew and hours of the visit before", () => {
    const { prescription, visits } = scene(tree(), [conflict("roadway", 4.1)]);
    const option = prescription.options[prescription.chosen!]!;
    const [planned, ...returns] = visits as [ForecastVisit, ...ForecastVisit[]];
    expect(planned).toMatchObject({ cause: "planned", due: prescription.visits[0]!.due });
    expect(returns.length).toBeGreaterThan(0);
    let before = planned;
    for (const visit of returns) {
      expect(visit).toMatchObject({ cause: "return", crew: planned.crew, hours: planned.hours });
      // Never after the cure has worn off, and never in the season of the visit before.
      expect(days(before.due, visit.due)).toBeLessThanOrEqual(Math.max(1, option.lastsYears) * 365.25 + 1);
      expect(days(before.due, visit.due)).toBeGreaterThanOrEqual(365);
      expect(visit.doseShare).toBe(option.doseShare);
      before = visit;
    }
    expect(visits.every(({ due }) => due <= "2036-07-01")).toBe(true);
  });

  it("expects a first visit where a crown grows into something after the cycle, in a window before that", () => {
    const reachedOn = isoDate("2033-05-20");
    const { prescription, visits } = scene(tree(), [conflict("walkway", 2.6, { reachedOn })]);
    expect(prescription.visits).toEqual([]);
    // 9 ft over a walk is in reach of a pole from the ground; 15 ft over a lane is not.
    expect(visits[0]).toMatchObject({ cause: "growth", crew: "ground", doseShare: null });
    expect(scene(tree(), [conflict("roadway", 4.4, { reachedOn })]).visits[0]).toMatchObject({ crew: "aerial" });
    expect(visits[0]!.due <= reachedOn).toBe(true);
    expect(days(visits[0]!.due, reachedOn)).toBeLessThan(366);
  });

  it("sends line clearance where the crown grows toward a line", () => {
    const reachedOn = isoDate("2033-05-20");
    const { visits } = scene(tree(), [conflict("conductor", 1, { reachedOn, distanceM: 6 })]);
    expect(visits[0]).toMatchObject({ cause: "growth", crew: "line-clearance" });
  });

  it("leaves out what is only possible, dead trees, referred ones, and what lies beyond ten years", () => {
    const later = { reachedOn: isoDate("2033-05-20") };
    expect(scene(tree(), [conflict("walkway", 2.6, { ...later, certainty: "possible" })]).visits).toEqual([]);
    expect(scene(tree({ condition: "dead" }), [conflict("walkway", 2.6, later)]).visits).toEqual([]);
    expect(scene(tree(), [conflict("walkway", 2.6, { reachedOn: isoDate("2036-07-02") })]).visits).toEqual([]);
    expect(scene(tree(), []).visits).toEqual([]);
  });
});

describe("the training of young trees", () => {
  // 3 m of 20, planted 2024, a caliper of 2 in: established in 2026. Ends at 6.5 m: (6.5 - 3) / 0.4 = 8.75 years, or 15 years from planting.
  const young = tree({
    heightM: 3,
    baseM: 1,
    radiusM: 1,
    dbhM: 0.05,
    planted: isoDate("2024-03-01"),
    caliperAtPlantingM: 0.0508,
  });

  it("comes round every three years, in the season, until the tree is too tall", () => {
    const { prescription, visits } = scene(young, []);
    expect(prescription.tasks.map(({ taskId }) => taskId)).toEqual(["t1/training"]);
    expect(visits.map(({ cause }) => cause)).toEqual(["planned", "training", "training"]);
    for (let at = 1; at < visits.length; at += 1) {
      // Three years, and the wait for the end of a window.
      expect(days(visits[at - 1]!.due, visits[at]!.due)).toBeGreaterThanOrEqual(3 * 365);
      expect(days(visits[at - 1]!.due, visits[at]!.due)).toBeLessThan(4 * 366);
      expect(visits[at]).toMatchObject({ crew: visits[0]!.crew, hours: visits[0]!.hours, doseShare: 0.1 });
      // No window of a deciduous tree holds a day of April or May.
      expect(visits[at]!.due).not.toMatch(/-0[45]-/);
    }
    const fast = { ...young, traits: { ...young.traits, heightGrowthMPerYear: 1.2 } };
    // (6.5 - 3) / 1.2 = 2.9 years: too tall when it would come round.
    expect(scene(fast, []).visits.map(({ cause }) => cause)).toEqual(["planned"]);
    const old = { ...young, planted: isoDate("2013-03-01") };
    // 15 years from planting are over in 2028.
    expect(scene(old, []).visits.map(({ cause }) => cause)).toEqual(["planned"]);
    const small = { ...young, traits: { ...young.traits, matureHeightM: 7 } };
    // Half of 7 m is 3.5 m, reached within three years.
    expect(scene(small, []).visits.map(({ cause }) => cause)).toEqual(["planned"]);
  });

  it("goes along with a visit that is expected in the same year, and leaves a growing season between others", () => {
    const walk = conflict("walkway", 2.6, { reachedOn: isoDate("2033-05-20") });
    const { visits } = scene(young, [walk]);
    const dues = visits.map(({ due }) => due);
    expect([...dues].sort()).toEqual(dues);
    expect(visits.filter(({ cause }) => cause === "growth")).toHaveLength(1);
    for (let at = 1; at < dues.length; at += 1) expect(days(dues[at - 1]!, dues[at]!)).toBeGreaterThanOrEqual(365);
    expect(visits.filter(({ cause }) => cause === "training").length).toBeLessThan(3);
  });

  it("counts the people of a crew beside its hours", () => {
    for (const { crew, hours, personHours } of scene(young, []).visits) {
      expect(personHours).toBeCloseTo(hours * standard.crew.people[crew], 12);
    }
  });
});

describe("workload", () => {
  const visit = (over: Partial<ForecastVisit>): ForecastVisit => ({
    treeId: "t1",
    treeRow: 0,
    cause: "planned",
    due: AS_OF,
    crew: "ground",
    hours: 0.5,
    personHours: 1,
    doseShare: 0.1,
    ...over,
  });

  it("adds hours up by month and crew, in order, and says why they are expected", () => {
    const rows = workload([
      visit({ due: addDays(AS_OF, 40), crew: "aerial", hours: 2, personHours: 6 }),
      visit({}),
      visit({ cause: "return", hours: 1.5, personHours: 3 }),
      visit({ crew: "line-clearance", cause: "training", personHours: 1.5 }),
    ]);
    const none = { planned: 0, return: 0, growth: 0, training: 0 };
    expect(rows).toEqual([
      {
        month: "2026-07",
        crew: "ground",
        visits: 2,
        hours: 2,
        personHours: 4,
        hoursByCause: { ...none, planned: 0.5, return: 1.5 },
      },
      {
        month: "2026-07",
        crew: "line-clearance",
        visits: 1,
        hours: 0.5,
        personHours: 1.5,
        hoursByCause: { ...none, training: 0.5 },
      },
      { month: "2026-08", crew: "aerial", visits: 1, hours: 2, personHours: 6, hoursByCause: { ...none, planned: 2 } },
    ]);
  });
});
