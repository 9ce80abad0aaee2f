import { describe, expect, it } from "vitest";
import type { Conflict, TreeSetting } from "../../../src/core/model/conflict.ts";
import type { Defect } from "../../../src/core/model/terms.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { conflict, planOptions, setting, standard, traits, tree } from "./scene.ts";

const draftOf = (
  of: Tree,
  conflicts: readonly Conflict[],
  around: Partial<TreeSetting> = {},
  units: "us" | "metric" = "metric",
) => prescribe([of], conflicts, [setting(around)], standard, planOptions({ units }))[0]!;

describe("what a resident reads", () => {
  it("names the thing, what was measured and needed, and what the cure takes", () => {
    const draft = draftOf(tree(), [conflict("roadway", 3.1, { withName: "Main Street" })]);
    expect(draft.why).toBe(
      "Branches hang 3.1 m above Main Street; 4.3 m is needed. Removing low limbs on the street side takes about 6 % of the crown and should last five years.",
    );
    expect(draftOf(tree(), [conflict("roadway", 3.1)], {}, "us").why).toContain(
      "Branches hang 10 ft 2 in above the lane; 14 ft is needed.",
    );
  });

  it("says in two sentences at most why nothing is cut", () => {
    const dead = draftOf(tree({ condition: "dead" }), [conflict("roadway", 3.1)]);
    expect(dead.refer?.code).toBe("dead");
    expect(dead.stages).toEqual([]);
    expect(dead.doseTotalShare).toBe(0);
    expect(dead.remedy).toBe("refer");
  });
});

describe("what a resident reads of time", () => {
  it("rounds the years a cure lasts down", () => {
    // The clear-to lasts 0.3048 / 0.32 = 0.95 years; the limit leaves room for two steps of half a year more.
    const low = conflict("roadway", 2.2, { distanceM: 1 });
    const short = draftOf(tree({ heightM: 7, baseM: 2, radiusM: 3.5, dbhM: 0.2 }), [low]);
    expect(short.options[short.chosen!]!.lastsYears).toBeCloseTo(1.9525, 9);
    expect(short.why).toContain("should last one year.");
  });

  it("counts the visits of the cure, not those for other work", () => {
    const poor = tree({ condition: "poor", defects: ["codominant-stem", "included-bark"] });
    const draft = draftOf(poor, [conflict("roadway", 4, { distanceM: 2 })]);
    expect(draft.stages.length).toBeGreaterThan(1);
    expect(draft.why).not.toContain("visits");
  });

  it("does not call a tree new of which no planting date is known", () => {
    const undated = tree({ dbhM: 0.05, heightM: 5, baseM: 1.5, radiusM: 1.4 });
    const walk = conflict("walkway", 1.6, { distanceM: 1 });
    const draft = draftOf(undated, [walk]);
    // 1.97 in in zone 5: 24 months.
    expect(draft.why).toContain(
      "No planting date is known and its thin stem may be new, so live branches stay on it until 1 Jul 2028 unless it proves to be older.",
    );
    expect(draft.refer?.code).toBe("confirm-planting-date");
    expect(draft.refer?.reason).toContain("find out when it was planted. If that is more than 24 months ago");
    const dated = draftOf({ ...undated, planted: isoDate("2026-03-01") }, [walk]);
    expect(dated.why).toContain("The tree is newly planted, and live branches stay on it until 1 Mar 2028.");
    expect(dated.refer?.code).toBe("hazard-before-allowed");
    // First seen as a hazard three years ago, it stood there then.
    const known = draftOf(undated, [{ ...walk, firstSeen: isoDate("2023-07-01") }]);
    expect(known.earliest).toBeNull();
    expect(known.refer).toBeNull();
  });

  it("has dates as people write them", () => {
    const pruned = tree({ lastPruned: isoDate("2026-03-14"), lastDoseShare: 0.1 });
    expect(draftOf(pruned, []).doseLimitReason).toContain("10 % spent by the pruning of 14 Mar 2026");
  });
});

describe("tasks", () => {
  it("say where, how and with which method", () => {
    const [task] = draftOf(tree(), [conflict("roadway", 3.1)]).tasks;
    // 4.2672 + 5 * 0.12 = 4.867 m.
    expect(task).toMatchObject({
      remedy: "remove-limb",
      where: "on the east side, below 4.9 m",
      method: "three-cut",
      cut: "removal",
      timing: "window",
    });
    expect(task!.belowM).toBeCloseTo(4.8672, 9);
    expect(task!.objective).toBe("risk-reduction");
    // What the cut aims at: the minimum and what droops and grows back in five years.
    expect(task!.targetM).toBeCloseTo(4.8672, 9);
  });

  it("say how far tips are cut back", () => {
    // 0.32 m a year less the foot of the clear-to is 1.295 m more, of which 1.214 m grow back: 1.2 m before the edge.
    const shortened = draftOf(tree(), [conflict("roadway", 4.2, { distanceM: 3.5, withName: "Main Street" })])
      .tasks[0]!;
    expect(shortened.remedy).toBe("shorten");
    expect(shortened.where).toBe("on the east side, below 5.9 m, back to 1.2 m before the edge of Main Street");
    const young = tree({ traits: traits({ matureHeightM: 30 }) });
    const wall = draftOf(young, [conflict("building-side", 0.3, { distanceM: 4.3, eavesM: 30 })]).tasks[0]!;
    expect(wall.where).toBe("on the east side, to 2.4 m from the wall");
    expect(wall.targetM).toBeCloseTo(0.9144 + 5 * 0.3, 9);
  });

  it("are not given for a conflict to come where no branch will be in the way", () => {
    const later = conflict("walkway", 2.6, { distanceM: 6, bearingDeg: 270, reachedOn: isoDate("2031-01-01") });
    const draft = draftOf(tree(), [conflict("roadway", 3.5), later]);
    expect(draft.tasks.flatMap((task) => task.conflictIds)).toEqual(["t1/roadway/x"]);
    expect(draft.stages[0]!.conflictIds).toEqual(["t1/roadway/x"]);
    expect(draft.why).not.toContain("more conflict");
  });

  it("add up to the dose of their stage", () => {
    const both = [
      conflict("roadway", 3.5, { bearingDeg: 0 }),
      conflict("building-side", 0.3, { distanceM: 4, bearingDeg: 180 }),
    ];
    const [stage] = draftOf(tree(), both).stages;
    expect(stage!.tasks).toHaveLength(2);
    expect(stage!.tasks.reduce((sum, task) => sum + task.doseShare, 0)).toBeCloseTo(stage!.doseShare, 9);
  });

  it("come from defects too: remedial at any time, structural in the window", () => {
    const draft = draftOf(tree({ defects: ["dead-limb", "codominant-stem", "dead-limb"] }), []);
    expect(draft.remedial!.tasks.map(({ timing, doseShare }) => [timing, doseShare])).toEqual([["any-time", 0]]);
    expect(draft.stages[0]!.tasks.map(({ remedy, doseShare }) => [remedy, doseShare])).toEqual([["structural", 0.05]]);
    expect(draft.remedy).toBe("structural");
  });

  it("refer a tree that could strike a line, and no other for being tall", () => {
    const spans = [{ spanId: "L/1", withId: "L", gapM: null, loadCase: null, trunkDistanceM: 8, canStrike: true }];
    const beside = (defects: readonly Defect[]): string | undefined =>
      draftOf(tree({ defects }), [], { spans }).refer?.code;
    expect([beside(["included-bark"]), beside(["crossing-limb"]), beside([])]).toEqual([
      "strike-with-defect",
      undefined,
      undefined,
    ]);
  });

  it("name the distance that machines keep where a line is near", () => {
    const conductor = {
      withId: "L",
      crownGapM: 2,
      trunkDistanceM: 6,
      bearingDeg: 0,
      heightM: 9,
      voltageV: 138_000,
      approachM: 3.4544,
    };
    const words = (equipmentM: number | null): string =>
      draftOf(tree({ defects: ["dead-limb"] }), [], { conductor: { ...conductor, equipmentM } }).cautions.join(" ");
    expect(words(4.572)).toContain("Cranes and loaders keep at least 4.6 m.");
    expect(words(null)).toContain("Cranes and loaders keep what an engineer decides.");
  });

  it("leave decay to a risk assessor", () => {
    expect(draftOf(tree({ defects: ["decay"] }), [])).toMatchObject({
      refer: { code: "assess-decay" },
      stages: [],
      remedial: null,
    });
  });
});

describe("a staged cure", () => {
  const openOf = (heightM: number, baseM: number, distanceM: number) => {
    const cone = tree({ heightM, baseM, radiusM: 5, dbhM: 0.4, habit: "cone" });
    return draftOf(cone, [conflict("roadway", baseM + 0.3, { distanceM })]).stages;
  };

  it("does not call a way unclear that its first visit clears past the minimum", () => {
    const [first, last] = openOf(12, 3, 0.2);
    // 4.27 m is needed.
    expect(first!.tasks[0]!.targetM).toBeGreaterThan(4.3);
    expect(first!.openAfter).toEqual(["the lane: past the minimum, not yet as far as planned"]);
    expect(last!.openAfter).toEqual([]);
  });

  it("calls it unclear while it is below the minimum", () => {
    const [first] = openOf(16, 1, 0.5);
    expect(first!.tasks[0]!.targetM).toBeLessThan(4.2);
    expect(first!.openAfter).toEqual(["the lane: not yet clear"]);
  });
});

describe("a young tree", () => {
  // 6 m of 20: a lift to 4.57 m would leave (6 - 4.57) / 6 = 24 percent live crown.
  const young = tree({ heightM: 6, baseM: 1.2, radiusM: 2, dbhM: 0.12 });
  const lane = conflict("roadway", 1.8, { distanceM: 0.3 });

  it("gets an interim lift to a third of its height, and a year for the rest", () => {
    const draft = draftOf(young, [lane]);
    expect(draft.refer).toBeNull();
    expect(draft.liftToM).toBeCloseTo(2, 9);
    expect(draft.liftM).toBeCloseTo(0.8, 9);
    expect(draft.liveCrownRatioAfter).toBeCloseTo(4 / 6, 9);
    expect(draft.doseTotalShare).toBeLessThanOrEqual(0.25 + 1e-9);
    // 4.572 / 0.4 = 11.43 m tall; (11.43 - 6) / 0.4 m a year = 13.6 years from July 2026.
    expect(draft.openUntilYear).toBe(2040);
    expect(draft.stages[0]!.openAfter).toEqual(["the lane: open until 2040"]);
  });

  it("keeps the wall beside it in sight, which growing taller does not cure", () => {
    // The lift and the tips over the lane take all of the 25 percent; nothing is left for the wall.
    const wall = conflict("building-side", -0.5, { distanceM: 2, bearingDeg: 270, eavesM: 30 });
    const draft = draftOf(young, [lane, wall]);
    expect(draft.openUntilYear).toBe(2040);
    expect(draft.stages[0]!.openAfter).toEqual(["the lane: open until 2040", "the wall: not yet clear"]);
    expect(draft.refer?.code).toBe("dose-beyond-limits");
    expect(draft.refer?.reason).toContain("Clearing the wall would break the limits");
    expect(draft.cautions.join(" ")).toContain("Stays open after this plan: Branches touch the wall");
    // Branches at 1.8 m over a lane are a hazard until they are lifted past 13 ft 6 in.
    expect(draft.cautions.join(" ")).toContain(
      "Still a hazard after the one visit planned: Branches hang 1.8 m above the lane; 4.3 m is needed. Then it is clear to 3.5 m only.",
    );
  });

  it("gets no interim lift when it is tall enough for the whole one", () => {
    // 11.5 m of 40: 4.572 / 0.4 = 11.43 m would do. What forbids the lift then is no lack of height.
    const tall = tree({ heightM: 11.5, baseM: 1, radiusM: 6, dbhM: 0.4, traits: traits({ matureHeightM: 40 }) });
    const draft = draftOf(tall, [conflict("roadway", 1.2, { distanceM: 0.2 })]);
    expect(draft.openUntilYear).toBeNull();
    expect(draft.why).not.toContain("young");
  });

  it("is told when its species can never carry the lift", () => {
    const small = { ...young, traits: traits({ matureHeightM: 12.5 }) };
    expect(draftOf(small, [lane]).openUntilYear).toBe(2040);
    // 13 m of mature height would do for 11.43, 11 m would not; 5 m is then young.
    const never = tree({ heightM: 5, baseM: 1.2, radiusM: 2, dbhM: 0.1001, traits: traits({ matureHeightM: 11 }) });
    const draft = draftOf(never, [lane]);
    expect(draft.openUntilYear).toBeNull();
    expect(draft.why).toContain("may never be tall enough");
  });
});

describe("referral", () => {
  it("never tops: a wire over the trunk within its clear-to is the owner's to decide", () => {
    const draft = draftOf(tree({ heightM: 9 }), [conflict("conductor", 0.3, { distanceM: 1, wireM: 9.3 })]);
    expect(draft.refer?.code).toBe("only-top-would-cure");
    expect(draft.refer?.reason).toContain("not topped");
    expect(draft.stages).toEqual([]);
  });

  it("says what bringing its leaders down would take, and what forbids it", () => {
    // Wire at 9.3 m, 10 ft free: down to 6.252 m. The crown is an ellipsoid from 3 to 9 m; above u = 0.542 lie 1 - u^2 (3 - 2u) = 43.7 %,
    // and (6.252 - 3) / 6.252 = 52 % of what is left of the height would be live crown.
    const wire = conflict("conductor", 0.3, { distanceM: 1, wireM: 9.3 });
    expect(draftOf(tree({ heightM: 9 }), [wire]).refer?.reason).toContain(
      "Bringing its leaders down to 6.3 m would take about 44 % of the crown and is ruled out: it would leave live crown on 52 % of the height; at least 60 % must stay.",
    );
  });

  it("still clears the other conflicts of such a tree", () => {
    const draft = draftOf(tree({ heightM: 9 }), [
      conflict("conductor", 0.3, { distanceM: 1, wireM: 9.3 }),
      conflict("walkway", 2.2, { bearingDeg: 270, distanceM: 1.5, clearToM: 3.6 }),
    ]);
    expect(draft.refer?.code).toBe("only-top-would-cure");
    expect(draft.stages.flatMap((stage) => stage.conflictIds)).toEqual(["t1/walkway/x"]);
  });

  it("does not prune a trunk out of a building", () => {
    const draft = draftOf(tree(), [conflict("building-side", -4, { distanceM: 0 })]);
    expect(draft.refer?.code).toBe("trunk-in-way");
    expect(draft.options).toEqual([]);
  });

  it("says what staged visits would reach when limits forbid the cure", () => {
    // Poor condition: 10 percent a season; a broad low cone beside the lane would lose far more.
    const draft = draftOf(tree({ heightM: 16, baseM: 0.5, radiusM: 6, habit: "cone", condition: "poor" }), [
      conflict("roadway", 4.2, { distanceM: 0.2 }),
    ]);
    expect(draft.refer?.code).toBe("dose-beyond-limits");
    expect(draft.refer?.reason).toMatch(/would reach \d\.\d m of the 4\.6 m/);
    expect(draft.chosen).toBeNull();
    expect(draft.options.every((option) => option.ruledOutBy !== null)).toBe(true);
  });

  it("says how high staged visits would get where whole limbs come off a wall", () => {
    // A conifer keeps no tips cut deeper than a third; its limbs toward a wall 2.2 m away are half of its crown.
    const conifer = tree({ form: "conifer", habit: "cone", heightM: 12, baseM: 0.5, radiusM: 3.2 });
    const draft = draftOf(conifer, [conflict("building-side", 0.3, { distanceM: 2.2, eavesM: 30 })]);
    expect(draft.refer?.code).toBe("dose-beyond-limits");
    expect(draft.refer?.reason).toMatch(/would take the limbs toward the wall up to a height of \d\.\d m\./);
  });

  it("says where staged visits would get no farther than to the wall itself", () => {
    // Limbs of 4 m whose outline reaches 1.5 m into the wall: a poor tree's 10 percent a season bring the first stages back out of it only.
    const near = conflict("building-side", -1, { distanceM: 2.5, eavesM: 30 });
    const of = tree({ habit: "column", condition: "poor", traits: traits({ radiusGrowthMPerYear: 0 }) });
    const draft = draftOf(of, [near]);
    expect(draft.refer?.code).toBe("dose-beyond-limits");
    expect(draft.refer?.reason).toContain("would bring the branches back no farther than to the wall itself.");
  });

  it("sends nobody for a conflict to come when the open one cannot be cured", () => {
    // All that is nearer than 1.96 m to the wire, from 0.24 m beside the trunk on, is half of the crown; three visits of 10 percent take
    // 27. Over the walk, up to 2.44 + 5 * 0.12 = 3.04 m, hangs nothing of it.
    const wire = conflict("conductor", 0.2, { distanceM: 2.2, wireM: 6 });
    const walk = conflict("walkway", 2.5, { distanceM: 30, bearingDeg: 270, reachedOn: isoDate("2029-01-01") });
    const draft = draftOf(tree({ baseM: 3.5, radiusM: 6, condition: "poor" }), [wire, walk]);
    expect(draft.refer?.code).toBe("dose-beyond-limits");
    expect(draft.refer?.reason).toContain("Clearing the overhead line would");
    expect(draft.stages).toEqual([]);
  });

  it("has no rule for a palm over a way above its horizontal", () => {
    const palm = tree({ form: "palm", heightM: 5, baseM: 3, radiusM: 2 });
    expect(draftOf(palm, [conflict("roadway", 3)]).refer?.code).toBe("form-without-rule");
  });

  it("measures before it cuts where a conflict is only possible, and says what", () => {
    const unsure = tree({
      height: { valueM: 12, lowM: 9, highM: 15, basis: "estimated", source: "equation" },
    } as never);
    const draft = draftOf(unsure, [conflict("roadway", 3.5, { certainty: "possible", withName: "Main Street" })]);
    expect(draft.refer).toMatchObject({ code: "inspect-first" });
    expect(draft.refer!.reason).toContain("over Main Street");
    expect(draft.remedy).toBe("refer");
    expect(draft.stages).toEqual([]);
  });

  it("dispatches the sure conflicts of a tree that has possible ones too", () => {
    const draft = draftOf(tree(), [
      conflict("roadway", 3.5),
      conflict("walkway", 2.2, { certainty: "possible", bearingDeg: 270 }),
    ]);
    expect(draft.refer).toBeNull();
    expect(draft.stages.flatMap((stage) => stage.conflictIds)).toEqual(["t1/roadway/x"]);
  });
});

describe("a wall", () => {
  // Column from 3 to 12 m, 4 m round, under eaves of 30 m: a slice of it is the same at every height.
  const column = tree({ habit: "column", traits: traits({ radiusGrowthMPerYear: 0 }) });
  /** Share of a circle beyond a chord at a distance from its middle, as a share of the radius. */
  const beyond = (share: number) => (Math.acos(share) - share * Math.sqrt(1 - share * share)) / Math.PI;

  it("keeps limbs short: what the outline has behind it is neither crown nor taken", () => {
    // Wall 3 m away, minimum and five years' regrowth 0.9144 + 5 * 0.3 = 2.4144 m: cut 0.5856 m from the trunk, where less than a
    // third of the 3 m limbs would stay, so they come off whole. Tried for less: the clear-to of 1.8288 m leaves 1.1712 m of 3 m.
    const [shorten] = draftOf(column, [conflict("building-side", -1, { distanceM: 3, eavesM: 30 })]).options;
    const years = shorten!.lastsYears;
    const cutM = 3 - Math.max(1.8288, 0.9144 + 0.3 * years);
    const there = 1 - beyond(3 / 4);
    // By 120 rays the volume of a slice is right to a percent of the crown.
    expect(shorten!.doseByVolumeShare).toBeCloseTo((beyond(cutM / 4) - beyond(3 / 4)) / there, 1.7);
    expect(shorten!.doseByVolumeShare).toBeLessThan(beyond(cutM / 4));
  });

  it("too near to reach the clear-to is cleared as far as the limits allow, to the minimum at least", () => {
    // 1.6 m away: to 6 ft = 1.83 m every limb on that side would go. For a year 0.9144 + 0.3 = 1.2144 m is cleared, 0.3856 m from the trunk.
    const near = conflict("building-side", 0.8, { distanceM: 1.6, eavesM: 30 });
    const shrub = tree({
      form: "shrub",
      heightM: 1.5,
      baseM: 0,
      radiusM: 0.8,
      traits: traits({ radiusGrowthMPerYear: 0 }),
    });
    const draft = draftOf(shrub, [near]);
    expect(draft.refer).toBeNull();
    const [task] = draft.tasks;
    expect(task!.targetM).toBeGreaterThanOrEqual(1.2144 - 1e-9);
    expect(task!.targetM).toBeLessThan(1.8288);
    expect(task!.doseShare).toBeLessThanOrEqual(0.25);
    expect(draft.options[0]!.lastsYears).toBeCloseTo((task!.targetM! - 0.9144) / 0.3, 9);
  });
});

describe("a headroom measured in the field", () => {
  it("moves the crown that the dose is taken from", () => {
    // The record of a measured headroom holds that figure; it is how the road it belongs to is known.
    const lane = (measuredM: number) => conflict("roadway", measuredM, { distanceM: 2 });
    const modeled = draftOf(tree(), [lane(3.5)]);
    const lower = draftOf(tree({ headroomOverRoadM: 2.6 }), [lane(2.6)]);
    const higher = draftOf(tree({ headroomOverRoadM: 4.2 }), [lane(4.2)]);
    expect(lower.doseTotalShare).toBeGreaterThan(modeled.doseTotalShare);
    expect(higher.doseTotalShare).toBeLessThan(modeled.doseTotalShare);
    // Over a bus route or a fire lane as over any road.
    for (const kind of ["bus-route", "fire-lane"] as const) {
      const measured = { ...lane(2.6), kind };
      const moved = draftOf(tree({ headroomOverRoadM: 2.6 }), [measured]);
      expect(moved.doseTotalShare).toBeGreaterThan(draftOf(tree(), [measured]).doseTotalShare);
    }
  });
});

it("prescribes on the grown crown where nothing is in the way yet", () => {
  // The 4 m crown does not reach an edge at 4.2 m; 0.15 m a year does by 2028.
  const later = conflict("walkway", 5, { distanceM: 4.2, reachedOn: isoDate("2028-08-01"), clearToM: 7.6 });
  const ahead = { ...later, region: { ...later.region, highM: 7.6 } };
  const draft = draftOf(tree(), [ahead]);
  // Nothing of today's 4 m crown lies beyond 4.2 m.
  expect(draft.doseTotalShare).toBeGreaterThan(0);
});

it("warns wherever somebody is sent or asked", () => {
  const draft = draftOf(tree({ isProtected: true, traits: traits({ genus: "Quercus" }) }), [conflict("roadway", 3.5)], {
    conductorsKnown: false,
    walkDistanceM: 2,
  });
  const all = draft.cautions.join(" ");
  for (const word of ["overhead lines", "drop zone", "nests", "Oak", "permit", "qualified arborists"])
    expect(all).toContain(word);
  expect(draftOf(tree(), []).cautions).toEqual([]);
});

it("says what the visits leave undone", () => {
  const wire = conflict("conductor", 0.3, { distanceM: 1, wireM: 9.3 });
  const walk = conflict("walkway", 2.2, { certainty: "possible", bearingDeg: 270 });
  const lane = conflict("roadway", 4.2, { distanceM: 2.5 });
  const draft = draftOf(
    tree({ heightM: 9, condition: "poor", defects: ["codominant-stem", "included-bark", "crossing-limb"] }),
    [wire, walk, lane],
  );
  const all = draft.cautions.join(" ");
  expect(all).toContain("Stays open after this plan: Branches come within 0.3 m of the overhead line");
  expect(all).toContain(
    "Only possible, measure on site: Branches may hang lower than the 2.4 m needed above the walk; by estimate they hang 2.2 m above it.",
  );
  // In poor condition 10 percent a season; 5 + 5 + 2 percent of structural work fit into no visit.
  expect(all).toContain("Put off");
});

it("tells the worst of several conductors of one line, once", () => {
  const wires = [0.3, 0.1, 0.2].map((gapM, at) =>
    conflict("conductor", gapM, { distanceM: 1, wireM: 9.3, withId: `w${at}` }),
  );
  const open = draftOf(tree({ heightM: 9 }), wires).cautions.filter((caution) => caution.startsWith("Stays open"));
  expect(open).toEqual([
    "Stays open after this plan: Branches come within 0.1 m of the overhead line; 0.5 m is needed.",
  ]);
});

it("tells how near a line is, and of those farther off to look for others", () => {
  const near = { withId: "c", bearingDeg: 0, heightM: 8, voltageV: 12_470, approachM: 3.048 };
  const lineCaution = (crownGapM: number) =>
    draftOf(tree(), [conflict("roadway", 3.5)], {
      conductor: { ...near, crownGapM, trunkDistanceM: crownGapM + 4 },
    }).cautions.find((caution) => caution.includes("overhead line"));
  expect(lineCaution(0)).toContain("An overhead line touches the crown or runs through it: nobody but");
  expect(lineCaution(4)).toContain("An overhead line is 4.0 m from the crown");
  expect(lineCaution(4)).not.toContain("service drops");
  expect(lineCaution(20)).toContain("Look for overhead lines before any work: service drops");
});

it("refuses a tree without its setting", () => {
  expect(() => prescribe([tree()], [], [], standard, planOptions())).toThrow(RangeError);
});
