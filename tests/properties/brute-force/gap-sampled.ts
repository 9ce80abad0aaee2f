import { heightsBetween, type Solid, shareAt, widthAt } from "./solid.ts";
import { type WireNumbers, wirePoint } from "./swept-points.ts";

const LEVELS = 24;
const BEARINGS = 60;
const ALONG_M = 0.5;
const ANGLES = 6;
/** Samples from which the search is made finer, the nearest first. */
const STARTS = 4;
/** Steps are halved until they are this small a part of the first ones. */
const FINEST = 2 ** -9;

/** A place on a wire and one on the crown: share of the span, angle, height, bearing. */
type Pair = [share: number, angle: number, z: number, bearing: number];

/**
 * The least distance found between samples of a swept wire and of a crown about `axis`, 0 where a sample of the wire is in the crown: never
 * less than the truth. First a grid over both, then finer and finer ones about the best of it.
 */
export function gapSampled(solid: Solid, axis: readonly [number, number], wire: WireNumbers): number {
  const spanM = Math.hypot(wire[3]! - wire[0]!, wire[4]! - wire[1]!);
  const swing = wire[8]!;
  const alongs = Math.ceil(spanM / ALONG_M);
  const angles = swing > 0 ? heightsBetween(-swing, swing, ANGLES) : [0];
  const levels = heightsBetween(solid.baseM, solid.heightM, LEVELS);
  const first: Pair = [
    1 / alongs,
    swing > 0 ? (2 * swing) / ANGLES : 0,
    (solid.heightM - solid.baseM) / LEVELS,
    (2 * Math.PI) / BEARINGS,
  ];
  const gap = (pair: Pair): number => gapOf(solid, axis, wire, pair);
  const best: { readonly pair: Pair; readonly gapM: number }[] = [];
  const reach = Math.max(...solid.radii);
  let leastM = Number.POSITIVE_INFINITY;
  for (let along = 0; along <= alongs; along += 1) {
    for (const angle of angles) {
      const point = wirePoint(wire, along / alongs, angle);
      const [x, y] = [point[0] - axis[0], point[1] - axis[1]];
      // No nearer than to the upright cylinder about the crown: what is farther than the best by a step cannot win.
      const asideM = Math.max(0, Math.hypot(x, y) - reach);
      const overM = Math.max(0, solid.baseM - point[2], point[2] - solid.heightM);
      if (Math.hypot(asideM, overM) > leastM + ALONG_M) continue;
      const toward = Math.atan2(x, y);
      let near = Number.POSITIVE_INFINITY;
      let pair: Pair = [along / alongs, angle, solid.baseM, toward];
      for (const z of levels) {
        // A third of a turn to either side: the nearest point of a convex outline is not behind it.
        for (let turn = -BEARINGS / 3; turn <= BEARINGS / 3; turn += 2) {
          const bearing = toward + (turn * 2 * Math.PI) / BEARINGS;
          const gapM = gapFrom(solid, x, y, point[2], z, bearing);
          if (gapM < near) {
            near = gapM;
            pair = [along / alongs, angle, z, bearing];
          }
        }
      }
      best.push({ pair, gapM: near });
      leastM = Math.min(leastM, near);
    }
  }
  best.sort((one, other) => one.gapM - other.gapM);
  let least = Number.POSITIVE_INFINITY;
  for (const start of best.slice(0, STARTS)) {
    // A start can still come nearer by the steps of the first grid, no more.
    if (start.gapM - 2 * ALONG_M > least) break;
    least = Math.min(least, finer(start.pair, first, gap, solid, swing));
    if (least === 0) break;
  }
  return least;
}

function finer(
  start: Pair,
  first: Pair,
  gap: (pair: Pair) => number,
  { baseM, heightM }: Solid,
  swing: number,
): number {
  let at = start;
  let leastM = gap(at);
  for (let scale = 1; scale > FINEST; ) {
    let moved: Pair | null = null;
    const [share, angle, z, bearing] = at;
    for (let i = -1; i <= 1; i += 1) {
      const nextShare = Math.min(1, Math.max(0, share + i * scale * first[0]));
      for (let j = first[1] > 0 ? -1 : 0; j <= (first[1] > 0 ? 1 : 0); j += 1) {
        const nextAngle = Math.min(swing, Math.max(-swing, angle + j * scale * first[1]));
        for (let k = -1; k <= 1; k += 1) {
          const nextZ = Math.min(heightM, Math.max(baseM, z + k * scale * first[2]));
          for (let l = -1; l <= 1; l += 1) {
            const next: Pair = [nextShare, nextAngle, nextZ, bearing + l * scale * first[3]];
            const gapM = gap(next);
            if (gapM >= leastM) continue;
            leastM = gapM;
            moved = next;
          }
        }
      }
    }
    if (moved === null) scale /= 2;
    else at = moved;
  }
  return leastM;
}

function gapOf(solid: Solid, axis: readonly [number, number], wire: WireNumbers, pair: Pair): number {
  const [x, y, z] = wirePoint(wire, pair[0], pair[1]);
  return gapFrom(solid, x - axis[0], y - axis[1], z, pair[2], pair[3]);
}

/** From a point about the axis to the crown's section at a height: straight up or down over it, else to its outline toward a bearing. */
function gapFrom(solid: Solid, x: number, y: number, pointZ: number, z: number, bearing: number): number {
  const width = widthAt(solid, z);
  if (shareAt(solid, x, y) <= width) return Math.abs(pointZ - z);
  const [east, north] = [Math.sin(bearing), Math.cos(bearing)];
  const reachM = width / shareAt(solid, east, north);
  return Math.hypot(x - east * reachM, y - north * reachM, pointZ - z);
}
