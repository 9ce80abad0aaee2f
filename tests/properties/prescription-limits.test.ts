import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Conflict, TreeSetting } from "../../src/core/model/conflict.ts";
import type { PlanOptions } from "../../src/core/model/plan.ts";
import type { Prescription } from "../../src/core/model/prescription.ts";
import { CERTAINTIES, CONDITIONS, DEFECTS, FORMS, HABITS } from "../../src/core/model/terms.ts";
import type { Tree } from "../../src/core/model/trees.ts";
import { prescribe } from "../../src/core/prescription/prescribe.ts";
import { schedule } from "../../src/core/schedule/schedule.ts";
import { addDays, isoDate } from "../../src/core/units/calendar.ts";
import { conflict, planOptions, setting, standard, traits, tree } from "../core/prescription/scene.ts";
import { breaches } from "./prescription/laws.ts";

const meters = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** A date some days before or after 1 July 2026. */
const dateAround = (from: number, to: number) =>
  fc.integer({ min: from, max: to }).map((days) => addDays(isoDate("2026-07-01"), days));

const anyTree = fc
  .record({
    form: fc.constantFrom(...FORMS),
    habit: fc.constantFrom(...HABITS),
    heightM: meters(1, 25),
    baseShare: meters(0, 0.7),
    radii: fc.tuple(meters(0.5, 7), meters(0.5, 7), meters(0.5, 7), meters(0.5, 7)),
    dbhM: fc.option(meters(0.02, 1.3)),
    latDeg: fc.constantFrom(-60, -35, -10, 0, 20, 45),
    condition: fc.constantFrom(...CONDITIONS),
    planted: fc.option(dateAround(-2000, -1)),
    lastPruned: fc.option(dateAround(-700, -1)),
    lastDoseShare: fc.option(meters(0, 0.3)),
    defects: fc.subarray([...DEFECTS], { maxLength: 3 }),
    genus: fc.constantFrom("Platanus", "Quercus", "Ulmus", "Malus", "Betula", "Pinus"),
    isEvergreen: fc.boolean(),
    springBlooming: fc.boolean(),
    bleeds: fc.boolean(),
    matureHeightM: meters(5, 30),
    radiusGrowthMPerYear: meters(0, 0.4),
  })
  .map((given): Tree => {
    const [northM, eastM, southM, westM] = given.radii;
    return tree({
      form: given.form,
      habit: given.habit,
      heightM: given.heightM,
      baseM: given.heightM * given.baseShare,
      radiusM: (northM + eastM + southM + westM) / 4,
      radii: { northM, eastM, southM, westM },
      dbhM: given.dbhM,
      latDeg: given.latDeg,
      condition: given.condition,
      planted: given.planted,
      lastPruned: given.lastPruned,
      lastDoseShare: given.lastDoseShare,
      defects: given.defects,
      traits: traits({
        genus: given.genus,
        isEvergreen: given.isEvergreen,
        isConifer: given.genus === "Pinus",
        springBlooming: given.springBlooming,
        bleeds: given.bleeds,
        matureHeightM: given.matureHeightM,
        radiusGrowthMPerYear: given.radiusGrowthMPerYear,
      }),
    });
  });

const anyConflict = fc
  .record({
    kind: fc.constantFrom(
      "roadway" as const,
      "walkway" as const,
      "building-side" as const,
      "conductor" as const,
      "sight-triangle" as const,
    ),
    measuredM: meters(-2, 4.5),
    distanceM: meters(0, 7),
    bearingDeg: meters(0, 360),
    wireM: meters(5, 14),
    certainty: fc.constantFrom(...CERTAINTIES),
    reachedOn: fc.oneof(fc.constant(isoDate("2026-07-01")), dateAround(0, 3600)),
    firstSeen: dateAround(-90, 0),
  })
  .map(({ kind, measuredM, ...given }) => {
    const isLater = given.reachedOn > "2026-07-01";
    const made = conflict(
      kind,
      kind === "building-side" || kind === "conductor" ? measuredM : Math.abs(measuredM),
      given,
    );
    return isLater ? { ...made, measuredM: made.minimumM + 0.2, encroachmentM: 0, hazard: null } : made;
  });

const anySetting = fc
  .record({
    conductorsKnown: fc.boolean(),
    line: fc.option(
      fc.record({
        crownGapM: meters(0, 12),
        trunkDistanceM: meters(0, 20),
        bearingDeg: meters(0, 360),
        heightM: meters(5, 14),
        voltageV: fc.option(fc.constantFrom(12_470, 69_000, 230_000)),
      }),
    ),
  })
  .map(
    ({ conductorsKnown, line }): TreeSetting =>
      setting({
        conductorsKnown: conductorsKnown || line !== null,
        conductor: line === null ? null : { withId: "c", approachM: 3.048, ...line },
      }),
  );

const anyScene = fc.record({
  tree: anyTree,
  conflicts: fc
    .array(anyConflict, { maxLength: 3 })
    .map((list) => list.map((one, at) => ({ ...one, withId: `w${at}`, conflictId: `t1/${one.kind}/w${at}` }))),
  setting: anySetting,
  asOf: dateAround(0, 364),
  region: fc.constantFrom(null, "US-WI", "US-TX", "US-CA", "CA-AB"),
});
type Scene = typeof anyScene extends fc.Arbitrary<infer T> ? T : never;

function planOf(scene: Scene): { plan: Prescription; options: PlanOptions } {
  const options = planOptions({ asOf: scene.asOf, place: { hardinessZone: 5, region: scene.region } });
  const drafts = prescribe([scene.tree], scene.conflicts, [scene.setting], standard, options);
  return { plan: schedule([scene.tree], drafts, scene.conflicts, [scene.setting], standard, options)[0]!, options };
}

/** N = 10,000 seeded scenes, planned once; the checks below are reading only. */
const PLANNED = fc.sample(anyScene, { seed: 1, numRuns: 10_000 }).map((scene) => ({ scene, ...planOf(scene) }));

const each = (check: (scene: Scene, plan: Prescription, options: PlanOptions) => void, first = PLANNED.length) => {
  for (const { scene, plan, options } of PLANNED.slice(0, first)) check(scene, plan, options);
};

describe("on 10,000 random trees", () => {
  it("no visit exceeds its limit, cuts the top, leaves its window, precedes establishment or follows a dose in its season", () => {
    const found: string[] = [];
    const seen = { visits: 0, staged: 0, safety: 0, outside: 0, structural: 0, cured: 0, leaders: 0, brief: 0 };
    each((scene, plan, options) => {
      found.push(...breaches({ ...scene, plan, options, standard }));
      seen.visits += plan.visits.length;
      if (plan.visits.length > 1) seen.staged += 1;
      if (plan.chosen !== null) seen.cured += 1;
      if (plan.chosen !== null && plan.options[plan.chosen]!.leadersToM !== undefined) seen.leaders += 1;
      if (plan.chosen !== null && plan.options[plan.chosen]!.lastsYears < 1) seen.brief += 1;
      for (const visit of plan.visits) {
        if (visit.urgency === "now") seen.safety += 1;
        if (visit.windowReason.includes("outside the season")) seen.outside += 1;
        if (visit.tasks.some(({ taskId }) => taskId.endsWith("training"))) seen.structural += 1;
      }
    });
    expect(found).toEqual([]);
    // The scenes must be such that there is something to check.
    expect(seen.visits).toBeGreaterThan(5000);
    expect(seen.cured).toBeGreaterThan(1500);
    expect(seen.staged).toBeGreaterThan(500);
    expect(seen.safety).toBeGreaterThan(500);
    expect(seen.outside).toBeGreaterThan(100);
    expect(seen.structural).toBeGreaterThan(50);
    expect(seen.leaders).toBeGreaterThan(20);
    expect(seen.brief).toBeGreaterThan(20);
  });

  it("a plain ground crew is never sent near a line, or where nobody knows the lines", () => {
    each(({ setting: around, conflicts }, plan) => {
      for (const visit of plan.visits) {
        if (visit.crew !== "ground") continue;
        expect(around.conductorsKnown).toBe(true);
        const ids = new Set(visit.tasks.flatMap((task) => task.conflictIds));
        expect(conflicts.some((one) => one.kind === "conductor" && ids.has(one.conflictId))).toBe(false);
        const near = around.conductor;
        if (near !== null && near.crownGapM < near.approachM)
          expect(near.trunkDistanceM).toBeGreaterThanOrEqual(near.approachM);
      }
    });
  });

  it("only sure conflicts are worked on, and a hazard of theirs is always now", () => {
    each(({ conflicts, tree: of }, plan) => {
      const sure = conflicts.filter((one) => one.certainty !== "possible");
      const ids = new Set(sure.map((one) => one.conflictId));
      for (const task of plan.tasks) for (const id of task.conflictIds) expect(ids.has(id)).toBe(true);
      expect(plan.urgency === "now").toBe(sure.some((one) => one.hazard !== null));
      if (plan.urgency === "clear") expect(conflicts).toEqual([]);
      if (sure.length === 0 && conflicts.length > 0 && of.condition !== "dead")
        expect(plan.refer?.code).toBe("inspect-first");
    });
  });

  it("answers the same for the same scene, in whole words", () => {
    each((scene, plan) => {
      expect(JSON.stringify(planOf(scene).plan)).toBe(JSON.stringify(plan));
      const text = JSON.stringify(plan);
      expect(text).not.toMatch(/NaN|Infinity|undefined|unknown (?!voltage|,)/);
      expect(plan.why.length).toBeGreaterThan(10);
      expect(plan.why.endsWith(".")).toBe(true);
    }, 1000);
  });
});

it("asks for no less when the clearance that is required grows", () => {
  fc.assert(
    fc.property(anyTree, meters(0, 4), meters(0, 360), meters(0.1, 1.5), (of, distanceM, bearingDeg, moreM) => {
      const doseTo = (extraM: number) => {
        const made: Conflict = conflict("roadway", 3, { distanceM, bearingDeg });
        const raised = {
          ...made,
          minimumM: made.minimumM + extraM,
          clearToM: made.clearToM + extraM,
          region: { ...made.region, highM: made.region.highM + extraM },
        };
        const drafts = prescribe([{ ...of, condition: "good" }], [raised], [setting()], standard, planOptions());
        return drafts[0]!.options.slice(0, 3).map(({ doseShare, lastsYears }) => ({ doseShare, lastsYears }));
      };
      const now = doseTo(0);
      const then = doseTo(moreM);
      for (let at = 0; at < now.length; at += 1) {
        // Options that last as long can be compared; others stopped at a limit.
        if (Math.abs(now[at]!.lastsYears - then[at]!.lastsYears) > 1e-9) continue;
        expect(then[at]!.doseShare).toBeGreaterThanOrEqual(now[at]!.doseShare - 1e-9);
      }
    }),
    { seed: 1, numRuns: 300 },
  );
});
