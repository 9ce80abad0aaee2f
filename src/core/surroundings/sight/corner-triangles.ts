import type { RoadClass } from "../../model/surroundings.ts";
import { ROAD_CLASSES } from "../../model/surroundings.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import type { LegControl } from "./leg-controls.ts";
import { offsetLine } from "./offset-line.ts";
import type { PlanePoint } from "./plane-point.ts";
import { pointAlong } from "./point-along.ts";
import { followRoad } from "./road-graph.ts";
import type { BuiltTriangle, SightScene } from "./scene.ts";
import { halfWidthOf } from "./seen-legs.ts";
import { sightArea } from "./sight-area.ts";
import { walkFromFoot } from "./walk-from-foot.ts";

/** Corners sharper and flatter than these, degrees, are no corners: two roads that merge, a road that goes on. Our choice. */
const MIN_CORNER_DEG = 20;
const MAX_CORNER_DEG = 160;
/** How far past the leg's length the lines of a corner are followed, meters. */
const SPARE_M = 60;

const FIXED: LegControl = {
  control: "none",
  source: "a corner of fixed legs, whatever the control",
  isAssumed: false,
  doubt: null,
};

/**
 * The plain corners of an intersection: at each corner between two neighboring legs a triangle whose legs run from the corner along the lines that
 * the standard names. With `isDriveway` only corners at service ways, with their own leg; else only those between streets.
 *
 * Lot lines are rarely in the data: they are taken to run a set distance behind the edge of the pavement, the triangle is in doubt for it,
 * and what lies between them and the pavement belongs to it. `isUncontrolled` takes the legs for such intersections where the standard has some.
 */
export function cornerTriangles(
  scene: SightScene,
  intersection: Intersection,
  isDriveway: boolean,
  uncontrolled: LegControl | null,
): BuiltTriangle[] {
  const legs = intersection.legs
    .filter((leg) => leg.opening === null && (isDriveway || !leg.isService))
    .sort((one, other) => one.bearingDeg - other.bearingDeg || one.direction - other.direction);
  if (legs.length < 2) return [];
  return legs.flatMap((first, at) => {
    const second = legs[(at + 1) % legs.length]!;
    if (first.isService && second.isService) return [];
    if (isDriveway && !first.isService && !second.isService) return [];
    const angle = (((second.bearingDeg - first.bearingDeg) % 360) + 360) % 360;
    if (angle < MIN_CORNER_DEG || angle > MAX_CORNER_DEG) return [];
    return corner(scene, intersection, first, second, isDriveway, uncontrolled);
  });
}

function corner(
  scene: SightScene,
  { node }: Intersection,
  first: Leg,
  second: Leg,
  isDriveway: boolean,
  uncontrolled: LegControl | null,
): BuiltTriangle[] {
  const { corner: rule } = scene.rules;
  const larger = rankOf(first) >= rankOf(second) ? first : second;
  const isFromCenter = !isDriveway && uncontrolled !== null && rule.uncontrolledLegM !== null;
  const line = isFromCenter ? "center-line" : rule.line;
  const legM = isFromCenter
    ? rule.uncontrolledLegM!
    : isDriveway
      ? rule.drivewayLegM
      : (rule.legMByClass[larger.road.roadClass] ?? rule.legM);
  const behindM = line === "lot-line" ? rule.lotLineBehindEdgeM : 0;
  // Clockwise from the first leg to the second the corner lies at the right of the one and at the left of the other.
  const beside = (leg: Leg, sign: number, offM: number): PlanePoint[] =>
    offsetLine(followRoad(scene.graph, leg.direction, legM + SPARE_M), sign * (line === "center-line" ? 0 : offM));
  const edges = [beside(first, -1, halfWidthOf(first)), beside(second, 1, halfWidthOf(second))] as const;
  const lines =
    behindM === 0
      ? edges
      : ([beside(first, -1, halfWidthOf(first) + behindM), beside(second, 1, halfWidthOf(second) + behindM)] as const);
  const at = meeting(lines[0], lines[1]);
  const edgeAt = meeting(edges[0], edges[1]);
  if (at === null || edgeAt === null) return [];
  const [along, across] = [walkFromFoot(lines[0], at, legM), walkFromFoot(lines[1], at, legM)];
  const ends = [endOf(along, legM), endOf(across, legM)] as const;
  const corners =
    behindM === 0
      ? [at, ...along.points.slice(1, -1), ends[0], ends[1], ...across.points.slice(1, -1).reverse()]
      : [edgeAt, footOn(edges[0], ends[0]), ends[0], ends[1], footOn(edges[1], ends[1])];
  const control = isFromCenter ? uncontrolled : FIXED;
  const isUnmeasured = [first, second].some(({ road }) => (road.widthBasis ?? "measured") !== "measured");
  const doubt =
    behindM > 0
      ? `Where the lot lines run is not recorded; they are taken ${behindM.toFixed(1)} m behind the edge of the pavement.`
      : (control.doubt ??
        (isUnmeasured && line !== "center-line" ? "Where the edge of the pavement runs is not measured." : null));
  return [
    sightArea(scene, {
      node,
      from: larger === first ? second : first,
      toward: larger,
      direction: larger === first ? "right" : "left",
      movement: isDriveway ? "driveway" : "corner",
      control: { ...control, doubt },
      legM,
      coveredM: legM,
      corners,
      lane: [],
      isBySpeed: false,
      isFixed: !isFromCenter,
    }),
  ];
}

const rankOf = ({ road, isService }: Leg): number => (isService ? -1 : RANKED.length - RANKED.indexOf(road.roadClass));
const RANKED: readonly RoadClass[] = ROAD_CLASSES;

/** Where two lines beside the legs of a corner meet, each taken as straight near it; null where they are all but parallel. */
function meeting(one: readonly PlanePoint[], other: readonly PlanePoint[]): PlanePoint | null {
  const [[ax, ay], [bx, by]] = [one[0]!, one[1]!];
  const [[cx, cy], [dx, dy]] = [other[0]!, other[1]!];
  const [ux, uy, vx, vy] = [bx - ax, by - ay, dx - cx, dy - cy];
  const cross = ux * vy - uy * vx;
  if (Math.abs(cross) < Math.sin((MIN_CORNER_DEG * Math.PI) / 180) * Math.hypot(ux, uy) * Math.hypot(vx, vy))
    return null;
  const share = ((cx - ax) * vy - (cy - ay) * vx) / cross;
  return [ax + share * ux, ay + share * uy];
}

/** The end of a leg; where the line ends in the data before, it is taken to go on straight. */
function endOf({ points }: { readonly points: readonly PlanePoint[] }, legM: number): PlanePoint {
  return points.length < 2 ? points[0]! : pointAlong(points, legM);
}

const footOn = (line: readonly PlanePoint[], point: PlanePoint): PlanePoint => walkFromFoot(line, point, 0).points[0]!;
