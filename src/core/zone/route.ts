import { type Distances, shortPath, straightDistances } from "./tour.ts";

/** Most stops whose way is searched for at once. */
const LEAF_STOPS = 200;
/** Side in meters of the fixed squares the plane is parted into first, and of the smallest they are parted into. */
const SQUARE_M = 65_536;
const LEAST_SQUARE_M = 8;

/**
 * A way through all stops, as their numbers in order: the plane is parted into fixed squares until none holds more than 200 stops, the
 * squares are taken in the order of Hilbert's curve (Bartholdi and Platzman 1982 route so), and in each a short path is searched for and
 * taken from the end nearer to where the last one stopped. The squares stand still whatever the data, so that a new stop changes
 * the way in its own square and little else. `distancesOf` measures between some of the stops; straight where it is left out.
 */
export function routeThrough(
  xy: Float64Array,
  distancesOf: (numbers: readonly number[]) => Distances = (numbers) => straightDistances(xy, numbers),
): number[] {
  const stops = Array.from({ length: xy.length / 2 }, (_, stop) => stop);
  const route: number[] = [];
  const routed: Routed = { xy, distancesOf, route };
  const squares = new Map<string, { x: number; y: number; members: number[] }>();
  for (const stop of stops) {
    const x = Math.floor(xy[2 * stop]! / SQUARE_M);
    const y = Math.floor(xy[2 * stop + 1]! / SQUARE_M);
    const square = squares.get(`${x} ${y}`);
    if (square === undefined) squares.set(`${x} ${y}`, { x, y, members: [stop] });
    else square.members.push(stop);
  }
  for (const { x, y, members } of [...squares.values()].sort((a, b) => a.x - b.x || a.y - b.y)) {
    alongCurve(routed, members, x * SQUARE_M, y * SQUARE_M, SQUARE_M, 0, 0, SQUARE_M);
  }
  return route;
}

interface Routed {
  readonly xy: Float64Array;
  readonly distancesOf: (numbers: readonly number[]) => Distances;
  readonly route: number[];
}

/** Hilbert's curve through the square with corner (x, y) and sides (ax, ay) and (bx, by), into `route`. */
function alongCurve(
  routed: Routed,
  members: readonly number[],
  x: number,
  y: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): void {
  if (members.length === 0) return;
  if (members.length <= LEAF_STOPS || Math.abs(ax + ay) <= LEAST_SQUARE_M) {
    append(routed, members);
    return;
  }
  const { xy } = routed;
  const quarters: number[][] = [[], [], [], []];
  const sideSquared = ax * ax + ay * ay;
  for (const stop of members) {
    const dx = xy[2 * stop]! - x;
    const dy = xy[2 * stop + 1]! - y;
    const alongA = (dx * ax + dy * ay) / sideSquared >= 0.5;
    const alongB = (dx * bx + dy * by) / sideSquared >= 0.5;
    quarters[alongA ? (alongB ? 2 : 3) : alongB ? 1 : 0]!.push(stop);
  }
  const [hax, hay, hbx, hby] = [ax / 2, ay / 2, bx / 2, by / 2];
  alongCurve(routed, quarters[0]!, x, y, hbx, hby, hax, hay);
  alongCurve(routed, quarters[1]!, x + hbx, y + hby, hax, hay, hbx, hby);
  alongCurve(routed, quarters[2]!, x + hax + hbx, y + hay + hby, hax, hay, hbx, hby);
  alongCurve(routed, quarters[3]!, x + 2 * hax + hbx, y + 2 * hay + hby, -hbx, -hby, -hax, -hay);
}

/** Adds the stops in runs of a size that can be searched; only stops that stand on one another make more than one run. */
function append({ xy, distancesOf, route }: Routed, members: readonly number[]): void {
  for (let from = 0; from < members.length; from += LEAF_STOPS) {
    const run = members.slice(from, from + LEAF_STOPS);
    const path = shortPath(distancesOf(run)).map((at) => run[at]!);
    const last = route[route.length - 1];
    if (last !== undefined) {
      const toFirst = squaredDistance(xy, last, path[0]!);
      const toEnd = squaredDistance(xy, last, path[path.length - 1]!);
      if (toEnd < toFirst) path.reverse();
    }
    route.push(...path);
  }
}

const squaredDistance = (xy: Float64Array, a: number, b: number): number =>
  (xy[2 * a]! - xy[2 * b]!) ** 2 + (xy[2 * a + 1]! - xy[2 * b + 1]!) ** 2;
