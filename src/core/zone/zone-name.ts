import { bearingDeg } from "../plane/bearing.ts";
import { compassPoint } from "../units/compass.ts";
import type { Stop } from "./stops.ts";

/** Longest part of a street's name that goes into a zone's. */
const MAX_NAME = 60;

/** The street most of the stops are on, the one met first of equals; null where none is known. */
export function commonestStreet(stops: readonly Stop[]): string | null {
  let best: string | null = null;
  let bestCount = 0;
  for (const [street, count] of streetCounts(stops)) if (count > bestCount) [best, bestCount] = [street, count];
  return best;
}

/** The streets of the stops, in the order they are met. */
export const streetsOf = (stops: readonly Stop[]): string[] => [...streetCounts(stops).keys()];

function streetCounts(stops: readonly Stop[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { street } of stops) if (street !== null) counts.set(street, (counts.get(street) ?? 0) + 1);
  return counts;
}

/**
 * Names that a crew can say: the commonest street, else the compass direction from the middle of the work, each with a running number, for
 * example `Alder Street 1` or `Northeast 2`. `xy` holds a position for each zone, two a zone. A zone keeps the name it has in `earlier`, and
 * names in `taken` are given to none.
 */
export function zoneNames(
  zones: readonly (readonly Stop[])[],
  xy: Float64Array,
  earlier: readonly (string | null)[] = [],
  taken: readonly string[] = [],
): string[] {
  const used = new Set([...taken, ...earlier]);
  const last = new Map<string, number>();
  const [middleX, middleY] = [middle(xy, 0), middle(xy, 1)];
  return zones.map((stops, at) => {
    const own = earlier[at] ?? null;
    if (own !== null) return own;
    const base = baseName(stops, [xy[2 * at]! - middleX, xy[2 * at + 1]! - middleY]);
    let number = (last.get(base) ?? 0) + 1;
    while (used.has(`${base} ${number}`)) number += 1;
    last.set(base, number);
    return `${base} ${number}`;
  });
}

/** One more such name, which none of those taken is, for stops so far in meters east and north of the middle of the work. */
export function freeZoneName(
  stops: readonly Stop[],
  fromMiddle: readonly [eastM: number, northM: number],
  taken: ReadonlySet<string>,
): string {
  const base = baseName(stops, fromMiddle);
  let number = 1;
  while (taken.has(`${base} ${number}`)) number += 1;
  return `${base} ${number}`;
}

const baseName = (stops: readonly Stop[], [eastM, northM]: readonly [number, number]): string =>
  commonestStreet(stops)?.slice(0, MAX_NAME).trim() || areaName(eastM, northM);

function areaName(dxM: number, dyM: number): string {
  const point = compassPoint(bearingDeg(dxM, dyM));
  return `${point.slice(0, 1).toUpperCase()}${point.slice(1)}`;
}

function middle(xy: Float64Array, axis: 0 | 1): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let at = axis; at < xy.length; at += 2) {
    low = Math.min(low, xy[at]!);
    high = Math.max(high, xy[at]!);
  }
  return (low + high) / 2;
}
