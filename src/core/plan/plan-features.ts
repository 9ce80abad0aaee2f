import type { Feature, FeatureCollection, Geometry, MultiPolygon, Polygon } from "geojson";
import type { ConflictRecord } from "../model/conflict.ts";
import type { SightArea, SurroundingFeature, WireRecord } from "../model/surroundings.ts";
import type { TrafficControl, Zone } from "../model/zone.ts";
import { type FlatValue, rounded } from "./bough-properties.ts";

/** Flat members; lists stay lists of plain values, which GIS readers keep as list fields. */
export type Flat = Record<string, FlatValue | readonly string[] | readonly number[]>;

/** Conflicts as GeoJSON: the encroaching part in plan, null geometry for a conflict still to come. */
export function conflictFeatures(conflicts: readonly ConflictRecord[]): FeatureCollection<Polygon | null, Flat> {
  return collection(
    conflicts.map((conflict) =>
      feature(conflict.conflictId, conflict.encroachment as Polygon | null, {
        conflict_id: conflict.conflictId,
        tree: conflict.treeId,
        kind: conflict.kind,
        with_layer: conflict.withLayer,
        with_id: conflict.withId,
        with_name: conflict.withName,
        rule: conflict.ruleId,
        measured_m: rounded(conflict.measuredM, 3),
        minimum_m: rounded(conflict.minimumM, 4),
        clear_to_m: rounded(conflict.clearToM, 4),
        encroachment_m: rounded(conflict.encroachmentM, 3),
        hidden_share: conflict.hiddenShare == null ? null : rounded(conflict.hiddenShare, 4),
        distance_m: rounded(conflict.distanceM, 3),
        trunk_distance_m: rounded(conflict.trunkDistanceM ?? conflict.distanceM, 3),
        bearing_deg: rounded(conflict.bearingDeg, 1),
        datum_m: rounded(conflict.datumM, 3),
        droop_allowance_m: rounded(conflict.droopAllowanceM ?? 0, 3),
        ...pointMembers(conflict.nearest ?? null),
        span: conflict.spanId,
        load_case: conflict.loadCase,
        admits: conflict.admits.join(","),
        certainty: conflict.certainty,
        basis: conflict.basis,
        doubt: conflict.doubt,
        reached_on: conflict.reachedOn,
        first_seen: conflict.firstSeen,
        hazard: conflict.hazard,
      }),
    ),
  );
}

/** The points a measure lies between; nulls where a kind does not give them. */
function pointMembers(nearest: NonNullable<ConflictRecord["nearest"]> | null): Flat {
  return {
    thing_lon: nearest === null ? null : rounded(nearest.thing.lonDeg, 8),
    thing_lat: nearest === null ? null : rounded(nearest.thing.latDeg, 8),
    thing_z_m: nearest === null ? null : rounded(nearest.thing.heightM, 3),
    crown_lon: nearest === null ? null : rounded(nearest.crown.lonDeg, 8),
    crown_lat: nearest === null ? null : rounded(nearest.crown.latDeg, 8),
    crown_z_m: nearest === null ? null : rounded(nearest.crown.heightM, 3),
  };
}

/** Surroundings as GeoJSON: original geometry, and the figures the run used of each feature with their source. */
export function surroundingFeatures(features: readonly SurroundingFeature[]): FeatureCollection<Geometry, Flat> {
  return collection(
    features.map((one) =>
      feature(`${one.layer}:${one.id}`, one.geometry, {
        id: one.id,
        layer: one.layer,
        kind: one.kind,
        name: one.name,
        width_min_m: one.width === null ? null : rounded(one.width.minM, 3),
        width_m: one.width === null ? null : rounded(one.width.typicalM, 3),
        width_max_m: one.width === null ? null : rounded(one.width.maxM, 3),
        width_source: one.width?.source ?? null,
        height_m: one.heightM === null ? null : rounded(one.heightM, 3),
        height_source: one.heightSource,
        class: one.roadClass,
        speed_kmh: one.speedKmh === null ? null : rounded(one.speedKmh, 2),
        speed_source: one.speedSource,
        lanes: one.lanes,
        oneway: one.across?.oneway ?? null,
        lane_m: one.across === undefined ? null : rounded(one.across.laneM, 3),
        parking_left: one.across?.parking.left ?? null,
        parking_right: one.across?.parking.right ?? null,
        shoulder_left_m: one.across?.shoulderM.left ?? null,
        shoulder_right_m: one.across?.shoulderM.right ?? null,
        voltage_v: one.voltageV,
        ...wireMembers(one.wire),
      }),
    ),
  );
}

/** What is known of a line's wire; empty for all else. */
function wireMembers(wire: WireRecord | undefined): Flat {
  return {
    span_ids: wire?.spanIds ?? [],
    span_lengths_m: wire?.spanLengthsM.map((lengthM) => rounded(lengthM, 3)) ?? [],
    attachments_m: wire?.attachmentsM?.map((heightM) => rounded(heightM, 3)) ?? [],
    sags_m: wire?.sagsM?.map((sagM) => rounded(sagM, 3)) ?? [],
    rule: wire?.ruleId ?? null,
    minimum_m: wire === undefined || wire.minimumM === null ? null : rounded(wire.minimumM, 4),
    clear_to_m: wire === undefined || wire.clearToM === null ? null : rounded(wire.clearToM, 4),
    load_cases: wire?.loadCases ?? [],
    sag_source: wire?.sagSource ?? null,
    conductor_source: wire?.conductorSource ?? null,
    insulation: wire?.insulation ?? null,
    cables: wire?.cables ?? null,
  };
}

/**
 * Areas of sight as GeoJSON polygons; what trees hide in them flat with the prefix `hidden_`, parts as pairs of ends in one list. The ground behind
 * the trees follows its area as features of their own, `part` being `blind`, that say the same.
 */
export function sightFeatures(areas: readonly SightArea[]): FeatureCollection<Polygon, Flat> {
  return collection(
    areas.flatMap((area) => {
      const ring = area.ring.map((position) => [position[0], position[1]]);
      const first = ring[0];
      const last = ring[ring.length - 1];
      if (first !== undefined && last !== undefined && (first[0] !== last[0] || first[1] !== last[1]))
        ring.push([...first]);
      const shapes = [[ring], ...(area.hidden?.blind?.coordinates ?? [])];
      return shapes.map((rings, at) => {
        const id = at === 0 ? area.id : `${area.id},blind-${at}`;
        const coordinates = rings.map((one) =>
          one.map(([lonDeg, latDeg]) => [rounded(lonDeg!, 8), rounded(latDeg!, 8)]),
        );
        const part = at === 0 ? "area" : "blind";
        return feature(
          id,
          { type: "Polygon" as const, coordinates },
          { id, part, area: area.id, ...sightMembers(area) },
        );
      });
    }),
  );
}

function sightMembers(area: SightArea): Flat {
  const { hidden } = area;
  return {
    kind: area.kind,
    movement: area.movement,
    road: area.roadName,
    direction: area.direction,
    control: area.control,
    control_source: area.controlSource,
    design_speed_kmh: rounded(area.designSpeedKmh, 2),
    leg_m: rounded(area.legM, 2),
    window_low_m: rounded(area.windowLowM, 4),
    window_high_m: rounded(area.windowHighM, 4),
    rule: area.ruleId,
    doubt: area.doubt,
    hidden_share: hidden === null ? null : rounded(hidden.share, 4),
    looked_at_m: hidden === null ? null : rounded(hidden.lookedAtM, 2),
    hidden_parts_m: hidden?.partsM.flatMap((part) => part.map((endM) => rounded(endM, 2))) ?? [],
    hidden_trees: hidden?.trees.map(({ treeId }) => treeId) ?? [],
    hidden_tree_alone: hidden?.trees.map(({ aloneShare }) => rounded(aloneShare, 4)) ?? [],
    hidden_tree_marginal: hidden?.trees.map(({ marginalShare }) => rounded(marginalShare, 4)) ?? [],
    opens_most: hidden?.opensMost?.treeIds ?? [],
    opens_most_share: hidden?.opensMost == null ? null : rounded(hidden.opensMost.share, 4),
  };
}

/** Zones as GeoJSON areas of one part or more; visits and trees in order of work, the closure flat with the prefix `closure_`. */
export function zoneFeatures(zones: readonly Zone[]): FeatureCollection<MultiPolygon, Flat> {
  return collection(
    zones.map((zone) =>
      feature(zone.zoneId, zone.area, {
        zone: zone.zoneId,
        name: zone.name,
        state: zone.state,
        crew: zone.crew,
        trees: zone.treeIds.length,
        visit_ids: zone.visitIds,
        tree_ids: zone.treeIds,
        hours: rounded(zone.hours, 2),
        window: `${zone.windowStart}/${zone.windowEnd}`,
        due: zone.due,
        urgency: zone.urgency,
        walk_m: rounded(zone.walkM, 1),
        streets: zone.streets,
        hazards: zone.hazards,
        closure_kind: zone.closure.kind,
        closure_road: zone.closure.roadName,
        closure_speed_kmh: zone.closure.speedKmh === null ? null : rounded(zone.closure.speedKmh, 2),
        closure_taper_m: zone.closure.taperM === null ? null : rounded(zone.closure.taperM, 2),
        closure_buffer_m: zone.closure.bufferM === null ? null : rounded(zone.closure.bufferM, 2),
        closure_sign_spacing_m: zone.closure.signSpacingM.map((spacingM) => rounded(spacingM, 2)),
        closure_note: zone.closure.note,
        ...controlMembers(zone.closure.control ?? null),
        locked: zone.isLocked === true,
        by_hand: zone.isByHand === true,
        order_by_hand: zone.isHandOrdered === true,
        planned_on: zone.plannedOn ?? null,
        asked_window: zone.askedWindow == null ? null : `${zone.askedWindow.start}/${zone.askedWindow.end}`,
      }),
    ),
  );
}

/** The layout of a closure's set-up; nulls and empty lists where there is none. */
function controlMembers(control: TrafficControl | null): Flat {
  return {
    closure_case: control?.caseId ?? null,
    closure_application: control?.application ?? null,
    closure_duration: control?.duration ?? null,
    closure_set_ups: control?.setUps ?? null,
    closure_lanes: control?.lanes ?? null,
    closure_oneway: control?.isOneway ?? null,
    closure_lane_m: control === null ? null : rounded(control.laneM, 3),
    closure_side_room_m: control === null ? null : rounded(control.sideRoomM, 3),
    closure_vehicle: control?.hasVehicle ?? null,
    closure_work_m: control === null ? null : rounded(control.workM, 2),
    closure_tapers: control?.tapers.map(({ kind }) => kind) ?? [],
    closure_tapers_m: control?.tapers.map(({ lengthM }) => rounded(lengthM, 4)) ?? [],
    closure_taper_devices: control?.tapers.map(({ devices }) => devices) ?? [],
    closure_tangent_devices: control?.tangentDevices ?? null,
    closure_taper_spacing_m: control?.taperSpacingM == null ? null : rounded(control.taperSpacingM, 4),
    closure_tangent_spacing_m: control?.tangentSpacingM == null ? null : rounded(control.tangentSpacingM, 4),
    closure_cone_height_m: control?.coneHeightM == null ? null : rounded(control.coneHeightM, 4),
    closure_flaggers: control?.flaggers ?? null,
    closure_flagger_sight_m: control?.flaggerSightM == null ? null : rounded(control.flaggerSightM, 2),
    closure_signs: control?.signs ?? [],
    closure_approaches: control?.approaches ?? null,
    closure_walk: control?.isWalkClosed ?? null,
    closure_assumptions: control?.assumptions ?? [],
  };
}

function feature<G extends Geometry | null>(id: string, geometry: G, properties: Flat): Feature<G, Flat> {
  return { type: "Feature", id, properties, geometry };
}

function collection<G extends Geometry | null>(features: Feature<G, Flat>[]): FeatureCollection<G, Flat> {
  return { type: "FeatureCollection", features };
}
