import type { Geometry, Position } from "geojson";
import { radiusTowardM } from "../../crown/crown.ts";
import type { Plan } from "../../model/plan.ts";
import type { SurroundingFeature } from "../../model/surroundings.ts";
import type { Tree } from "../../model/trees.ts";
import type { Zone } from "../../model/zone.ts";
import { planeOf, toPlane } from "../../plane/plane.ts";
import { clipLine, clipRing, type Frame, type XY } from "../clip.ts";
import type { ZoneStop } from "../zone-stops.ts";

/** Points as whole decimeters, x and y in turn: x east and y south of the map's origin. */
export type FlatDm = readonly number[];

export interface MapWay {
  readonly name: string | null;
  /** Width in meters; null for areas and for ways whose width is not known. */
  readonly widthM: number | null;
  readonly lines: readonly FlatDm[];
  readonly areas: readonly FlatDm[];
}

/** A zone and what stands around it as numbers, for a page that has no map server to ask. */
export interface PhoneMap {
  /** The metric plane (`planeOf`) and the origin's easting and northing in it, meters. */
  readonly plane: number;
  readonly originXM: number;
  readonly originYM: number;
  /** What a first look shows, meters from the origin: left, top, right, bottom. */
  readonly viewM: readonly [number, number, number, number];
  readonly roads: readonly MapWay[];
  readonly paths: readonly MapWay[];
  readonly buildings: readonly FlatDm[];
  readonly conductors: readonly FlatDm[];
  /** The zone's outline. */
  readonly zone: readonly FlatDm[];
  /** Trunk and crown of each stop, in order of work. */
  readonly trees: readonly { readonly at: readonly [number, number]; readonly crown: FlatDm }[];
}

/** How much of the surroundings around the zone is kept, meters. */
export const SURROUNDINGS_M = 120;
const VIEW_MARGIN_M = 12;
/** Corners of a crown's outline. */
const CROWN_POINTS = 36;

/** The map of a zone: its trees with their crowns and the surroundings within 120 m. Other zones' trees are not in it. */
export function phoneMap(plan: Plan, zone: Zone, stops: readonly ZoneStop[]): PhoneMap {
  const corner = zone.area.coordinates[0]?.[0]?.[0];
  const plane = planeOf(stops[0]?.tree.lonDeg ?? corner?.[0] ?? 0);
  const inPlane = ([lonDeg, latDeg]: Position): XY => toPlane(plane, lonDeg!, latDeg!);
  const trunks = stops.map(({ tree }) => inPlane([tree.lonDeg, tree.latDeg]));
  const outline = zone.area.coordinates.flat().map((ring) => ring.map(inPlane));
  const [west, south, east, north] = boundsOf([...trunks, ...outline.flat()]);
  const originXM = Math.round((west + east) / 2);
  const originYM = Math.round((south + north) / 2);
  const fromOrigin = ([x, y]: XY): XY => [x - originXM, originYM - y];
  const local = (position: Position): XY => fromOrigin(inPlane(position));
  const grown = (marginM: number): Frame => ({
    left: west - originXM - marginM,
    right: east - originXM + marginM,
    top: originYM - north - marginM,
    bottom: originYM - south + marginM,
  });
  const frame = grown(SURROUNDINGS_M);
  const view = grown(VIEW_MARGIN_M);
  const on = (layer: SurroundingFeature["layer"]) => plan.surroundings.filter((feature) => feature.layer === layer);
  const lines = (geometry: Geometry): FlatDm[] =>
    lineParts(geometry).flatMap((part) => clipLine(part.map(local), frame).map(flat));
  const areas = (geometry: Geometry): FlatDm[] =>
    outerRings(geometry).flatMap((ring) => {
      const kept = clipRing(ring.map(local), frame);
      return kept.length < 3 ? [] : [flat(kept)];
    });
  const way = ({ name, width, geometry }: SurroundingFeature): MapWay[] => {
    const kept = { lines: lines(geometry), areas: areas(geometry) };
    if (kept.lines.length + kept.areas.length === 0) return [];
    return [{ name, widthM: width === null ? null : Math.round(width.typicalM * 10) / 10, ...kept }];
  };
  return {
    plane,
    originXM,
    originYM,
    viewM: [view.left, view.top, view.right, view.bottom].map(Math.round) as unknown as PhoneMap["viewM"],
    roads: on("roads").flatMap(way),
    paths: on("paths").flatMap(way),
    buildings: on("buildings").flatMap(({ geometry }) => areas(geometry)),
    conductors: on("conductors").flatMap(({ geometry }) => lines(geometry)),
    zone: outline.map((ring) => flat(ring.map(fromOrigin))),
    trees: stops.map(({ tree }, at) => {
      const trunk = fromOrigin(trunks[at]!);
      const [xDm, yDm] = flat([trunk]);
      return { at: [xDm!, yDm!], crown: crownDm(tree, trunk) };
    }),
  };
}

function boundsOf(points: readonly XY[]): [number, number, number, number] {
  if (points.length === 0) return [0, 0, 0, 0];
  const bounds: [number, number, number, number] = [...points[0]!, ...points[0]!];
  for (const [x, y] of points) {
    bounds[0] = Math.min(bounds[0], x);
    bounds[1] = Math.min(bounds[1], y);
    bounds[2] = Math.max(bounds[2], x);
    bounds[3] = Math.max(bounds[3], y);
  }
  return bounds;
}

function crownDm(tree: Tree, [x, y]: XY): FlatDm {
  const middle: XY = [x + (tree.crownEastM ?? 0), y - (tree.crownNorthM ?? 0)];
  return flat(
    Array.from({ length: CROWN_POINTS }, (_, step): XY => {
      const bearing = (step * 360) / CROWN_POINTS;
      const radiusM = radiusTowardM(tree.radii, bearing);
      const angle = (bearing * Math.PI) / 180;
      return [middle[0] + radiusM * Math.sin(angle), middle[1] - radiusM * Math.cos(angle)];
    }),
  );
}

const flat = (points: readonly XY[]): number[] =>
  points.flatMap(([x, y]) => [Math.round(x * 10) + 0, Math.round(y * 10) + 0]);

const lineParts = (geometry: Geometry): readonly (readonly Position[])[] =>
  geometry.type === "LineString"
    ? [geometry.coordinates]
    : geometry.type === "MultiLineString"
      ? geometry.coordinates
      : [];

function outerRings(geometry: Geometry): Position[][] {
  const polygons =
    geometry.type === "Polygon" ? [geometry.coordinates] : geometry.type === "MultiPolygon" ? geometry.coordinates : [];
  return polygons.flatMap((rings) => (rings[0] === undefined ? [] : [rings[0]]));
}
