import type { ConflictRecord, TreeSetting } from "../../../src/core/model/conflict.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import type { Prescription, PruningOption, Task, Visit } from "../../../src/core/model/prescription.ts";
import type { SurroundingFeature } from "../../../src/core/model/surroundings.ts";
import type { Basis, ConflictKind, Crew, Habit } from "../../../src/core/model/terms.ts";
import type { Size, Tree } from "../../../src/core/model/trees.ts";
import type { Zone } from "../../../src/core/model/zone.ts";
import { planeOf, toLonLat, toPlane } from "../../../src/core/plane/plane.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

/**
 * A hand-written plan of ten trees along an invented street, one for each case a packet must be able to show: lift, shorten, remove a
 * limb, a wall, a roof, a walkway, a conductor, a sight triangle, a young tree, a referral. Figures are round, not computed.
 */
const CENTER: readonly [number, number] = [-89.5, 43.07];
const PLANE = planeOf(CENTER[0]);
const [X0, Y0] = toPlane(PLANE, CENTER[0], CENTER[1]);
export const place = (eastM: number, northM: number): readonly [number, number] =>
  toLonLat(PLANE, X0 + eastM, Y0 + northM);

const AS_OF = isoDate("2027-01-15");

interface TreeSketch {
  readonly id: string;
  readonly eastM: number;
  readonly northM?: number;
  readonly species: string;
  readonly commonName: string;
  readonly habit?: Habit;
  readonly heightM: number;
  readonly baseM: number;
  readonly radiusM: number;
  readonly dbhM: number;
  readonly basis?: Basis;
  readonly baseBasis?: Basis;
  readonly address?: string;
}

const size = (valueM: number, basis: Basis): Size => ({
  valueM,
  lowM: basis === "measured" ? valueM * 0.95 : valueM * 0.75,
  highM: basis === "measured" ? valueM * 1.05 : valueM * 1.3,
  basis,
  source: basis === "measured" ? "column HEIGHT" : "urban allometry, from dbh",
});

export function sketchTree(row: number, sketch: TreeSketch): Tree {
  const { heightM, baseM, radiusM, basis = "measured", baseBasis = basis, habit = "ellipsoid" } = sketch;
  const [lonDeg, latDeg] = place(sketch.eastM, sketch.northM ?? 5.2);
  return {
    row,
    ordinal: row,
    id: sketch.id,
    lonDeg,
    latDeg,
    species: sketch.species,
    commonName: sketch.commonName,
    form: habit === "cone" ? "conifer" : "tree",
    habit,
    dbhM: sketch.dbhM,
    dbhBasis: "measured",
    height: size(heightM, basis),
    crownBase: size(baseM, baseBasis),
    radius: size(radiusM, basis),
    radii: { northM: radiusM, eastM: radiusM * 0.9, southM: radiusM * 1.1, westM: radiusM },
    planted: null,
    caliperAtPlantingM: null,
    lastPruned: null,
    lastDoseShare: null,
    condition: "good",
    defects: [],
    stems: 1,
    groundZM: null,
    headroomOverRoadM: null,
    street: "Oak Street",
    address: sketch.address ?? String(100 + row * 4),
    side: "north",
    owner: "city",
    isProtected: false,
    traits: {
      matchedBy: "species",
      matchedName: sketch.species,
      habit,
      isEvergreen: habit === "cone",
      isConifer: habit === "cone",
      heightGrowthMPerYear: 0.3,
      radiusGrowthMPerYear: 0.15,
      growthSource: "growth class",
      matureHeightM: 18,
      bleeds: false,
      genus: sketch.species.split(" ")[0] ?? "",
      springBlooming: false,
    },
  };
}

interface ConflictSketch {
  readonly kind: ConflictKind;
  readonly withId: string;
  readonly withName?: string;
  readonly measuredM: number;
  readonly minimumM: number;
  readonly clearToM: number;
  readonly distanceM: number;
  readonly bearingDeg: number;
  readonly datumM?: number;
}

export function sketchConflict(tree: Tree, sketch: ConflictSketch): ConflictRecord {
  return {
    conflictId: `${tree.id}/${sketch.kind}/${sketch.withId}`,
    treeId: tree.id,
    treeRow: tree.row,
    kind: sketch.kind,
    withLayer: sketch.kind.startsWith("building") ? "buildings" : sketch.kind === "conductor" ? "conductors" : "roads",
    withId: sketch.withId,
    withName: sketch.withName ?? null,
    ruleId: `${sketch.kind}-rule`,
    measuredM: sketch.measuredM,
    minimumM: sketch.minimumM,
    clearToM: sketch.clearToM,
    encroachmentM: Math.max(0, sketch.minimumM - sketch.measuredM),
    distanceM: sketch.distanceM,
    bearingDeg: sketch.bearingDeg,
    admits: ["shorten", "remove-limb", "lift"],
    certainty: tree.height.basis === "measured" ? "confirmed" : "probable",
    basis: tree.height.basis,
    doubt: tree.height.basis === "measured" ? null : "The crown sizes are estimated.",
    reachedOn: AS_OF,
    firstSeen: AS_OF,
    hazard: sketch.kind === "roadway" && sketch.measuredM < 4.1148 ? "vehicle-height" : null,
    datumM: sketch.datumM ?? 0,
    spanId: null,
    loadCase: null,
    encroachment: null,
  };
}

interface WorkSketch {
  readonly remedy: PruningOption["remedy"];
  readonly doseShare: number;
  readonly liftToM?: number;
  readonly shortenM?: number;
  readonly crew?: Crew;
  readonly why: string;
  readonly where: string;
  readonly visits?: number;
  readonly cautions?: readonly string[];
}

const HOW: Readonly<Record<PruningOption["remedy"], string>> = {
  lift: "Remove the lowest limbs at the branch collar; three cuts for limbs over 5 cm.",
  shorten: "Cut tips back to laterals at least a third as thick.",
  "remove-limb": "Remove whole low limbs at the branch collar; undercut first.",
};

export function sketchPrescription(
  tree: Tree,
  conflicts: readonly ConflictRecord[],
  work: WorkSketch | null,
  refer: string | null = null,
): Prescription {
  const first = conflicts[0];
  const limbs = [0.03, 0.09] as const;
  const tasks: Task[] =
    work === null
      ? []
      : [
          {
            taskId: `${tree.id}/1`,
            cause: work.why,
            conflictIds: conflicts.map(({ conflictId }) => conflictId),
            objective: "clearance",
            remedy: work.remedy,
            where: work.where,
            bearingDeg: first?.bearingDeg ?? null,
            belowM: work.liftToM ?? null,
            targetM: work.liftToM ?? null,
            how: HOW[work.remedy],
            cut: work.remedy === "shorten" ? "reduction" : "removal",
            method: "three-cut",
            timing: "window",
            doseShare: work.doseShare,
            limbDiameterM: limbs,
          },
        ];
  const count = work === null ? 0 : (work.visits ?? 1);
  const visits: Visit[] = Array.from({ length: count }, (_, at) => ({
    visitId: `${tree.id}/v${at + 1}`,
    treeId: tree.id,
    treeRow: tree.row,
    number: at + 1,
    tasks,
    doseShare: (work?.doseShare ?? 0) / count,
    crew: work?.crew ?? "aerial",
    hours: 0.6,
    due: isoDate("2027-03-31"),
    windowStart: AS_OF,
    windowEnd: isoDate("2027-03-31"),
    windowReason: "Dormant season, before the first flush on 1 April.",
    urgency: "next-window",
    overdue: false,
    openAfter: count > 1 ? ["Roadway headroom stays short until the second visit."] : [],
  }));
  const option: PruningOption | null =
    work === null
      ? null
      : {
          remedy: work.remedy,
          liftToM: work.liftToM ?? null,
          shortenM: work.shortenM ?? null,
          doseByVolumeShare: work.doseShare * 0.9,
          doseByLeafShare: work.doseShare,
          doseShare: work.doseShare,
          limbDiameterM: limbs,
          lastsYears: 5,
          liveCrownRatioAfter: 0.66,
          dosePerYear: work.doseShare / 5,
          ruledOutBy: null,
        };
  return {
    treeId: tree.id,
    treeRow: tree.row,
    options: option === null ? [] : [option],
    chosen: option === null ? null : 0,
    tasks,
    visits,
    refer: refer === null ? null : { code: "over-dose", reason: refer },
    remedy: refer !== null ? "refer" : (work?.remedy ?? "none"),
    doseTotalShare: work?.doseShare ?? 0,
    liftM: work?.liftToM === undefined ? null : work.liftToM - tree.crownBase.valueM,
    liftToM: work?.liftToM ?? null,
    shortenM: work?.shortenM ?? null,
    bearingDeg: first?.bearingDeg ?? null,
    liveCrownRatioBefore: 0.75,
    liveCrownRatioAfter: 0.66,
    doseLimitShare: 0.25,
    doseLimitReason: "City standards: 25 % a year.",
    openUntilYear: null,
    urgency: work === null && refer === null ? "clear" : "next-window",
    overdue: false,
    cautions: work?.cautions ?? [],
    why: work?.why ?? refer ?? "No conflict was found.",
  };
}

const road = { kind: "roadway", withId: "r1", withName: "Oak Street", minimumM: 4.2672, clearToM: 4.572 } as const;

const trees: Tree[] = [
  {
    id: "T-101",
    eastM: 0,
    species: "Quercus rubra",
    commonName: "Red oak",
    heightM: 14,
    baseM: 2.6,
    radiusM: 5.6,
    dbhM: 0.46,
  },
  {
    id: "T-102",
    eastM: 14,
    species: "Acer rubrum",
    commonName: "Red maple",
    heightM: 11,
    baseM: 2.2,
    radiusM: 4.4,
    dbhM: 0.33,
    basis: "estimated",
  },
  {
    id: "T-103",
    eastM: 27,
    species: "Tilia cordata",
    commonName: "Littleleaf linden",
    heightM: 12.5,
    baseM: 2.4,
    radiusM: 4.1,
    dbhM: 0.38,
    baseBasis: "assumed",
  },
  {
    id: "T-104",
    eastM: 41,
    northM: 9.5,
    species: "Ulmus americana",
    commonName: "American elm",
    heightM: 16,
    baseM: 3.5,
    radiusM: 6.2,
    dbhM: 0.55,
    habit: "vase",
  },
  {
    id: "T-105",
    eastM: 55,
    northM: 9,
    species: "Gleditsia triacanthos",
    commonName: "Honeylocust",
    heightM: 13,
    baseM: 3,
    radiusM: 5,
    dbhM: 0.36,
  },
  {
    id: "T-106",
    eastM: 68,
    species: "Pyrus calleryana",
    commonName: "Callery pear",
    heightM: 9,
    baseM: 1.7,
    radiusM: 3,
    dbhM: 0.26,
  },
  {
    id: "T-107",
    eastM: 80,
    northM: 9.8,
    species: "Picea pungens",
    commonName: "Blue spruce",
    heightM: 30,
    baseM: 1.2,
    radiusM: 4.2,
    dbhM: 0.7,
    habit: "cone",
  },
  {
    id: "T-108",
    eastM: 92,
    species: "Acer platanoides",
    commonName: "Norway maple",
    heightM: 10,
    baseM: 1.8,
    radiusM: 4,
    dbhM: 0.3,
  },
  {
    id: "T-109",
    eastM: 103,
    species: "Celtis occidentalis",
    commonName: "Hackberry",
    heightM: 3.2,
    baseM: 1.1,
    radiusM: 0.7,
    dbhM: 0.05,
  },
  {
    id: "T-110",
    eastM: 115,
    species: "Platanus × hispanica",
    commonName: "London plane",
    heightM: 19,
    baseM: 2.1,
    radiusM: 8,
    dbhM: 0.8,
  },
].map((sketch, row) => sketchTree(row, sketch as TreeSketch));

const conflictsByTree: ConflictRecord[][] = (
  [
    [{ ...road, measuredM: 3.1, distanceM: 1.1, bearingDeg: 180 }],
    [{ ...road, measuredM: 2.9, distanceM: 0.9, bearingDeg: 180 }],
    [
      { ...road, measuredM: 3.3, distanceM: 1.2, bearingDeg: 180 },
      {
        kind: "walkway",
        withId: "p1",
        withName: "walk",
        measuredM: 2.0,
        minimumM: 2.4384,
        clearToM: 2.7432,
        distanceM: 0.6,
        bearingDeg: 0,
      },
    ],
    [
      {
        kind: "building-side",
        withId: "b1",
        withName: "118 Oak Street",
        measuredM: 0.3,
        minimumM: 0.9144,
        clearToM: 1.8288,
        distanceM: 3.6,
        bearingDeg: 12,
      },
    ],
    [
      {
        kind: "building-roof",
        withId: "b2",
        withName: "122 Oak Street",
        measuredM: 0.6,
        minimumM: 1.8288,
        clearToM: 3.048,
        distanceM: 2.6,
        bearingDeg: 350,
        datumM: 4.2,
      },
    ],
    [
      {
        kind: "walkway",
        withId: "p1",
        measuredM: 1.9,
        minimumM: 2.4384,
        clearToM: 2.7432,
        distanceM: 0.6,
        bearingDeg: 0,
      },
    ],
    [
      {
        kind: "conductor",
        withId: "c1",
        withName: "circuit 12",
        measuredM: 0.8,
        minimumM: 0.4572,
        clearToM: 3.048,
        distanceM: 4.6,
        bearingDeg: 95,
      },
    ],
    [
      {
        kind: "sight-triangle",
        withId: "s1",
        withName: "Oak Street at Mill Lane",
        measuredM: 1.9,
        minimumM: 2.4384,
        clearToM: 2.7432,
        distanceM: 0,
        bearingDeg: 135,
      },
    ],
    [{ ...road, measuredM: 1.4, distanceM: 0.5, bearingDeg: 180 }],
    [{ ...road, measuredM: 2.3, distanceM: 0.8, bearingDeg: 180 }],
  ] as ConflictSketch[][]
).map((list, row) => list.map((sketch) => sketchConflict(trees[row]!, sketch)));

const works: (WorkSketch | null)[] = [
  {
    remedy: "shorten",
    doseShare: 0.04,
    liftToM: 4.6,
    shortenM: 1.4,
    why: "Branches hang 3.1 m over the lane; 4.3 m is needed.",
    where: "Street side, below 4.6 m",
  },
  {
    remedy: "remove-limb",
    doseShare: 0.14,
    liftToM: 4.7,
    why: "Branches hang 2.9 m over the lane; 4.3 m is needed. Removing two low limbs on the street side takes about 14 % of the crown and should last five years.",
    where: "Street side, below 4.7 m",
  },
  {
    remedy: "lift",
    doseShare: 0.19,
    liftToM: 4.7,
    why: "Branches hang 3.3 m over the lane and 2.0 m over the walk.",
    where: "All round, below 4.7 m",
  },
  {
    remedy: "shorten",
    doseShare: 0.09,
    shortenM: 1.1,
    why: "Branches come within 0.3 m of the wall; 0.9 m is needed.",
    where: "House side",
  },
  {
    remedy: "shorten",
    doseShare: 0.08,
    liftToM: 7.3,
    shortenM: 2,
    why: "Branches hang 0.6 m over the roof; 1.8 m is needed.",
    where: "House side, over the roof",
  },
  {
    remedy: "lift",
    doseShare: 0.1,
    liftToM: 2.75,
    crew: "ground",
    why: "Branches hang 1.9 m over the walk; 2.4 m is needed.",
    where: "All round, below 2.75 m",
  },
  {
    remedy: "shorten",
    doseShare: 0.06,
    shortenM: 2.2,
    crew: "line-clearance",
    cautions: ["Within 3 m of a conductor: line-clearance arborist only."],
    why: "The crown is 0.8 m from a conductor; the work clears it to 3.0 m.",
    where: "East side, 7 to 12 m up",
  },
  {
    remedy: "lift",
    doseShare: 0.16,
    liftToM: 2.75,
    why: "Branches stand in the sight triangle of Oak Street at Mill Lane.",
    where: "All round, below 2.75 m",
  },
  {
    remedy: "shorten",
    doseShare: 0.05,
    liftToM: 4.6,
    shortenM: 0.2,
    crew: "ground",
    why: "A young tree: tips over the lane are shortened until it is tall enough for a full lift.",
    where: "Street side",
  },
  null,
];

const prescriptions = trees.map((tree, row) =>
  sketchPrescription(
    tree,
    conflictsByTree[row]!,
    works[row]!,
    works[row] === null
      ? "The lift would take 38 % of the live crown; 25 % is the limit. A licensed arborist must decide."
      : null,
  ),
);

const settings: TreeSetting[] = trees.map((tree, row) => ({
  treeRow: row,
  conductorsKnown: true,
  conductor:
    tree.id === "T-107"
      ? {
          withId: "c1",
          crownGapM: 0.8,
          trunkDistanceM: 4.6,
          bearingDeg: 95,
          heightM: 9.4,
          voltageV: 12_470,
          approachM: 3.048,
        }
      : null,
  road: { withId: "r1", name: "Oak Street", distanceM: 0.9, speedKmh: 40 },
  walkDistanceM: 0.6,
  notChecked: ["sign", "signal", "curve"],
}));

const feature = (
  partial: Pick<SurroundingFeature, "id" | "layer" | "geometry"> & Partial<SurroundingFeature>,
): SurroundingFeature => ({
  name: null,
  kind: null,
  width: null,
  heightM: null,
  heightSource: null,
  roadClass: null,
  speedKmh: null,
  speedSource: null,
  lanes: null,
  voltageV: null,
  ...partial,
});

const along = (...points: readonly (readonly [number, number])[]) =>
  points.map(([eastM, northM]) => [...place(eastM, northM)]);
const box = (west: number, south: number, east: number, north: number) => [
  along([west, south], [east, south], [east, north], [west, north], [west, south]),
];

const surroundings: SurroundingFeature[] = [
  feature({
    id: "b1",
    layer: "buildings",
    name: "118 Oak Street",
    kind: "building",
    heightM: 7,
    geometry: { type: "Polygon", coordinates: box(35, 13.1, 47, 26) },
  }),
  feature({
    id: "b2",
    layer: "buildings",
    name: "122 Oak Street",
    kind: "building",
    heightM: 4.2,
    geometry: { type: "Polygon", coordinates: box(50, 11.6, 62, 22) },
  }),
  feature({
    id: "r1",
    layer: "roads",
    name: "Oak Street",
    kind: "roadway",
    roadClass: "local-residential",
    speedKmh: 40,
    lanes: 2,
    width: { minM: 6.7, typicalM: 8.6, maxM: 12.2, source: "class" },
    geometry: { type: "LineString", coordinates: along([-60, 0], [180, 0]) },
  }),
  feature({
    id: "r2",
    layer: "roads",
    name: "Mill Lane",
    kind: "roadway",
    roadClass: "local-access",
    width: { minM: 5.5, typicalM: 7.3, maxM: 11, source: "class" },
    geometry: { type: "LineString", coordinates: along([100, -70], [100, 0]) },
  }),
  feature({
    id: "p1",
    layer: "paths",
    kind: "walkway",
    width: { minM: 1.5, typicalM: 1.5, maxM: 1.5, source: "standard" },
    geometry: { type: "LineString", coordinates: along([-60, 6.6], [180, 6.6]) },
  }),
  feature({
    id: "c1",
    layer: "conductors",
    kind: "conductor",
    heightM: 9.4,
    voltageV: 12_470,
    geometry: { type: "LineString", coordinates: along([84.6, -40], [84.6, 60]) },
  }),
];

const visited = prescriptions.filter(({ visits }) => visits.length > 0);

export const smallZone: Zone = {
  zoneId: "z-0001",
  name: "Oak Street 1",
  state: "issued",
  crew: "line-clearance",
  visitIds: visited.map(({ visits }) => visits[0]!.visitId),
  treeIds: visited.map(({ treeId }) => treeId),
  hours: 6.5,
  windowStart: AS_OF,
  windowEnd: isoDate("2027-03-31"),
  due: isoDate("2027-03-31"),
  urgency: "next-window",
  streets: ["Oak Street"],
  walkM: 118,
  hazards: ["Conductor, 12.47 kV, 0.8 m from the crown of T-107", "Vehicles at 40 km/h"],
  closure: {
    kind: "lane",
    roadName: "Oak Street",
    speedKmh: 40,
    taperM: 38,
    bufferM: 47,
    signSpacingM: [30, 30, 30],
    note: "One lane of Oak Street beside the work.",
    control: {
      caseId: "flaggers",
      application: "TA-10",
      duration: "short-term",
      setUps: 4,
      lanes: 2,
      isOneway: false,
      laneM: 3.35,
      sideRoomM: 0,
      hasVehicle: true,
      workM: 17,
      tapers: [
        { kind: "one-lane-two-way", lengthM: 30.48, devices: 6 },
        { kind: "downstream", lengthM: 15.24, devices: 4 },
      ],
      tangentDevices: 5,
      taperSpacingM: 6.1,
      tangentSpacingM: 15.2,
      coneHeightM: 0.46,
      flaggers: 2,
      flaggerSightM: 47,
      signs: ["Flagger ahead", "One lane road ahead", "Road work ahead"],
      approaches: 2,
      isWalkClosed: true,
      assumptions: ["No parking lane or shoulder is recorded: none is counted on."],
    },
  },
  area: { type: "MultiPolygon", coordinates: [box(-8, -3, 112, 17)] },
};

export const smallPlan: Plan = {
  planId: "small-town-2027",
  revision: 3,
  options: { asOf: AS_OF, units: "metric", drive: "right", place: { hardinessZone: null, region: null } },
  standardId: "us-common",
  inputs: [],
  trees,
  surroundings,
  sight: [],
  conflicts: conflictsByTree.flat(),
  prescriptions,
  settings,
  zones: [smallZone],
  findings: [],
  notChecked: ["sign", "signal", "curve"],
};
