import { Clipper, EndType, FillRule, JoinType, type PathsD } from "clipper2-ts";
import type { Polygon, Position } from "geojson";
import { planeOf, toLonLat, toPlane } from "../plane/plane.ts";
import type { Stop } from "./stops.ts";

/** Added to the crown radius for the drop zone: one and a half times a branch that falls 2 m outside the crown. Our policy. */
export const DROP_MARGIN_M = 3;
/** Half width of the corridor that joins trees far apart, and the radius that hollow corners are rounded with. */
const CORRIDOR_M = 1.5;
const SMOOTHING_M = 4;
/** Vertices nearer than this to the outline without them are left out. */
const THINNING_M = 0.1;
const DISC_SIDES = 32;
/** Decimals of a meter that the clipper computes with. */
const PRECISION = 3;

/**
 * One ring around the work areas and drop zones of trees in their order of work: discs of the crown's largest radius plus 3 m, joined by narrow
 * corridors from tree to tree, hollow corners rounded. No holes: what the work surrounds belongs to the zone. Longitude and latitude with 7 decimals,
 * counterclockwise. Throws RangeError for no trees.
 */
export function zoneOutline(stops: readonly Stop[]): Polygon {
  const first = stops[0];
  if (first === undefined) throw new RangeError("Expected one tree or more, got none");
  const plane = planeOf(first.tree.lonDeg);
  const [originX, originY] = toPlane(plane, first.tree.lonDeg, first.tree.latDeg);
  const places = stops.map(({ tree }) => {
    const [x, y] = toPlane(plane, tree.lonDeg, tree.latDeg);
    const { northM, eastM, southM, westM } = tree.radii;
    return { x: x - originX, y: y - originY, radiusM: Math.max(northM, eastM, southM, westM) + DROP_MARGIN_M };
  });
  const discs: PathsD = places.map(({ x, y, radiusM }) =>
    Array.from({ length: DISC_SIDES }, (_, side) => {
      const angle = (2 * Math.PI * side) / DISC_SIDES;
      // Corners a little outside the circle, so that the sides do not cut into it.
      const reachM = radiusM / Math.cos(Math.PI / DISC_SIDES);
      return { x: x + reachM * Math.cos(angle), y: y + reachM * Math.sin(angle) };
    }),
  );
  const corridors =
    places.length < 2
      ? []
      : Clipper.inflatePathsD(
          places.slice(1).map(({ x, y }, at) => [
            { x: places[at]!.x, y: places[at]!.y },
            { x, y },
          ]),
          CORRIDOR_M,
          JoinType.Round,
          EndType.Round,
          2,
          PRECISION,
        );
  const joined = Clipper.unionD([...discs, ...corridors], [], FillRule.NonZero, PRECISION);
  const ring = largest(thinned(offset(offset(joined, SMOOTHING_M), -SMOOTHING_M)));
  const positions = ring.map(({ x, y }): Position => {
    const [lonDeg, latDeg] = toLonLat(plane, x + originX, y + originY);
    return [Number(lonDeg.toFixed(7)), Number(latDeg.toFixed(7))];
  });
  return { type: "Polygon", coordinates: [[...positions, positions[0]!]] };
}

const offset = (paths: PathsD, byM: number): PathsD =>
  Clipper.inflatePathsD(paths, byM, JoinType.Round, EndType.Polygon, 2, PRECISION, 0.05);

const thinned = (paths: PathsD): PathsD => Clipper.simplifyPathsD(paths, THINNING_M, true);

/** The outer ring with the largest area; holes have a negative area. */
function largest(paths: PathsD): PathsD[number] {
  let best = paths[0]!;
  for (const path of paths) if (Clipper.areaD(path) > Clipper.areaD(best)) best = path;
  return best;
}
