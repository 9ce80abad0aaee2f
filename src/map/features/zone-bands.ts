import type { Feature, FeatureCollection, LineString, Point, Position } from "geojson";
import type { Plan } from "../../core/model/plan.ts";
import type { Tree } from "../../core/model/trees.ts";
import type { Zone } from "../../core/model/zone.ts";
import type { Words } from "../words.ts";
import { zoneMembers } from "./zone-features.ts";

/**
 * Zones as they are drawn far out, where their true outlines would be a tangle. Each feature has a `shape`: `band` for the lines through
 * the trees of one part and `stop` for those trees, which together make a soft band; `link` for a line from one part to the next, so
 * that all parts read as one zone; `title` for the one place where its name stands.
 */
export function zoneBands(plan: Plan, words: Words): FeatureCollection<LineString | Point> {
  const treeOf = new Map(plan.trees.map((tree) => [tree.id, tree]));
  return {
    type: "FeatureCollection",
    features: plan.zones.flatMap((zone, place): Feature<LineString | Point>[] => {
      const trees = [...new Set(zone.treeIds)].flatMap((treeId) => treeOf.get(treeId) ?? []);
      if (trees.length === 0) return [];
      const members = zoneMembers(zone);
      const parts = trees.map((tree, index) => partOf(zone, tree) ?? -1 - index);
      const at = (index: number): Position => [trees[index]!.lonDeg, trees[index]!.latDeg];
      const point = (index: number, more: object): Feature<Point> => ({
        type: "Feature",
        properties: { ...members, ...more },
        geometry: { type: "Point", coordinates: at(index) },
      });
      const lines = shortestTree(trees, parts).map(
        ([from, to]): Feature<LineString> => ({
          type: "Feature",
          properties: { ...members, shape: parts[from] === parts[to] ? "band" : "link" },
          geometry: { type: "LineString", coordinates: [at(from), at(to)] },
        }),
      );
      const detail = `${words.crew[zone.crew]} · ${zone.hours.toFixed(1)} ${words.card.hours}`;
      return [
        ...lines,
        ...trees.map((_, index) => point(index, { shape: "stop" })),
        point(middleOfLargest(trees, parts), { shape: "title", name: zone.name, detail, order: place }),
      ];
    }),
  };
}

/** Place of the zone's part whose outer ring holds a tree; null where none does. */
function partOf(zone: Zone, tree: Tree): number | null {
  const place = zone.area.coordinates.findIndex(([outer = []]) => isInside(outer, tree.lonDeg, tree.latDeg));
  return place === -1 ? null : place;
}

function isInside(ring: readonly Position[], x: number, y: number): boolean {
  let inside = false;
  for (let index = 0, before = ring.length - 1; index < ring.length; before = index++) {
    const [ax = 0, ay = 0] = ring[index]!;
    const [bx = 0, by = 0] = ring[before]!;
    if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
  }
  return inside;
}

/** Added between trees of different parts, in degrees: more than any town measures, so that each part hangs together first. */
const APART_DEG = 1000;

/** The pairs of a shortest spanning tree (Prim 1957) that joins the trees of each part before it joins parts. */
function shortestTree(trees: readonly Tree[], parts: readonly number[]): (readonly [from: number, to: number])[] {
  const shrink = Math.cos(((trees[0]?.latDeg ?? 0) * Math.PI) / 180);
  const length = (one: number, other: number) => {
    const a = trees[one]!;
    const b = trees[other]!;
    const apart = parts[one] === parts[other] ? 0 : APART_DEG;
    return apart + Math.hypot((a.lonDeg - b.lonDeg) * shrink, a.latDeg - b.latDeg);
  };
  const nearest = trees.map((_, index) => ({ from: 0, lengthDeg: length(0, index) }));
  const open = new Set(trees.keys());
  open.delete(0);
  const pairs: (readonly [number, number])[] = [];
  while (open.size > 0) {
    let to = -1;
    for (const index of open) if (to === -1 || nearest[index]!.lengthDeg < nearest[to]!.lengthDeg) to = index;
    pairs.push([nearest[to]!.from, to]);
    open.delete(to);
    for (const index of open) {
      const lengthDeg = length(to, index);
      if (lengthDeg < nearest[index]!.lengthDeg) nearest[index] = { from: to, lengthDeg };
    }
  }
  return pairs;
}

/** The tree nearest the middle of the part with most trees. */
function middleOfLargest(trees: readonly Tree[], parts: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const part of parts) counts.set(part, (counts.get(part) ?? 0) + 1);
  let largest = parts[0]!;
  for (const [part, count] of counts) if (count > counts.get(largest)!) largest = part;
  const members = [...trees.keys()].filter((index) => parts[index] === largest);
  const lonDeg = members.reduce((sum, index) => sum + trees[index]!.lonDeg, 0) / members.length;
  const latDeg = members.reduce((sum, index) => sum + trees[index]!.latDeg, 0) / members.length;
  const off = (index: number) => Math.hypot(trees[index]!.lonDeg - lonDeg, trees[index]!.latDeg - latDeg);
  return members.reduce((best, index) => (off(index) < off(best) ? index : best));
}
