import { Clipper, EndType, FillRule, JoinType, type PathsD, PointInPolygonResult } from "clipper2-ts";
import type { MultiPolygon, Position } from "geojson";
import { planeOf, toLonLat, toPlane } from "../plane/plane.ts";
import { dropReachM, type Stop } from "./stops.ts";

/** Trunks nearer than this are joined by a corridor, so that a row of trees reads as one stretch of work; others stay apart. Our policy. */
const LONGEST_CORRIDOR_M = 45;
/** Half width of such a corridor, and the radius that hollow corners are rounded with. */
const CORRIDOR_M = 1.5;
const SMOOTHING_M = 4;
/** Vertices nearer than this to the outline without them are left out. */
const THINNING_M = 0.1;
/** Ground that the work goes around belongs to the zone where it is smaller than a house's lot. */
const LEAST_HOLE_M2 = 400;
const DISC_SIDES = 24;
/** How far in meters rounded corners may stray from a circle; on paper at 1:500 a tenth is 0.2 mm. */
const ARC_TOLERANCE_M = 0.1;
/** Decimals of a meter that the clipper computes with. */
const PRECISION = 3;

/**
 * The outline around the work areas and drop zones of trees in their order of work: discs of the crown's largest radius plus 3 m, joined by a
 * narrow corridor where the next tree is near, hollow corners rounded. Trees farther apart make parts of their own, from west to east. Ground of
 * more than 400 m2 that the work goes around stays out as a hole. Longitude and latitude with 7 decimals, outer rings counterclockwise, holes
 * clockwise. Throws RangeError for no trees.
 */
export function zoneOutline(stops: readonly Stop[]): MultiPolygon {
  const first = stops[0];
  if (first === undefined) throw new RangeError("Expected one tree or more, got none");
  const plane = planeOf(first.tree.lonDeg);
  const [originX, originY] = toPlane(plane, first.tree.lonDeg, first.tree.latDeg);
  const places = stops.map((stop): Place => {
    const { tree } = stop;
    const [x, y] = toPlane(plane, tree.lonDeg, tree.latDeg);
    const { crownEastM = 0, crownNorthM = 0 } = tree;
    return {
      x: x + crownEastM - originX,
      y: y + crownNorthM - originY,
      radiusM: dropReachM(stop),
    };
  });
  // Discs and corridors are laid out wider by the smoothing radius and shrunk by it together: their union's hollow corners come out round.
  const wide = [
    ...places.map(discAround),
    ...places.slice(1).flatMap((place, at) => corridorBetween(places[at]!, place)),
  ];
  const joined = Clipper.unionD(wide, [], FillRule.NonZero, PRECISION);
  const shrunk = Clipper.inflatePathsD(
    joined,
    -SMOOTHING_M,
    JoinType.Round,
    EndType.Polygon,
    2,
    PRECISION,
    ARC_TOLERANCE_M,
  );
  const paths = Clipper.simplifyPathsD(shrunk, THINNING_M, true);
  const outers = paths.filter((path) => Clipper.areaD(path) > 0).sort((a, b) => westernmost(a) - westernmost(b));
  const holes = paths.filter((path) => Clipper.areaD(path) < -LEAST_HOLE_M2);
  const ringOf = (path: PathsD[number]): Position[] => {
    const positions = path.map(({ x, y }): Position => {
      const [lonDeg, latDeg] = toLonLat(plane, x + originX, y + originY);
      return [Number(lonDeg.toFixed(7)), Number(latDeg.toFixed(7))];
    });
    return [...positions, positions[0]!];
  };
  const parts = outers.map((outer) => [outer, ...holes.filter((hole) => isWithin(hole, outer))].map(ringOf));
  return { type: "MultiPolygon", coordinates: parts };
}

interface Place {
  readonly x: number;
  readonly y: number;
  readonly radiusM: number;
}

/** A regular polygon around the widened disc; its sides touch the circle, so that they do not cut into it. */
function discAround({ x, y, radiusM }: Place): PathsD[number] {
  const reachM = (radiusM + SMOOTHING_M) / Math.cos(Math.PI / DISC_SIDES);
  return Array.from({ length: DISC_SIDES }, (_, side) => {
    const angle = (2 * Math.PI * side) / DISC_SIDES;
    return { x: x + reachM * Math.cos(angle), y: y + reachM * Math.sin(angle) };
  });
}

/** A rectangle from one tree to the next, counterclockwise; none between trees in one place. */
function corridorBetween(from: Place, to: Place): PathsD {
  const lengthM = Math.hypot(to.x - from.x, to.y - from.y);
  if (lengthM === 0 || lengthM > LONGEST_CORRIDOR_M) return [];
  const sideX = (-(to.y - from.y) / lengthM) * (CORRIDOR_M + SMOOTHING_M);
  const sideY = ((to.x - from.x) / lengthM) * (CORRIDOR_M + SMOOTHING_M);
  return [
    [
      { x: from.x - sideX, y: from.y - sideY },
      { x: to.x - sideX, y: to.y - sideY },
      { x: to.x + sideX, y: to.y + sideY },
      { x: from.x + sideX, y: from.y + sideY },
    ],
  ];
}

const westernmost = (path: PathsD[number]): number =>
  path.reduce((least, { x }) => Math.min(least, x), Number.POSITIVE_INFINITY);

/** Whether a hole lies in an outline; the outlines do not overlap, so one of its vertices decides. */
const isWithin = (hole: PathsD[number], outer: PathsD[number]): boolean =>
  Clipper.pointInPolygonD(hole[0]!, outer, PRECISION) !== PointInPolygonResult.IsOutside;
