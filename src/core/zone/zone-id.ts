import type { Stop } from "./stops.ts";

/**
 * Id of a zone, `z-` and 11 characters, made of the tree that comes first in the inventory, the crew and the month its window ends: the same
 * as long as that tree stays in the zone, whatever else joins or leaves.
 */
export function zoneId(stops: readonly Stop[]): string {
  let first = stops[0]!;
  for (const stop of stops) if (stop.tree.row < first.tree.row) first = stop;
  const text = `${first.tree.id}\n${first.visit.crew}\n${first.visit.windowEnd.slice(0, 7)}`;
  // 52 bits, so that the sum of both halves stays an exact integer.
  const bits = fnv1a(text, 0x811c9dc5) + (fnv1a(text, 0x050c5d1f) & 0xfffff) * 0x1_0000_0000;
  return `z-${bits.toString(36).padStart(11, "0")}`;
}

/** The id of a zone, with the first number from 2 on behind it that makes it one that is not used. */
export function freeZoneId(stops: readonly Stop[], used: ReadonlySet<string>): string {
  const id = zoneId(stops);
  let free = id;
  for (let number = 2; used.has(free); number += 1) free = `${id}-${number}`;
  return free;
}

/** FNV-1a over UTF-16 code units (Fowler, Noll, Vo), 32 bits, from a given basis. */
function fnv1a(text: string, basis: number): number {
  let hash = basis;
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
}
