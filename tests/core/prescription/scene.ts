import {
  type Conflict,
  RAY_COUNT,
  RAY_STEP_DEG,
  type RemovalRegion,
  type TreeSetting,
} from "../../../src/core/model/conflict.ts";
import type { PlanOptions } from "../../../src/core/model/plan.ts";
import type { ConflictKind } from "../../../src/core/model/terms.ts";
import type { Size, SpeciesTraits, Tree } from "../../../src/core/model/trees.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

export const standard = usCommon();

/** In an open window of a deciduous tree in the north: after 15 June, before 15 September. */
export const AS_OF = isoDate("2026-07-01");

export const planOptions = (over: Partial<PlanOptions> = {}): PlanOptions => ({
  asOf: AS_OF,
  units: "metric",
  drive: "right",
  place: { hardinessZone: 5, region: "US-NY" },
  ...over,
});

const size = (valueM: number): Size => ({ valueM, lowM: valueM, highM: valueM, basis: "measured", source: "column" });

export const traits = (over: Partial<SpeciesTraits> = {}): SpeciesTraits => ({
  matchedBy: "genus",
  matchedName: "Platanus",
  habit: "ellipsoid",
  isEvergreen: false,
  isConifer: false,
  heightGrowthMPerYear: 0.4,
  radiusGrowthMPerYear: 0.15,
  growthSource: "test",
  matureHeightM: 20,
  bleeds: false,
  genus: "Platanus",
  springBlooming: false,
  ...over,
});

/** A medium, measured, established tree in the north: 12 m high, crown from 3 m, 4 m all round, 30 cm thick. */
export function tree(
  over: Partial<Omit<Tree, "height" | "crownBase" | "radius">> & {
    heightM?: number;
    baseM?: number;
    radiusM?: number;
  } = {},
): Tree {
  const { heightM = 12, baseM = 3, radiusM = 4, ...rest } = over;
  return {
    row: 0,
    ordinal: 0,
    id: "t1",
    lonDeg: -73,
    latDeg: 41,
    species: "Platanus x acerifolia",
    commonName: "London plane",
    form: "tree",
    habit: "ellipsoid",
    dbhM: 0.3,
    dbhBasis: "measured",
    height: size(heightM),
    crownBase: size(baseM),
    radius: size(radiusM),
    radii: { northM: radiusM, eastM: radiusM, southM: radiusM, westM: radiusM },
    planted: null,
    caliperAtPlantingM: null,
    lastPruned: null,
    lastDoseShare: null,
    condition: "good",
    defects: [],
    stems: 1,
    groundZM: null,
    headroomOverRoadM: null,
    street: null,
    address: null,
    side: null,
    owner: null,
    isProtected: false,
    traits: traits(),
    ...rest,
  };
}

/** All that lies beyond a straight edge at a distance from the trunk toward a bearing. */
export function beyondEdge(distanceM: number, bearingDeg: number, lowM: number, highM: number): RemovalRegion {
  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  const toM = new Float64Array(RAY_COUNT);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const toward = Math.cos((((ray + 0.5) * RAY_STEP_DEG - bearingDeg) * Math.PI) / 180);
    if (toward < 1e-9) continue;
    fromM[ray] = Math.max(0, distanceM) / toward;
    toM[ray] = Number.POSITIVE_INFINITY;
  }
  return { fromM, toM, lowM, highM };
}

const RULES: Readonly<Record<string, string>> = {
  roadway: "roadway-headroom",
  walkway: "walkway-headroom",
  bikeway: "bikeway-headroom",
  "building-side": "building-side",
  conductor: "conductor-distribution",
  "sight-triangle": "sight-window",
};

/** A conflict with a straight road edge, walk edge, wall or wire at a distance and bearing; the rule is the standard's. */
export function conflict(
  kind: ConflictKind,
  measuredM: number,
  over: Partial<Conflict> & { distanceM?: number; bearingDeg?: number; wireM?: number; eavesM?: number } = {},
): Conflict {
  const { distanceM = 1, bearingDeg = 90, wireM = 9, eavesM = 6, ...rest } = over;
  const rule = standard.rules.find(({ id }) => id === RULES[kind])!;
  const region =
    kind === "building-side"
      ? beyondEdge(distanceM - rule.clearToM, bearingDeg, 0, eavesM)
      : kind === "conductor"
        ? beyondEdge(distanceM - rule.clearToM, bearingDeg, wireM - rule.clearToM, wireM + rule.clearToM)
        : beyondEdge(distanceM, bearingDeg, kind === "sight-triangle" ? standard.sight.windowLowM : 0, rule.clearToM);
  // What a straight wall hides: all behind it, up to the eaves.
  const solid = kind === "building-side" ? { solid: beyondEdge(distanceM, bearingDeg, 0, eavesM) } : {};
  const isHazard = rule.hazard !== null && measuredM < rule.hazard.belowM;
  return {
    conflictId: `t1/${kind}/${rest.withId ?? "x"}`,
    treeId: "t1",
    treeRow: 0,
    kind,
    withLayer: "roads",
    withId: "x",
    withName: null,
    ruleId: rule.id,
    measuredM,
    minimumM: rule.minimumM,
    clearToM: rule.clearToM,
    encroachmentM: Math.max(0, rule.minimumM - measuredM),
    distanceM,
    bearingDeg,
    admits: rule.admits,
    certainty: "confirmed",
    basis: "measured",
    doubt: null,
    reachedOn: AS_OF,
    firstSeen: AS_OF,
    hazard: isHazard ? rule.hazard!.kind : null,
    datumM: 0,
    spanId: null,
    loadCase: null,
    encroachment: null,
    region,
    ...solid,
    ...rest,
  };
}

/** A place where every kind was checked and no conductor is near. */
export const setting = (over: Partial<TreeSetting> = {}): TreeSetting => ({
  treeRow: 0,
  conductorsKnown: true,
  conductor: null,
  road: null,
  walkDistanceM: null,
  notChecked: [],
  ...over,
});
