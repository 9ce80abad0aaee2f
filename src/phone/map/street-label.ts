import type { StreetLine } from "./world.ts";

/** Where along a line a name is tried, as shares of its length: quarters before the middle, where trees are thick. */
const PLACES = [0.3, 0.7, 0.5, 0.4, 0.6, 0.2, 0.8, 0.1, 0.9] as const;
/** A stretch whose ends are nearer than this share of its length bends too much for a straight name. */
const STRAIGHT_SHARE = 0.985;

export interface StreetLabel {
  readonly xM: number;
  readonly yM: number;
  /** Clockwise from level, never upside down. */
  readonly angleDeg: number;
}

/** A straight enough stretch of a street, long enough for its name, with nothing lying over it; null when there is none. */
export function streetLabel(
  { points, alongM }: StreetLine,
  nameLengthM: number,
  isFree: (xM: number, yM: number) => boolean,
): StreetLabel | null {
  const totalM = alongM.at(-1) ?? 0;
  for (const share of PLACES) {
    const middleM = totalM * share;
    if (middleM < nameLengthM / 2 || totalM - middleM < nameLengthM / 2) continue;
    const [ax, ay] = pointAt(points, alongM, middleM - nameLengthM / 2);
    const [bx, by] = pointAt(points, alongM, middleM + nameLengthM / 2);
    if (Math.hypot(bx - ax, by - ay) < STRAIGHT_SHARE * nameLengthM) continue;
    const [xM, yM] = [(ax + bx) / 2, (ay + by) / 2];
    const isWholeFree = [0, 0.25, 0.5, 0.75, 1].every((part) => isFree(ax + (bx - ax) * part, ay + (by - ay) * part));
    if (!isWholeFree) continue;
    const angle = (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
    return { xM, yM, angleDeg: angle > 90 ? angle - 180 : angle <= -90 ? angle + 180 : angle };
  }
  return null;
}

function pointAt(points: StreetLine["points"], alongM: readonly number[], atM: number): readonly [number, number] {
  const next = Math.max(
    1,
    alongM.findIndex((along) => along >= atM),
  );
  const [[ax, ay], [bx, by]] = [points[next - 1]!, points[next]!];
  const [fromM, toM] = [alongM[next - 1]!, alongM[next]!];
  const share = toM > fromM ? (atM - fromM) / (toM - fromM) : 0;
  return [ax + (bx - ax) * share, ay + (by - ay) * share];
}
