import type { SightArea, SightMovement } from "../../model/surroundings.ts";
import type { Certainty } from "../../model/terms.ts";
import { toLonLat } from "../../plane/plane.ts";
import type { Leg } from "./find-intersections.ts";
import type { LegControl } from "./leg-controls.ts";
import type { PlanePoint } from "./plane-point.ts";
import type { BuiltTriangle, SightScene } from "./scene.ts";

/** What one triangle says beside where it is. */
export interface TriangleGiven {
  readonly node: number;
  /** The driver's leg. */
  readonly from: Leg;
  /** The leg seen. */
  readonly toward: Leg;
  readonly direction: "left" | "right" | null;
  readonly movement: SightMovement;
  readonly control: LegControl;
  readonly legM: number;
  readonly coveredM: number;
  /** Corners in the plane, the driver's eye first, open. */
  readonly corners: readonly PlanePoint[];
  /** The lane on which vehicles must be seen, from its near end; empty where none is. */
  readonly lane: readonly PlanePoint[];
  /** Whether speed decides the legs. */
  readonly isBySpeed: boolean;
  /** A corner of fixed legs, whatever the control. */
  readonly isFixed?: boolean;
}

/** A triangle as an area of sight, with every doubt about speed and control. */
export function sightArea(scene: SightScene, given: TriangleGiven): BuiltTriangle {
  const { node, from, toward, control } = given;
  const [lonDeg, latDeg] = toLonLat(scene.plane, scene.graph.xM[node]!, scene.graph.yM[node]!);
  const roads = given.movement === "no-control" || given.control.control === "yield" ? [from, toward] : [toward];
  const unsure = given.isBySpeed ? roads.find(({ road }) => road.speedBasis !== "measured") : undefined;
  const speedDoubt = unsure === undefined ? null : `The speed of ${unsure.road.name ?? "the road"} is assumed.`;
  const doubt = control.doubt ?? speedDoubt;
  const area: SightArea = {
    id: [
      lonDeg.toFixed(6),
      latDeg.toFixed(6),
      Math.round(from.bearingDeg) % 360,
      given.direction ?? Math.round(toward.bearingDeg) % 360,
      given.movement,
    ].join(","),
    kind: "sight-triangle",
    movement: given.movement,
    roadName: toward.road.name,
    direction: given.direction,
    control: given.isFixed === true ? null : control.control,
    controlSource: control.source,
    designSpeedKmh: toward.road.speedKmh,
    legM: given.legM,
    ring: [...given.corners, given.corners[0]!].map(([x, y]) => toLonLat(scene.plane, x, y)),
    windowLowM: scene.rules.windowLowM,
    windowHighM: scene.windowHighM,
    ruleId: scene.rules.ruleId,
    doubt,
    hidden: null,
  };
  const atMost: Certainty = control.isAssumed ? "possible" : doubt === null ? "confirmed" : "probable";
  const lane = given.lane.map(([x, y]) => toLonLat(scene.plane, x, y));
  return { area, lane, coveredM: given.coveredM, atMost };
}
