import type { Feature, FeatureCollection, LineString, MultiPolygon, Point, Position } from "geojson";
import type { Plan } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import type { Words } from "../words.ts";

/** Farthest that a corner is rounded back along its edges, degrees of latitude: about 4 m. */
const CORNER_DEG = 4 / 111_320;

/** Zones as soft-cornered areas. */
export function zoneAreas(plan: Plan): FeatureCollection<MultiPolygon> {
  return {
    type: "FeatureCollection",
    features: plan.zones.map((zone) => ({
      type: "Feature",
      properties: zoneMembers(zone),
      geometry: { type: "MultiPolygon", coordinates: zone.area.coordinates.map((rings) => rings.map(softRing)) },
    })),
  };
}

/** The zones' outlines, and a point at the northern corner of each part for the tab of a done one. */
export function zoneEdges(plan: Plan): FeatureCollection<LineString | Point> {
  return {
    type: "FeatureCollection",
    features: plan.zones.flatMap((zone): Feature<LineString | Point>[] => {
      const members = zoneMembers(zone);
      return zone.area.coordinates.flatMap((rings): Feature<LineString | Point>[] => {
        const ring = softRing(rings[0] ?? []);
        if (ring.length < 3) return [];
        const top = ring.reduce((best, position) => (position[1]! > best[1]! ? position : best));
        return [
          { type: "Feature", properties: members, geometry: { type: "LineString", coordinates: ring } },
          { type: "Feature", properties: members, geometry: { type: "Point", coordinates: top } },
        ];
      });
    }),
  };
}

/** What is written on the zones' outlines, each on the straightest stretch of its own. */
export function zoneNames(plan: Plan, words: Words): FeatureCollection<LineString> {
  return {
    type: "FeatureCollection",
    features: plan.zones.flatMap((zone): Feature<LineString>[] => {
      const ring = softRing(longestRing(zone));
      if (ring.length < 3) return [];
      const text = `${zone.name} · ${words.crew[zone.crew]} · ${zone.hours.toFixed(1)} ${words.card.hours}`;
      const geometry = { type: "LineString" as const, coordinates: straightestRun(ring) };
      return [{ type: "Feature", properties: { ...zoneMembers(zone), text }, geometry }];
    }),
  };
}

/** The walk through a zone's trees in order of work: one line, and a numbered point at each tree. */
export function threadFeatures(plan: Plan, zoneId: string | null): FeatureCollection<LineString | Point> {
  const zone = plan.zones.find((one) => one.zoneId === zoneId);
  if (zone === undefined) return { type: "FeatureCollection", features: [] };
  const treeOf = new Map(plan.trees.map((tree) => [tree.id, tree]));
  const trees = [...new Set(zone.treeIds)].flatMap((treeId) => treeOf.get(treeId) ?? []);
  const stops = trees.map((tree): Position => [tree.lonDeg, tree.latDeg]);
  const points = stops.map(
    (position, index): Feature<Point> => ({
      type: "Feature",
      properties: { zone: zone.zoneId, number: String(index + 1) },
      geometry: { type: "Point", coordinates: position },
    }),
  );
  if (stops.length < 2) return { type: "FeatureCollection", features: points };
  return {
    type: "FeatureCollection",
    features: [
      { type: "Feature", properties: { zone: zone.zoneId }, geometry: { type: "LineString", coordinates: stops } },
      ...points,
    ],
  };
}

/** The outer ring with the most corners: the longest stretch of work, where the name has room. */
function longestRing(zone: Zone): readonly Position[] {
  let longest: readonly Position[] = [];
  for (const [outer = []] of zone.area.coordinates) if (outer.length > longest.length) longest = outer;
  return longest;
}

/** What the layers need of a zone; flat, so that styles can read it. */
export const zoneMembers = (zone: Zone) => ({
  zone: zone.zoneId,
  name: zone.name,
  state: zone.state,
  urgency: zone.urgency,
  crew: zone.crew,
  due: zone.due,
  pattern: `boughline-zone-${zone.state}`,
});

/**
 * The ring with its corners rounded for the eye by quadratic curves that reach at most 4 m, and never past a third of an edge; rings of
 * many corners get fewer points a corner. Drawing only: what is in a zone is decided elsewhere.
 */
export function softRing(ring: readonly Position[]): Position[] {
  const corners = ring.slice(0, -1);
  if (corners.length < 3) return [...ring];
  const steps = corners.length > 60 ? 3 : 8;
  const soft: Position[] = [];
  for (let index = 0; index < corners.length; index += 1) {
    const corner = corners[index]!;
    const from = toward(corner, corners[(index + corners.length - 1) % corners.length]!);
    const to = toward(corner, corners[(index + 1) % corners.length]!);
    for (let step = 0; step <= steps; step += 1) {
      const t = step / steps;
      const a = (1 - t) ** 2;
      const b = 2 * t * (1 - t);
      const c = t ** 2;
      soft.push([a * from[0]! + b * corner[0]! + c * to[0]!, a * from[1]! + b * corner[1]! + c * to[1]!]);
    }
  }
  soft.push(soft[0]!);
  return soft;
}

function toward(corner: Position, other: Position): Position {
  const dx = other[0]! - corner[0]!;
  const dy = other[1]! - corner[1]!;
  const shrink = Math.cos((corner[1]! * Math.PI) / 180);
  const length = Math.hypot(dx * shrink, dy);
  const share = length === 0 ? 0 : Math.min(1 / 3, CORNER_DEG / length);
  return [corner[0]! + dx * share, corner[1]! + dy * share];
}

/** Most that a name's stretch of outline may turn in all, so that it can be read. */
const NAME_TURN_DEG = 40;

/** The longest stretch of a closed ring that turns by at most 40 degrees; of equal ones the first. */
export function straightestRun(ring: readonly Position[]): Position[] {
  const corners = ring.slice(0, -1);
  const count = corners.length;
  const shrink = Math.cos(((corners[0]?.[1] ?? 0) * Math.PI) / 180);
  const steps = corners.map((corner, index) => {
    const next = corners[(index + 1) % count]!;
    return [(next[0]! - corner[0]!) * shrink, next[1]! - corner[1]!] as const;
  });
  let best: { from: number; edges: number; length: number } = { from: 0, edges: 1, length: 0 };
  for (let from = 0; from < count; from += 1) {
    let turned = 0;
    let length = 0;
    for (let edges = 1; edges < count; edges += 1) {
      const step = steps[(from + edges - 1) % count]!;
      if (edges > 1) turned += turnBetweenDeg(steps[(from + edges - 2) % count]!, step);
      if (turned > NAME_TURN_DEG) break;
      length += Math.hypot(...step);
      if (length > best.length * 1.000001) best = { from, edges, length };
    }
  }
  return Array.from({ length: best.edges + 1 }, (_, index) => corners[(best.from + index) % count]!);
}

function turnBetweenDeg(before: readonly [number, number], after: readonly [number, number]): number {
  const cross = before[0] * after[1] - before[1] * after[0];
  const dot = before[0] * after[0] + before[1] * after[1];
  return (Math.abs(Math.atan2(cross, dot)) * 180) / Math.PI;
}
