import type { PlanePoint } from "../plane-point.ts";
import { pointAlong } from "../point-along.ts";

/** Positions looked at on one sight distance: the offset of an arc is then found to a hundredth of it. */
const STEPS = 32;
/** Less than this from the lane's center is no area, meters. */
const THINNEST_M = 0.05;

export interface CurveSweep {
  /** Ring about all that the chords sweep between themselves and the lane, the lane first, open; null when they sweep nothing. */
  readonly ring: readonly PlanePoint[] | null;
  /** Greatest distance in meters of a chord from the lane's center. */
  readonly offsetM: number;
}

/**
 * What the lines of sight of a driver on a lane sweep inside its curve: from every eye position between `fromM` and `toM` along the lane to the
 * point `sightM` farther on. Walked along the lane, so that it holds for curves shorter than the sight distance and at the ends of longer ones,
 * where the formula does not. `inside` is 1 where the curve's center is at the left of the lane, -1 at the right.
 */
export function sightAroundCurve(
  lane: readonly PlanePoint[],
  fromM: number,
  toM: number,
  sightM: number,
  inside: 1 | -1,
): CurveSweep {
  const stepM = sightM / STEPS;
  const count = Math.max(1, Math.round((toM - fromM) / stepM));
  const points = Array.from({ length: count + STEPS + 1 }, (_, at) => pointAlong(lane, fromM + at * stepM));
  const offsets = points.map((point, at) => {
    const before = points[Math.max(0, at - 1)]!;
    const after = points[Math.min(points.length - 1, at + 1)]!;
    const lengthM = Math.hypot(after[0] - before[0], after[1] - before[1]);
    if (lengthM === 0) return { nx: 0, ny: 0, offsetM: 0 };
    const nx = (-inside * (after[1] - before[1])) / lengthM;
    const ny = (inside * (after[0] - before[0])) / lengthM;
    let offsetM = 0;
    for (let eye = Math.max(0, at - STEPS + 1); eye <= Math.min(count, at - 1); eye += 1) {
      offsetM = Math.max(offsetM, alongNormal(point, nx, ny, points[eye]!, points[eye + STEPS]!));
    }
    return { nx, ny, offsetM };
  });
  const first = offsets.findIndex(({ offsetM }) => offsetM > THINNEST_M);
  if (first < 0) return { ring: null, offsetM: 0 };
  const last = offsets.length - 1 - [...offsets].reverse().findIndex(({ offsetM }) => offsetM > THINNEST_M);
  const from = Math.max(0, first - 1);
  const to = Math.min(points.length - 1, last + 1);
  const lanePart = points.slice(from, to + 1);
  const edge: PlanePoint[] = [];
  for (let at = last; at >= first; at -= 1) {
    const { nx, ny, offsetM } = offsets[at]!;
    if (offsetM <= THINNEST_M) continue;
    edge.push([points[at]![0] + nx * offsetM, points[at]![1] + ny * offsetM]);
  }
  return { ring: [...lanePart, ...edge], offsetM: Math.max(...offsets.map(({ offsetM }) => offsetM)) };
}

/** Distance along a normal from a point of the lane to a chord; 0 when it runs on the other side. */
function alongNormal([px, py]: PlanePoint, nx: number, ny: number, [ax, ay]: PlanePoint, [bx, by]: PlanePoint): number {
  const [dx, dy] = [bx - ax, by - ay];
  const cross = nx * dy - ny * dx;
  if (cross === 0) return 0;
  const along = ((ax - px) * dy - (ay - py) * dx) / cross;
  const share = ((ax - px) * ny - (ay - py) * nx) / cross;
  return share >= 0 && share <= 1 ? Math.max(0, along) : 0;
}
