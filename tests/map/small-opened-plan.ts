import type { Polygon, Position } from "geojson";
import { radiusTowardM } from "../../src/core/crown/crown.ts";
import type { ConflictRecord, TreeSetting } from "../../src/core/model/conflict.ts";
import type { Plan } from "../../src/core/model/plan.ts";
import type { Prescription, PruningOption, Task, Visit } from "../../src/core/model/prescription.ts";
import type { SightArea, SurroundingFeature } from "../../src/core/model/surroundings.ts";
import {
  CERTAINTIES,
  type Certainty,
  CREWS,
  REMEDIES,
  type Remedy,
  type Urgency,
  ZONE_STATES,
} from "../../src/core/model/terms.ts";
import type { Size, Tree } from "../../src/core/model/trees.ts";
import type { Zone } from "../../src/core/model/zone.ts";
import { boughProperties } from "../../src/core/plan/bough-properties.ts";
import {
  conflictFeatures,
  sightFeatures,
  surroundingFeatures,
  zoneFeatures,
} from "../../src/core/plan/plan-features.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import type { OpenedPlan } from "../../src/formats/plan/open-plan.ts";
import { offsetLonLat } from "../../src/map/features/ground-scale.ts";

/** Middle of the invented crossing, in the open Pacific. */
export const MIDDLE: readonly [lonDeg: number, latDeg: number] = [-139.5, 44.25];
export const AS_OF = isoDate("2026-11-02");
const CURB_M = 5;
const at = (eastM: number, northM: number): [number, number] => offsetLonLat(MIDDLE[0], MIDDLE[1], eastM, northM);
const ring = (...corners: readonly (readonly [number, number])[]): Position[] =>
  [...corners, corners[0]!].map(([eastM, northM]) => at(eastM, northM));

/**
 * A hand-made plan of 60 trees along two streets that cross: every remedy, urgency, certainty, zone state and crew occurs. The
 * figures are invented to be drawn; nothing was measured or prescribed by the stages of the program.
 */
export function smallOpenedPlan(): OpenedPlan {
  const trees = Array.from({ length: 60 }, (_, row) => treeAt(row));
  const conflicts = trees.flatMap((tree) => conflictOf(tree) ?? []);
  const settings = trees.map((tree): TreeSetting => settingOf(tree));
  const prescriptions = trees.map((tree) =>
    prescriptionOf(
      tree,
      conflicts.filter((conflict) => conflict.treeId === tree.id),
    ),
  );
  const zones = zonesOf(trees, prescriptions);
  const plan: Plan = {
    planId: "small",
    revision: 1,
    options: { asOf: AS_OF, units: "metric", drive: "right", place: { hardinessZone: null, region: null } },
    standardId: "us-common",
    inputs: [],
    trees,
    surroundings: surroundings(),
    sight: sightAreas(),
    conflicts,
    prescriptions,
    settings,
    zones,
    findings: [],
    notChecked: ["sign", "signal", "curve"],
  };
  return {
    plan,
    trees: {
      type: "FeatureCollection",
      features: trees.map((tree, row) => ({
        type: "Feature",
        id: tree.id,
        properties: {
          TREE_ID: tree.id,
          SPECIES: tree.species,
          NOTE: row === 7 ? "<img src=x onerror=alert(1)>" : null,
          ...boughProperties(
            tree,
            prescriptions[row]!,
            conflicts.filter((conflict) => conflict.treeId === tree.id),
            settings[row]!,
            zones.find((zone) => zone.treeIds.includes(tree.id)) ?? null,
          ),
        },
        geometry: { type: "Point", coordinates: [tree.lonDeg, tree.latDeg] },
      })),
    },
    conflicts: conflictFeatures(plan.conflicts),
    surroundings: surroundingFeatures(plan.surroundings),
    sight: sightFeatures(plan.sight),
    zones: zoneFeatures(plan.zones),
  };
}

/** Trees 0 to 39 along the east-west street, 20 a side, 11 m apart; 40 to 59 along the other. */
function treeAt(row: number): Tree {
  const isMain = row < 40;
  const along = isMain ? row % 20 : (row - 40) % 10;
  const side = (isMain ? row < 20 : row < 50) ? 1 : -1;
  const alongM = (along < (isMain ? 10 : 5) ? -1 : 1) * (16 + 11 * (along % (isMain ? 10 : 5)));
  const offM = side * (CURB_M + 1.5 + (row % 3) * 0.4);
  const [lonDeg, latDeg] = isMain ? at(alongM, offM) : at(offM, alongM);
  const radiusM = 2 + ((row * 7) % 11) * 0.32;
  const heightM = 5 + ((row * 5) % 13) * 0.9;
  const measured = row % 3 !== 0;
  const size = (valueM: number, spread: number): Size => ({
    valueM,
    lowM: valueM - (measured ? 0 : spread),
    highM: valueM + (measured ? 0 : spread),
    basis: measured ? "measured" : "estimated",
    source: measured ? "column HEIGHT" : "urban allometry, Acer rubrum, from dbh",
  });
  const squash = 0.85 + (row % 4) * 0.1;
  return {
    row,
    ordinal: row,
    id: `T${String(row + 1).padStart(3, "0")}`,
    lonDeg,
    latDeg,
    species: row % 2 === 0 ? "Acer rubrum" : "Quercus bicolor",
    commonName: row % 2 === 0 ? "red maple" : "swamp white oak",
    form: "tree",
    habit: row % 2 === 0 ? "ellipsoid" : "dome",
    dbhM: row === 9 ? null : 0.1 + radiusM * 0.06,
    dbhBasis: row === 9 ? null : "measured",
    height: size(heightM, 2),
    crownBase: size(2.1 + (row % 5) * 0.2, 0.5),
    radius: size(radiusM, 0.6),
    radii: { northM: radiusM * squash, eastM: radiusM, southM: radiusM, westM: radiusM * (2 - squash) },
    planted: null,
    caliperAtPlantingM: null,
    lastPruned: row % 6 === 0 ? isoDate("2023-02-10") : null,
    lastDoseShare: null,
    condition: "good",
    defects: row % 15 === 4 ? ["dead-limb"] : [],
    stems: 1,
    groundZM: null,
    headroomOverRoadM: null,
    street: isMain ? "Chapel Street" : "Mill Lane",
    address: null,
    side: null,
    owner: "city",
    isProtected: false,
    traits: {
      matchedBy: "species",
      matchedName: "Acer rubrum",
      habit: "ellipsoid",
      isEvergreen: false,
      isConifer: false,
      heightGrowthMPerYear: 0.3,
      radiusGrowthMPerYear: 0.1,
      growthSource: "urban allometry, Acer rubrum",
      matureHeightM: 18,
      bleeds: true,
      genus: "Acer",
      springBlooming: false,
    },
  };
}

const remedyOf = (row: number): Remedy => REMEDIES[row % REMEDIES.length]!;
const certaintyOf = (row: number): Certainty => CERTAINTIES[row % 4 === 3 ? 2 : row % 5 === 2 ? 1 : 0]!;
function urgencyOf(row: number): Urgency {
  if (remedyOf(row) === "none") return row % 2 === 0 ? "clear" : "watch";
  return (["this-cycle", "next-window", "now", "this-cycle", "watch"] as const)[row % 5]!;
}

function conflictOf(tree: Tree): ConflictRecord | null {
  if (urgencyOf(tree.row) === "clear" || ["remedial", "structural"].includes(remedyOf(tree.row))) return null;
  const isMain = tree.row < 40;
  const isFirstSide = isMain ? tree.row < 20 : tree.row < 50;
  const bearingDeg = isMain ? (isFirstSide ? 180 : 0) : isFirstSide ? 270 : 90;
  const distanceM = 1.5 + (tree.row % 3) * 0.4;
  const measuredM = tree.crownBase.valueM + 0.6;
  return {
    conflictId: `${tree.id}/roadway/R1`,
    treeId: tree.id,
    treeRow: tree.row,
    kind: "roadway",
    withLayer: "roads",
    withId: isMain ? "R1" : "R2",
    withName: isMain ? "Chapel Street" : "Mill Lane",
    ruleId: "roadway-headroom",
    measuredM,
    minimumM: 4.2672,
    clearToM: 4.572,
    encroachmentM: 4.2672 - measuredM,
    distanceM,
    bearingDeg,
    admits: ["shorten", "remove-limb", "lift"],
    certainty: certaintyOf(tree.row),
    basis: tree.height.basis,
    doubt: certaintyOf(tree.row) === "confirmed" ? null : "The crown base is estimated.",
    reachedOn: AS_OF,
    firstSeen: AS_OF,
    hazard: urgencyOf(tree.row) === "now" ? "vehicle-height" : null,
    datumM: 0,
    spanId: null,
    loadCase: null,
    encroachment: partBeyond(tree, bearingDeg, distanceM),
  };
}

/** The part of a crown beyond a line at right angles to a bearing, by the bearings of the outline that reach past it. */
function partBeyond(tree: Tree, bearingDeg: number, distanceM: number): Polygon | null {
  const corners: Position[] = [];
  for (let turn = 84; turn >= -84; turn -= 4) {
    const angle = (turn * Math.PI) / 180;
    const reachM = radiusTowardM(tree.radii, bearingDeg + turn);
    if (reachM * Math.cos(angle) < distanceM) continue;
    const bearing = ((bearingDeg + turn) * Math.PI) / 180;
    corners.push(offsetLonLat(tree.lonDeg, tree.latDeg, reachM * Math.sin(bearing), reachM * Math.cos(bearing)));
  }
  return corners.length < 3 ? null : { type: "Polygon", coordinates: [[...corners, corners[0]!]] };
}

function settingOf(tree: Tree): TreeSetting {
  return {
    treeRow: tree.row,
    conductorsKnown: true,
    conductor: null,
    road: { withId: "R1", name: tree.street, distanceM: 1.5, speedKmh: 40 },
    walkDistanceM: 2,
    notChecked: ["sign", "signal", "curve"],
  };
}

function prescriptionOf(tree: Tree, conflicts: readonly ConflictRecord[]): Prescription {
  const remedy = remedyOf(tree.row);
  const urgency = urgencyOf(tree.row);
  const works = remedy !== "none" && remedy !== "refer";
  const option = (one: PruningOption["remedy"], doseShare: number, ruledOutBy: string | null): PruningOption => ({
    remedy: one,
    liftToM: one === "lift" ? 4.6 : null,
    shortenM: one === "shorten" ? 1.1 : null,
    doseByVolumeShare: doseShare * 0.8,
    doseByLeafShare: doseShare,
    doseShare,
    limbDiameterM: [0.02, 0.06],
    lastsYears: one === "shorten" ? 3 : 6,
    liveCrownRatioAfter: 0.66,
    dosePerYear: doseShare / (one === "shorten" ? 3 : 6),
    ruledOutBy,
  });
  const options = [
    option("shorten", 0.04, null),
    option("remove-limb", 0.14, null),
    option("lift", 0.31, "It would take 31 % of the live crown; 25 % is the limit."),
  ];
  const chosen = options.findIndex((one) => one.remedy === remedy);
  const task: Task = {
    taskId: `${tree.id}-1`,
    cause: "Branches hang 2.9 m over Chapel Street; 4.3 m is needed.",
    conflictIds: conflicts.map((conflict) => conflict.conflictId),
    objective: "clearance",
    remedy,
    where: "South side, below 4.6 m.",
    bearingDeg: conflicts[0]?.bearingDeg ?? null,
    belowM: 4.6,
    targetM: 4.6,
    how: "Cut limbs back to the branch collar; three cuts above 5 cm.",
    cut: "removal",
    method: "three-cut",
    timing: "window",
    doseShare: 0.14,
    limbDiameterM: [0.02, 0.06],
  };
  const visit: Visit = {
    visitId: `${tree.id}-v1`,
    treeId: tree.id,
    treeRow: tree.row,
    number: 1,
    tasks: [task],
    doseShare: 0.14,
    crew: CREWS[tree.row % CREWS.length]!,
    hours: 0.8,
    due: isoDate(urgency === "now" ? "2026-11-30" : "2027-03-12"),
    windowStart: isoDate("2026-12-01"),
    windowEnd: isoDate("2027-03-12"),
    windowReason: "Dormant season.",
    urgency,
    overdue: tree.row === 2,
    openAfter: [],
  };
  return {
    treeId: tree.id,
    treeRow: tree.row,
    options: conflicts.length > 0 ? options : [],
    chosen: chosen === -1 || conflicts.length === 0 ? null : chosen,
    tasks: works ? [task] : [],
    visits: works ? [visit] : [],
    refer: remedy === "refer" ? { code: "topping-only", reason: "Clearing it would mean topping." } : null,
    remedy,
    doseTotalShare: works ? 0.14 : 0,
    liftM: remedy === "lift" ? 1.2 : null,
    liftToM: remedy === "lift" ? 4.6 : null,
    shortenM: remedy === "shorten" ? 1.1 : null,
    bearingDeg: conflicts[0]?.bearingDeg ?? null,
    liveCrownRatioBefore: 0.72,
    liveCrownRatioAfter: 0.66,
    doseLimitShare: 0.25,
    doseLimitReason: "at most 25 % in 12 months",
    openUntilYear: null,
    urgency,
    overdue: tree.row === 2,
    cautions: ["Nesting season from 1 March: check the crown first."],
    why: "Branches hang 2.9 m over the lane; 4.3 m is needed. Removing two low limbs on the street side takes about 14 % of the crown and should last six years.",
  };
}

function zonesOf(trees: readonly Tree[], prescriptions: readonly Prescription[]): Zone[] {
  return ZONE_STATES.map((state, index): Zone => {
    const isMain = index < 2;
    const members = trees.filter((tree) => {
      const isEast = isMain ? tree.lonDeg > MIDDLE[0] : tree.latDeg > MIDDLE[1];
      return tree.row < 40 === isMain && isEast === (index % 2 === 1) && prescriptions[tree.row]!.visits.length > 0;
    });
    const sign = index % 2 === 1 ? 1 : -1;
    const corners = (
      isMain
        ? [
            [sign * 11, -12],
            [sign * 132, -12],
            [sign * 132, 12],
            [sign * 11, 12],
          ]
        : [
            [-12, sign * 14],
            [-12, sign * 75],
            [12, sign * 75],
            [12, sign * 14],
          ]
    ) as [number, number][];
    return {
      zoneId: `Z${index + 1}`,
      name: `${isMain ? "Chapel Street" : "Mill Lane"} ${index + 1}`,
      state,
      crew: CREWS[index]!,
      visitIds: members.map((tree) => `${tree.id}-v1`),
      treeIds: members.map((tree) => tree.id),
      hours: 6.5,
      windowStart: isoDate("2026-12-01"),
      windowEnd: isoDate("2027-03-12"),
      due: isoDate("2027-03-12"),
      urgency: (["now", "next-window", "this-cycle", "watch"] as const)[index]!,
      streets: ["Chapel Street"],
      walkM: 240,
      hazards: ["Conductor within 3 m of tree T004: line-clearance arborist only."],
      closure: {
        kind: "lane",
        roadName: "Chapel Street",
        speedKmh: 40,
        taperM: 30,
        bufferM: 45,
        signSpacingM: [30],
        note: "Confirm with the local authority.",
      },
      area: { type: "MultiPolygon", coordinates: [[ring(...corners)]] },
    };
  });
}

function surroundings(): SurroundingFeature[] {
  const base = {
    name: null,
    width: null,
    heightM: null,
    heightSource: null,
    roadClass: null,
    speedKmh: null,
    speedSource: null,
    lanes: null,
    voltageV: null,
  };
  const line = (...points: [number, number][]) => ({
    type: "LineString" as const,
    coordinates: points.map(([eastM, northM]) => at(eastM, northM)),
  });
  const width = { minM: 9, typicalM: CURB_M * 2, maxM: 11, source: "column width" };
  const walk = { minM: 1.5, typicalM: 1.8, maxM: 2, source: "column width" };
  const road = { ...base, layer: "roads" as const, kind: "roadway" as const, width, roadClass: "collector" as const };
  const path = { ...base, layer: "paths" as const, kind: "walkway" as const, width: walk };
  const sign = { ...base, layer: "signs" as const, kind: "sign" as const, heightM: 2.1 };
  const buildings = Array.from({ length: 16 }, (_, index): SurroundingFeature => {
    const eastM = (index % 8 < 4 ? -1 : 1) * (24 + (index % 4) * 28);
    const northM = index < 8 ? 24 : -24;
    const [a, b] = [7 + (index % 3) * 1.5, 5 + (index % 2) * 2];
    return {
      ...base,
      id: `B${index}`,
      layer: "buildings",
      kind: "building",
      geometry: {
        type: "Polygon",
        coordinates: [
          ring([eastM - a, northM - b], [eastM + a, northM - b], [eastM + a, northM + b], [eastM - a, northM + b]),
        ],
      },
    };
  });
  return [
    ...buildings,
    { ...road, id: "R1", name: "Chapel Street", geometry: line([-180, 0], [0, 0], [180, 0]) },
    { ...road, id: "R2", name: "Mill Lane", geometry: line([0, -120], [0, 0], [0, 120]) },
    ...[10.5, -10.5].flatMap((offM): SurroundingFeature[] => [
      { ...path, id: `P${offM}`, geometry: line([-180, offM], [180, offM]) },
    ]),
    {
      ...base,
      id: "C1",
      layer: "conductors",
      kind: "conductor",
      voltageV: 12_470,
      geometry: line([-180, 8.4], [-90, 8.4]),
    },
    { ...base, id: "C2", layer: "conductors", kind: "conductor", geometry: line([-90, 8.4], [0, 8.4], [90, 8.4]) },
    { ...sign, id: "S1", geometry: { type: "Point", coordinates: at(6, 7) } },
    { ...sign, id: "S2", geometry: { type: "Point", coordinates: at(-6, -7) } },
  ];
}

function sightAreas(): SightArea[] {
  return ([1, -1] as const).map((sign) => ({
    id: `sight-${sign}`,
    kind: "sight-triangle" as const,
    movement: sign === 1 ? ("left-turn" as const) : ("right-turn" as const),
    roadName: "Chapel Street",
    direction: sign === 1 ? ("right" as const) : ("left" as const),
    control: "stop" as const,
    controlSource: "sign S2",
    designSpeedKmh: 40,
    legM: 85,
    ring: [at(1.8, -9.4), at(1.8, -1.8), at(sign * 85, -1.8)],
    windowLowM: 0.76,
    windowHighM: 2.4,
    ruleId: "sight-window",
    doubt: null,
    hidden: null,
  }));
}
