import type { FeatureCollection, Point } from "geojson";
import type { ConflictRecord, TreeSetting } from "../../src/core/model/conflict.ts";
import type { Plan } from "../../src/core/model/plan.ts";
import type { Prescription, Visit } from "../../src/core/model/prescription.ts";
import { type Crew, REMEDIES, URGENCIES, type Urgency } from "../../src/core/model/terms.ts";
import type { Size, Tree } from "../../src/core/model/trees.ts";
import type { Zone } from "../../src/core/model/zone.ts";
import { boughProperties } from "../../src/core/plan/bough-properties.ts";
import { usCommon, usCommonSource } from "../../src/core/standard/parse-standard.ts";
import { addMonths, isoDate } from "../../src/core/units/calendar.ts";
import { planFiles } from "../../src/formats/plan/plan-files.ts";

export const AS_OF = isoDate("2026-11-02");
const SPECIES = [
  ["Acer rubrum", "red maple"],
  ["Quercus robur", "English oak"],
  ["Tilia cordata", "little-leaf linden"],
] as const;
const STREETS = ["Chapel Street", "Water Street"] as const;
const CREW_OF: Readonly<Record<Urgency, Crew>> = {
  now: "aerial",
  "next-window": "aerial",
  "this-cycle": "ground",
  watch: "ground",
  clear: "ground",
};

const size = (valueM: number): Size => ({
  valueM,
  lowM: valueM * 0.9,
  highM: valueM * 1.1,
  basis: "measured",
  source: "column",
});

/**
 * A plan of invented trees in two rows, for tests of what is shown, not of what is right: tree `t` has the urgency, remedy, species
 * and street that come round at `t`, and its visit is due `t` months after 2 November 2026. The trees due first make one zone.
 */
export function smallPlan(count: number): Plan {
  const trees = Array.from({ length: count }, (_, row) => tree(row));
  const prescriptions = trees.map(prescription);
  const conflicts = trees.flatMap((one) => (urgencyOf(one.row) === "clear" ? [] : [conflict(one)]));
  return {
    planId: "small-plan",
    revision: 1,
    options: { asOf: AS_OF, units: "us", drive: "right", place: { hardinessZone: null, region: null } },
    standardId: "us-common",
    inputs: [],
    trees,
    surroundings: [],
    sight: [],
    conflicts,
    prescriptions,
    settings: trees.map(({ row }) => setting(row)),
    zones: [zone(prescriptions.filter((one) => one.visits.length > 0).slice(0, 6))],
    findings: [
      {
        code: "crown-base-above-top",
        severity: "warning",
        layer: "trees",
        file: "trees.geojson",
        feature: "T-3",
        field: "crown_base",
        value: "14",
        reason: "The crown base is above the top of the tree.",
        whatToDo: "Check the crown base; it was estimated instead.",
      },
    ],
    notChecked: ["sign"],
  };
}

/** The files of a small plan's revision, as a server or a zip holds them. */
export function smallPlanFiles(count: number): Map<string, Uint8Array> {
  const plan = smallPlan(count);
  const trees: FeatureCollection<Point> = {
    type: "FeatureCollection",
    features: plan.trees.map((one, row) => ({
      type: "Feature",
      properties: boughProperties(
        one,
        plan.prescriptions[row]!,
        plan.conflicts.filter((each) => each.treeId === one.id),
        plan.settings[row]!,
        null,
      ),
      geometry: { type: "Point", coordinates: [one.lonDeg, one.latDeg] },
    })),
  };
  return planFiles(plan, {}, usCommon(), usCommonSource).set(
    "trees.geojson",
    new TextEncoder().encode(JSON.stringify(trees)),
  );
}

const urgencyOf = (row: number): Urgency => URGENCIES[row % URGENCIES.length]!;

function tree(row: number): Tree {
  const [species, commonName] = SPECIES[row % SPECIES.length]!;
  return {
    row,
    ordinal: row,
    id: `T-${row + 1}`,
    lonDeg: -139.5 + (row >> 1) * 0.00015,
    latDeg: 44.25 + (row % 2) * 0.0002,
    species,
    commonName,
    form: "tree",
    habit: "ellipsoid",
    dbhM: 0.35,
    dbhBasis: "measured",
    height: size(11),
    crownBase: size(2.6),
    radius: size(4),
    radii: { northM: 4, eastM: 4.4, southM: 4, westM: 3.6 },
    planted: null,
    caliperAtPlantingM: null,
    lastPruned: null,
    lastDoseShare: null,
    condition: "good",
    defects: [],
    stems: 1,
    groundZM: null,
    headroomOverRoadM: null,
    street: STREETS[row % STREETS.length]!,
    address: null,
    side: null,
    owner: null,
    isProtected: false,
    traits: {
      matchedBy: "species",
      matchedName: species,
      habit: "ellipsoid",
      isEvergreen: false,
      isConifer: false,
      heightGrowthMPerYear: 0.3,
      radiusGrowthMPerYear: 0.15,
      growthSource: "invented",
      matureHeightM: 18,
      bleeds: false,
      genus: species.split(" ")[0]!,
      springBlooming: false,
    },
  };
}

function prescription(one: Tree): Prescription {
  const { row } = one;
  const urgency = urgencyOf(row);
  const remedy = urgency === "clear" ? "none" : REMEDIES[row % REMEDIES.length]!;
  const due = addMonths(AS_OF, row);
  const visit: Visit = {
    visitId: `${one.id}/1`,
    treeId: one.id,
    treeRow: row,
    number: 1,
    tasks: [],
    doseShare: 0.14,
    crew: CREW_OF[urgency],
    hours: 1.5,
    due,
    windowStart: AS_OF,
    windowEnd: due,
    windowReason: "Dormant season",
    urgency,
    overdue: false,
    openAfter: [],
  };
  return {
    treeId: one.id,
    treeRow: row,
    options: [],
    chosen: null,
    tasks: [],
    visits: urgency === "clear" || remedy === "none" || remedy === "refer" ? [] : [visit],
    refer:
      remedy === "refer" ? { code: "over-limit", reason: "More than a quarter of the crown would have to go." } : null,
    remedy,
    doseTotalShare: 0.14,
    liftM: 1.6,
    liftToM: 4.6,
    shortenM: 0.8,
    bearingDeg: (row * 40) % 360,
    liveCrownRatioBefore: 0.76,
    liveCrownRatioAfter: 0.65,
    doseLimitShare: 0.25,
    doseLimitReason: "General ceiling",
    openUntilYear: null,
    urgency,
    overdue: false,
    cautions: [],
    why: "Branches hang 10 ft over the lane; 14 ft is needed.",
  };
}

function conflict(one: Tree): ConflictRecord {
  return {
    conflictId: `${one.id}|roadway|R1`,
    treeId: one.id,
    treeRow: one.row,
    kind: one.row % 2 === 0 ? "roadway" : "walkway",
    withLayer: "roads",
    withId: "R1",
    withName: "Chapel Street",
    ruleId: "roadway-headroom",
    measuredM: 3.1,
    minimumM: 4.2672,
    clearToM: 4.572,
    encroachmentM: 1.1672,
    distanceM: 1.5,
    bearingDeg: 90,
    admits: ["shorten", "remove-limb", "lift"],
    certainty: "confirmed",
    basis: "measured",
    doubt: null,
    reachedOn: AS_OF,
    firstSeen: AS_OF,
    hazard: null,
    datumM: 0,
    spanId: null,
    loadCase: null,
    encroachment: null,
  };
}

const setting = (row: number): TreeSetting => ({
  treeRow: row,
  conductorsKnown: false,
  conductor: null,
  road: null,
  walkDistanceM: null,
  notChecked: [],
});

function zone(first: readonly Prescription[]): Zone {
  const east = -139.5 + first.length * 0.0002;
  const ring = [
    [-139.5001, 44.2499],
    [east, 44.2499],
    [east, 44.2503],
    [-139.5001, 44.2503],
    [-139.5001, 44.2499],
  ];
  return {
    zoneId: "Z-1",
    name: "Chapel Street 1",
    state: "draft",
    crew: "aerial",
    visitIds: first.map((one) => one.visits[0]!.visitId),
    treeIds: first.map((one) => one.treeId),
    hours: 7.5,
    windowStart: AS_OF,
    windowEnd: addMonths(AS_OF, 4),
    due: addMonths(AS_OF, 4),
    urgency: "now",
    streets: ["Chapel Street"],
    walkM: 84,
    hazards: ["Branches below the legal vehicle height over a lane."],
    closure: {
      kind: "lane",
      roadName: "Chapel Street",
      speedKmh: 40,
      taperM: 38,
      bufferM: 47,
      signSpacingM: [30],
      note: "Lane closure to be confirmed with the local authority.",
    },
    area: { type: "MultiPolygon", coordinates: [[ring]] },
  };
}
