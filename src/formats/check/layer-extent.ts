import type { Geometry } from "geojson";
import type { SourceFeature } from "../../core/model/feature.ts";
import { type Extent, emptyExtent, widen } from "../geojson/extent.ts";

/** Smallest and largest longitude and latitude of the features; an empty extent (`minX` Infinity) for none. */
export function layerExtent(features: readonly SourceFeature[]): Extent {
  const extent = emptyExtent();
  for (const { geometry } of features) widenByGeometry(extent, geometry);
  return extent;
}

/** Widens an extent by every position of a geometry, in place. */
export function widenByGeometry(extent: Extent, geometry: Geometry): void {
  if (geometry.type === "GeometryCollection") return;
  widenByCoordinates(extent, geometry.coordinates);
}

function widenByCoordinates(extent: Extent, coordinates: readonly unknown[]): void {
  if (typeof coordinates[0] === "number") widen(extent, coordinates[0], coordinates[1] as number);
  else for (const part of coordinates) widenByCoordinates(extent, part as readonly unknown[]);
}

/** Longitude and latitude of a geometry's first position; null for a GeometryCollection, which no layer uses. */
export function firstPosition(geometry: Geometry): readonly [number, number] | null {
  if (geometry.type === "GeometryCollection") return null;
  let part: unknown = geometry.coordinates;
  while (Array.isArray(part) && Array.isArray(part[0])) part = part[0];
  const [lonDeg, latDeg] = part as [number, number];
  return [lonDeg, latDeg];
}

/** Kilometers in one degree of latitude, 40,008 km (meridional circumference, WGS 84) over 360; for distances that need one figure. */
const KM_PER_DEGREE = 111.13;

/** Kilometers between two extents, 0 where they overlap; the shorter way round the earth. NaN when one is empty. On a sphere, for sentences and coarse thresholds only. */
export function gapKm(one: Extent, other: Extent): number {
  const yDeg = Math.max(0, one.minY - other.maxY, other.minY - one.maxY);
  const apartDeg = Math.max(0, one.minX - other.maxX, other.minX - one.maxX);
  const xDeg = Math.min(apartDeg, Math.max(0, 360 - (Math.max(one.maxX, other.maxX) - Math.min(one.minX, other.minX))));
  const latDeg = (Math.max(one.minY, other.minY) + Math.min(one.maxY, other.maxY)) / 2;
  return Math.hypot(yDeg, xDeg * Math.cos((latDeg * Math.PI) / 180)) * KM_PER_DEGREE;
}

/** The extent with longitude and latitude exchanged. */
export const swapped = ({ minX, maxX, minY, maxY }: Extent): Extent => ({
  minX: minY,
  maxX: maxY,
  minY: minX,
  maxY: maxX,
});

export const isEmpty = ({ minX }: Extent): boolean => minX === Infinity;
