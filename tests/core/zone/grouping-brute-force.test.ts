import fc from "fast-check";
import { expect, test } from "vitest";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { buildZones } from "../../../src/core/zone/build-zones.ts";
import { planOfWork, type Work } from "./plan-of-work.ts";

interface Place {
  readonly x: number;
  readonly y: number;
  readonly hours: number;
}

/** Lengths of the shortest ways through every set of places, by the bits of its number (Held and Karp 1962). */
function shortestWaysM(places: readonly Place[]): number[] {
  const count = places.length;
  const gap = (a: number, b: number): number => Math.hypot(places[a]!.x - places[b]!.x, places[a]!.y - places[b]!.y);
  const best = Array.from({ length: 1 << count }, () => new Float64Array(count).fill(Number.POSITIVE_INFINITY));
  for (let at = 0; at < count; at += 1) best[1 << at]![at] = 0;
  for (let seen = 1; seen < 1 << count; seen += 1) {
    for (let last = 0; last < count; last += 1) {
      const wayM = best[seen]![last]!;
      if (!Number.isFinite(wayM)) continue;
      for (let next = 0; next < count; next += 1) {
        if ((seen >> next) & 1) continue;
        const row = best[seen | (1 << next)]!;
        row[next] = Math.min(row[next]!, wayM + gap(last, next));
      }
    }
  }
  return best.map((row) => Math.min(...row));
}

/** The stated objective: 400 m for a day, its walk, and 2400 m times the square of what it lacks to three quarters of 8 hours; 1.1 days at most. */
function costOf(day: readonly Place[], walkM: number): number {
  const hours = day.reduce((sum, one) => sum + one.hours, 0);
  if (hours > 8.8 && day.length > 1) return Number.POSITIVE_INFINITY;
  return 400 + walkM + 2400 * Math.max(0, 0.75 - hours / 8) ** 2;
}

/** The least cost of all partitions, each set of places with its shortest walk: the least over the days that the first place left can be in. */
function cheapestPartition(places: readonly Place[]): number {
  const count = places.length;
  const members = (set: number): Place[] => places.filter((_, at) => (set >> at) & 1);
  const dayCost = shortestWaysM(places).map((walkM, set) => (set === 0 ? 0 : costOf(members(set), walkM)));
  const best = new Float64Array(1 << count).fill(Number.POSITIVE_INFINITY);
  best[0] = 0;
  for (let set = 1; set < 1 << count; set += 1) {
    const first = set & -set;
    for (let day = set; day > 0; day = (day - 1) & set) {
      if (day & first) best[set] = Math.min(best[set]!, dayCost[day]! + best[set ^ day]!);
    }
  }
  return best[(1 << count) - 1]!;
}

test("up to nine stops, the grouping costs little more than the cheapest of all partitions", () => {
  const anyPlace = fc.record({
    // Within 300 m, so that no step is too long.
    x: fc.integer({ min: 0, max: 210 }),
    y: fc.integer({ min: 0, max: 210 }),
    hours: fc.integer({ min: 4, max: 20 }).map((eighths) => eighths / 8),
  });
  const ratios: number[] = [];
  fc.assert(
    fc.property(fc.array(anyPlace, { minLength: 1, maxLength: 9 }), (places) => {
      const works = places.map(
        ({ x, y, hours }, at): Work => ({ id: `t${at}`, at: [x, y], visit: { hours }, tree: { radii: NO_CROWN } }),
      );
      const days = buildZones(planOfWork(works), usCommon());
      const placeOf = (id: string): Place => places[Number(id.slice(1))]!;
      const cost = days.reduce((sum, { treeIds, walkM }) => sum + costOf(treeIds.map(placeOf), walkM), 0);
      const least = cheapestPartition(places);
      ratios.push(cost / least);
      // Half a meter for each stop: the plane's scale, and walks rounded to centimeters.
      expect(cost).toBeGreaterThanOrEqual(least - 0.5 * places.length);
      // Route first, cluster second promises no ratio; this is what visits of half an hour to two and a half come to.
      expect(cost / least).toBeLessThanOrEqual(1.1);
    }),
    { seed: 11, numRuns: 120, endOnFailure: true },
  );
  ratios.sort((a, b) => a - b);
  expect(ratios.reduce((sum, one) => sum + one, 0) / ratios.length).toBeLessThanOrEqual(1.01);
});

const NO_CROWN = { northM: 1, eastM: 1, southM: 1, westM: 1 };
