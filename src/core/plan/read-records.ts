import type { Feature, Geometry, MultiPolygon } from "geojson";
import type { ConflictRecord } from "../model/conflict.ts";
import type { LoadCaseId } from "../model/load-cases.ts";
import type { HiddenShare, RoadAcross, SightArea, SurroundingFeature, WireRecord } from "../model/surroundings.ts";
import type { ClearanceRemedy } from "../model/terms.ts";
import type { TaperKind, TrafficControl, Zone } from "../model/zone.ts";
import type { IsoDate } from "../units/calendar.ts";

// These read what this project wrote, after `plan.json` was checked for its format. A missing member means the folder was
// edited by hand; it comes back as null or an empty list, never as an invented figure.

type Members = Readonly<Record<string, unknown>>;
const members = (feature: Feature<Geometry | null>): Members => (feature.properties ?? {}) as Members;
const text = (value: unknown): string => (typeof value === "string" ? value : "");
const textOrNull = (value: unknown): string | null => (typeof value === "string" ? value : null);
const numberOrNull = (value: unknown): number | null => (typeof value === "number" ? value : null);
const number = (value: unknown): number => (typeof value === "number" ? value : Number.NaN);
const list = (value: unknown): string[] => (Array.isArray(value) ? value.map(String) : []);
const numbers = (value: unknown): number[] => (Array.isArray(value) ? value.map(number) : []);
const split = (value: unknown): string[] => (text(value) === "" ? [] : text(value).split(","));

/** The conflict a feature of `conflicts.geojson` holds. */
export function conflictOf(feature: Feature<Geometry | null>, rowOfTree: ReadonlyMap<string, number>): ConflictRecord {
  const from = members(feature);
  const treeId = text(from.tree);
  return {
    conflictId: text(from.conflict_id),
    treeId,
    treeRow: rowOfTree.get(treeId) ?? -1,
    kind: text(from.kind) as ConflictRecord["kind"],
    withLayer: text(from.with_layer) as ConflictRecord["withLayer"],
    withId: text(from.with_id),
    withName: textOrNull(from.with_name),
    ruleId: text(from.rule),
    measuredM: number(from.measured_m),
    minimumM: number(from.minimum_m),
    clearToM: number(from.clear_to_m),
    encroachmentM: number(from.encroachment_m),
    hiddenShare: numberOrNull(from.hidden_share),
    distanceM: number(from.distance_m),
    trunkDistanceM: numberOrNull(from.trunk_distance_m) ?? number(from.distance_m),
    bearingDeg: number(from.bearing_deg),
    datumM: number(from.datum_m),
    droopAllowanceM: numberOrNull(from.droop_allowance_m) ?? 0,
    nearest: nearestOf(from),
    spanId: textOrNull(from.span),
    loadCase: textOrNull(from.load_case) as ConflictRecord["loadCase"],
    admits: split(from.admits) as ClearanceRemedy[],
    certainty: text(from.certainty) as ConflictRecord["certainty"],
    basis: text(from.basis) as ConflictRecord["basis"],
    doubt: textOrNull(from.doubt),
    reachedOn: text(from.reached_on) as IsoDate,
    firstSeen: text(from.first_seen) as IsoDate,
    hazard: textOrNull(from.hazard) as ConflictRecord["hazard"],
    encroachment: feature.geometry?.type === "Polygon" ? feature.geometry : null,
  };
}

function nearestOf(from: Members): NonNullable<ConflictRecord["nearest"]> | null {
  if (numberOrNull(from.thing_lon) === null || numberOrNull(from.crown_lon) === null) return null;
  return {
    thing: { lonDeg: number(from.thing_lon), latDeg: number(from.thing_lat), heightM: number(from.thing_z_m) },
    crown: { lonDeg: number(from.crown_lon), latDeg: number(from.crown_lat), heightM: number(from.crown_z_m) },
  };
}

/** The surrounding thing a feature of `surroundings.geojson` holds. */
export function surroundingOf(feature: Feature<Geometry | null>): SurroundingFeature {
  const from = members(feature);
  const typicalM = numberOrNull(from.width_m);
  return {
    id: text(from.id),
    layer: text(from.layer) as SurroundingFeature["layer"],
    name: textOrNull(from.name),
    kind: textOrNull(from.kind) as SurroundingFeature["kind"],
    geometry: feature.geometry as Geometry,
    width:
      typicalM === null
        ? null
        : {
            minM: number(from.width_min_m),
            typicalM,
            maxM: number(from.width_max_m),
            source: text(from.width_source),
          },
    heightM: numberOrNull(from.height_m),
    heightSource: textOrNull(from.height_source),
    roadClass: textOrNull(from.class) as SurroundingFeature["roadClass"],
    speedKmh: numberOrNull(from.speed_kmh),
    speedSource: textOrNull(from.speed_source),
    lanes: numberOrNull(from.lanes),
    voltageV: numberOrNull(from.voltage_v),
    ...acrossOf(from),
    ...wireOf(from),
  };
}

function wireOf(from: Members): { wire?: WireRecord } {
  const spanIds = list(from.span_ids);
  if (spanIds.length === 0) return {};
  return {
    wire: {
      spanIds,
      spanLengthsM: numbers(from.span_lengths_m),
      ...(from.attachments_m === undefined ? {} : { attachmentsM: numbers(from.attachments_m) }),
      ...(from.sags_m === undefined ? {} : { sagsM: numbers(from.sags_m) }),
      ruleId: textOrNull(from.rule),
      minimumM: numberOrNull(from.minimum_m),
      clearToM: numberOrNull(from.clear_to_m),
      loadCases: list(from.load_cases) as LoadCaseId[],
      sagSource: text(from.sag_source),
      conductorSource: text(from.conductor_source),
      insulation: textOrNull(from.insulation),
      cables: numberOrNull(from.cables),
    },
  };
}

/** The areas of sight that `sight.geojson` holds, each with the ground behind trees that follows it. */
export function sightAreasOf(features: readonly Feature<Geometry | null>[]): SightArea[] {
  const areas: SightArea[] = [];
  for (const one of features) {
    const last = areas[areas.length - 1];
    if (members(one).part !== "blind") areas.push(sightAreaOf(one));
    else if (last !== undefined && last.hidden !== null && one.geometry?.type === "Polygon") {
      const coordinates = [...(last.hidden.blind?.coordinates ?? []), one.geometry.coordinates];
      areas[areas.length - 1] = { ...last, hidden: { ...last.hidden, blind: { type: "MultiPolygon", coordinates } } };
    }
  }
  return areas;
}

function sightAreaOf(feature: Feature<Geometry | null>): SightArea {
  const from = members(feature);
  const ring = feature.geometry?.type === "Polygon" ? (feature.geometry.coordinates[0] ?? []) : [];
  return {
    id: text(from.id),
    kind: text(from.kind) as SightArea["kind"],
    movement: text(from.movement) as SightArea["movement"],
    roadName: textOrNull(from.road),
    direction: textOrNull(from.direction) as SightArea["direction"],
    control: textOrNull(from.control) as SightArea["control"],
    controlSource: text(from.control_source),
    designSpeedKmh: number(from.design_speed_kmh),
    legM: number(from.leg_m),
    ring: ring.map((position) => [position[0] ?? Number.NaN, position[1] ?? Number.NaN] as const),
    windowLowM: number(from.window_low_m),
    windowHighM: number(from.window_high_m),
    ruleId: text(from.rule),
    doubt: textOrNull(from.doubt),
    hidden: hiddenOf(from),
  };
}

function hiddenOf(from: Members): HiddenShare | null {
  const share = numberOrNull(from.hidden_share);
  if (share === null) return null;
  const ends = numbers(from.hidden_parts_m);
  const alone = numbers(from.hidden_tree_alone);
  const marginal = numbers(from.hidden_tree_marginal);
  return {
    share,
    lookedAtM: number(from.looked_at_m),
    partsM: ends.flatMap((endM, at) => (at % 2 === 1 ? [[ends[at - 1]!, endM] as const] : [])),
    trees: list(from.hidden_trees).map((treeId, at) => ({
      treeId,
      aloneShare: alone[at] ?? Number.NaN,
      marginalShare: marginal[at] ?? Number.NaN,
    })),
    opensMost:
      list(from.opens_most).length === 0
        ? null
        : { treeIds: list(from.opens_most), share: number(from.opens_most_share) },
    blind: null,
  };
}

/** The layout of a closure's set-up; null off the roads and in plans of an earlier version. */
function controlOf(from: Members): TrafficControl | null {
  const caseId = textOrNull(from.closure_case);
  if (caseId === null) return null;
  const [lengthsM, devices] = [numbers(from.closure_tapers_m), numbers(from.closure_taper_devices)];
  return {
    caseId: caseId as TrafficControl["caseId"],
    application: textOrNull(from.closure_application),
    duration: text(from.closure_duration) as TrafficControl["duration"],
    setUps: number(from.closure_set_ups),
    lanes: number(from.closure_lanes),
    isOneway: from.closure_oneway === true,
    laneM: number(from.closure_lane_m),
    sideRoomM: number(from.closure_side_room_m),
    hasVehicle: from.closure_vehicle === true,
    workM: number(from.closure_work_m),
    tapers: list(from.closure_tapers).map((kind, at) => ({
      kind: kind as TaperKind,
      lengthM: lengthsM[at] ?? Number.NaN,
      devices: devices[at] ?? Number.NaN,
    })),
    tangentDevices: number(from.closure_tangent_devices),
    taperSpacingM: numberOrNull(from.closure_taper_spacing_m),
    tangentSpacingM: numberOrNull(from.closure_tangent_spacing_m),
    coneHeightM: numberOrNull(from.closure_cone_height_m),
    flaggers: number(from.closure_flaggers),
    flaggerSightM: numberOrNull(from.closure_flagger_sight_m),
    signs: list(from.closure_signs),
    approaches: from.closure_approaches === 2 ? 2 : 1,
    isWalkClosed: from.closure_walk === true,
    assumptions: list(from.closure_assumptions),
  };
}

/** What a road has across it; empty where it was no line, and in plans of an earlier version. */
function acrossOf(from: Members): { across?: RoadAcross } {
  const laneM = numberOrNull(from.lane_m);
  if (laneM === null) return {};
  const oneway = from.oneway === 1 ? 1 : from.oneway === -1 ? -1 : 0;
  const known = (value: unknown): boolean | null => (typeof value === "boolean" ? value : null);
  return {
    across: {
      oneway,
      laneM,
      parking: { left: known(from.parking_left), right: known(from.parking_right) },
      shoulderM: { left: numberOrNull(from.shoulder_left_m), right: numberOrNull(from.shoulder_right_m) },
    },
  };
}

/** The work zone a feature of `zones.geojson` holds. */
export function zoneOf(feature: Feature<Geometry | null>): Zone {
  const from = members(feature);
  const [windowStart = "", windowEnd = ""] = text(from.window).split("/");
  return {
    zoneId: text(from.zone),
    name: text(from.name),
    state: text(from.state) as Zone["state"],
    crew: text(from.crew) as Zone["crew"],
    visitIds: list(from.visit_ids),
    treeIds: list(from.tree_ids),
    hours: number(from.hours),
    windowStart: windowStart as IsoDate,
    windowEnd: windowEnd as IsoDate,
    due: text(from.due) as IsoDate,
    urgency: text(from.urgency) as Zone["urgency"],
    streets: list(from.streets),
    walkM: number(from.walk_m),
    hazards: list(from.hazards),
    closure: {
      kind: text(from.closure_kind) as Zone["closure"]["kind"],
      roadName: textOrNull(from.closure_road),
      speedKmh: numberOrNull(from.closure_speed_kmh),
      taperM: numberOrNull(from.closure_taper_m),
      bufferM: numberOrNull(from.closure_buffer_m),
      signSpacingM: list(from.closure_sign_spacing_m).map(Number),
      note: text(from.closure_note),
      control: controlOf(from),
    },
    area: feature.geometry as MultiPolygon,
    ...handMembers(from),
  };
}

/** What was set by hand; absent where nothing was, and in plans of an earlier version. */
function handMembers(
  from: Members,
): Pick<Zone, "isLocked" | "isByHand" | "isHandOrdered" | "plannedOn" | "askedWindow"> {
  const plannedOn = textOrNull(from.planned_on);
  const [start, end] = (textOrNull(from.asked_window) ?? "").split("/");
  return {
    ...(from.locked === true ? { isLocked: true } : {}),
    ...(from.by_hand === true ? { isByHand: true } : {}),
    ...(from.order_by_hand === true ? { isHandOrdered: true } : {}),
    ...(plannedOn === null ? {} : { plannedOn: plannedOn as IsoDate }),
    ...(start && end ? { askedWindow: { start: start as IsoDate, end: end as IsoDate } } : {}),
  };
}
