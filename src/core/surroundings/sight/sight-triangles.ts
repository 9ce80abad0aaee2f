import { planeOf, planesAcross, toLonLat } from "../../plane/plane.ts";
import { spanOf } from "../../plane/shapes-builder.ts";
import type { Standard } from "../../standard/standard.ts";
import type { Centerline } from "../centerline.ts";
import { uncontrolledTriangles, yieldTriangles } from "./approach-triangles.ts";
import { cornerTriangles } from "./corner-triangles.ts";
import { departureTriangles } from "./departure-triangles.ts";
import { findIntersections, type Intersection, type Leg } from "./find-intersections.ts";
import { firstCarTriangles } from "./first-car-triangles.ts";
import { type LegControl, legControls } from "./leg-controls.ts";
import { majorTurnTriangles } from "./major-turn-triangles.ts";
import type { ControlSign } from "./read-signs.ts";
import { RoadGraphs } from "./road-graphs.ts";
import type { BuiltTriangle, SightScene } from "./scene.ts";
import { isStorage, seenLegs, sideOf } from "./seen-legs.ts";
import { type SignedLegs, signedLegs } from "./signed-legs.ts";

/** The intersections of a network with what was built at them. */
export interface SightTriangles {
  readonly triangles: readonly BuiltTriangle[];
  /** Signs that control no leg, and signals of no intersection. */
  readonly loose: readonly ControlSign[];
  /** Intersections of streets; how many have their control assumed; and roundabouts, which are not measured. */
  readonly count: { readonly all: number; readonly assumed: number; readonly roundabouts: number };
}

/** A driveway's driver gives way to everybody on the road. */
const DRIVEWAY: LegControl = { control: "stop", source: "a driveway gives way", isAssumed: false, doubt: null };

/**
 * The sight triangles of every intersection of a network, by the standard's method, each control by the published cases: departure triangles
 * from a stop, approach triangles at a yield and where nothing controls, first cars at signals and all-way stops, the turn on red, the turn from
 * the major road, plain corners, driveways. An intersection belongs to the plane of its own position, so that a part gives what the whole gives.
 *
 * Not modeled: roundabouts (case G), grades of approach triangles, the bend of a road that is not in the polyline.
 */
export function sightTriangles(
  centerlines: readonly Centerline[],
  controls: readonly ControlSign[],
  standard: Standard,
  drive: "right" | "left",
  graphs = new RoadGraphs(centerlines),
): SightTriangles {
  const rule =
    standard.rules.find(({ id }) => id === standard.sight.ruleId) ??
    standard.rules.find(({ kind }) => kind === "sight-triangle");
  const count = { all: 0, assumed: 0, roundabouts: 0 };
  if (rule === undefined) return { triangles: [], loose: [], count };
  const built = new Map<string, BuiltTriangle>();
  const loose: ControlSign[] = [];
  const scene = { rules: standard.sight, windowHighM: rule.minimumM, drive };
  for (const plane of planesOf(centerlines, controls)) {
    const graph = graphs.of(plane);
    const all = findIntersections(graph, centerlines);
    const signed = signedLegs(graph, plane, all, controlsAround(controls, plane), standard.sight.signReachM, drive);
    loose.push(...signed.loose.filter(({ lonDeg }) => planeOf(lonDeg) === plane));
    const intersections = new Map(all.map((one) => [one.node, one]));
    for (const intersection of all) {
      const [lonDeg] = toLonLat(plane, graph.xM[intersection.node]!, graph.yM[intersection.node]!);
      if (planeOf(lonDeg) !== plane) continue;
      const triangles = trianglesAt({ ...scene, graph, plane, intersections }, intersection, signed, count);
      for (const triangle of triangles) if (!built.has(triangle.area.id)) built.set(triangle.area.id, triangle);
    }
  }
  return { triangles: [...built.values()], loose, count };
}

function trianglesAt(
  scene: SightScene,
  intersection: Intersection,
  signed: SignedLegs,
  count: { all: number; assumed: number; roundabouts: number },
): BuiltTriangle[] {
  if (intersection.isRoundabout) {
    count.roundabouts += 1;
    return [];
  }
  const controls = legControls(intersection, signed, scene.rules.assume);
  const own = (leg: Leg): LegControl | undefined => controls.get(leg.direction);
  const isCrossing = intersection.legs.some(
    (leg) => own(leg) !== undefined && seenLegs(scene, intersection, leg).some((one) => sideOf(one) !== null),
  );
  const built: BuiltTriangle[] = [];
  const isUncontrolled = [...controls.values()].every(({ control }) => control === "none");
  if (controls.size > 0 && isCrossing) {
    count.all += 1;
    if ([...controls.values()].some(({ isAssumed }) => isAssumed)) count.assumed += 1;
    if (scene.rules.method === "corner") {
      const uncontrolled = isUncontrolled ? [...controls.values()][0]! : null;
      built.push(...cornerTriangles(scene, intersection, false, uncontrolled));
    } else {
      for (const leg of intersection.legs) {
        const control = own(leg) ?? storageControl(scene, intersection, leg, controls);
        if (control !== null) built.push(...byControl(scene, intersection, leg, control, isUncontrolled));
      }
    }
  }
  return [...built, ...drivewayTriangles(scene, intersection, signed)];
}

/** The triangles of one leg, by how its traffic is controlled. */
function byControl(
  scene: SightScene,
  intersection: Intersection,
  leg: Leg,
  control: LegControl,
  isUncontrolled: boolean,
): BuiltTriangle[] {
  const { turnOnRed } = scene.rules;
  switch (control.control) {
    case "stop":
      return departureTriangles(scene, intersection, leg, control);
    case "yield":
      return yieldTriangles(scene, intersection, leg, control);
    case "all-way-stop":
      return firstCarTriangles(scene, intersection, leg, control, "all-way-stop", ["left", "right"]);
    case "none":
      return isUncontrolled
        ? uncontrolledTriangles(scene, intersection, leg, control)
        : majorTurnTriangles(scene, intersection, leg, control);
    case "signal": {
      const isAllowed = turnOnRed === "always" || (turnOnRed === "right-hand-traffic" && scene.drive === "right");
      const onRed = isAllowed ? departureTriangles(scene, intersection, leg, control, "turn-near", "right-on-red") : [];
      // The triangle of the turn on red holds the first car on that side.
      const done = new Set(onRed.map(({ area }) => area.direction));
      const sides = (["left", "right"] as const).filter((side) => !done.has(side));
      return [
        ...onRed,
        ...firstCarTriangles(scene, intersection, leg, control, "first-cars", sides),
        ...majorTurnTriangles(scene, intersection, leg, control),
      ];
    }
  }
}

/** Where a median has room to wait, its opening is an approach of its own: the driver in it must see the second carriageway. */
function storageControl(
  scene: SightScene,
  intersection: Intersection,
  leg: Leg,
  controls: ReadonlyMap<number, LegControl>,
): LegControl | null {
  if (!isStorage(scene, intersection, leg) || !leg.arrives) return null;
  const isSignaled = [...controls.values()].some(({ control }) => control === "signal" || control === "all-way-stop");
  if (isSignaled) return null;
  const isAssumed = [...controls.values()].some((one) => one.isAssumed);
  return {
    control: "stop",
    source: "a driver waiting in the median",
    isAssumed,
    doubt: isAssumed
      ? "How traffic is controlled here is not recorded; a driver is taken to wait in the median."
      : null,
  };
}

function drivewayTriangles(scene: SightScene, intersection: Intersection, signed: SignedLegs): BuiltTriangle[] {
  const { driveways, method } = scene.rules;
  const unsigned = intersection.legs.filter((leg) => leg.isService && !signed.signs.has(leg.direction));
  const isStreet = intersection.legs.some((leg) => !leg.isService && leg.road.roadClass !== "freeway");
  if (driveways === "none" || unsigned.length === 0 || !isStreet) return [];
  if (driveways === "corner" || method === "corner") return cornerTriangles(scene, intersection, true, null);
  return unsigned
    .filter(({ arrives }) => arrives)
    .flatMap((leg) => departureTriangles(scene, intersection, leg, DRIVEWAY, "all", "driveway"));
}

/** Planes of the network and of the signs, ascending. */
function planesOf(centerlines: readonly Centerline[], controls: readonly ControlSign[]): number[] {
  const planes = new Set(controls.map(({ lonDeg }) => planeOf(lonDeg)));
  for (const { lines } of centerlines) {
    const [westDeg, eastDeg, latDeg] = spanOf(lines);
    for (const plane of planesAcross(westDeg, eastDeg, latDeg, 0)) planes.add(plane);
  }
  return [...planes].sort((one, other) => one - other);
}

/** Signs that can stand at intersections of a plane: its own and those of the planes beside it. */
function controlsAround(controls: readonly ControlSign[], plane: number): ControlSign[] {
  return controls.filter(({ lonDeg, latDeg }) => planesAcross(lonDeg, lonDeg, latDeg).includes(plane));
}
