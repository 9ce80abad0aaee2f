import type { Geometry, Position } from "geojson";
import { GeometryError, noGeometry, type ReadGeometry } from "../geometry/geometry-fault.ts";

/** Kinds of the nested encodings (GeoParquet 1.1, "Native encodings") with the lists around a position. */
const KINDS: ReadonlyMap<string, readonly [Geometry["type"], number]> = new Map([
  ["point", ["Point", 0]],
  ["multipoint", ["MultiPoint", 1]],
  ["linestring", ["LineString", 1]],
  ["multilinestring", ["MultiLineString", 2]],
  ["polygon", ["Polygon", 2]],
  ["multipolygon", ["MultiPolygon", 3]],
]);

/** A geometry written as lists of `{x, y, z}`. Throws GeometryError where it is not nested as its kind asks. */
export function nestedGeometry(value: unknown, encoding: string): ReadGeometry {
  if (value === null || value === undefined) return noGeometry();
  const [type, levels] = KINDS.get(encoding)!;
  const count = { vertices: 0 };
  const coordinates = nested(value, levels, count);
  return { geometry: { type, coordinates } as Geometry, vertices: count.vertices };
}

function nested(value: unknown, levels: number, count: { vertices: number }): unknown {
  if (levels === 0) return position(value, count);
  if (!Array.isArray(value)) throw new GeometryError("The coordinates are not nested as the geometry's kind asks.");
  return value.map((part) => nested(part, levels - 1, count));
}

function position(value: unknown, count: { vertices: number }): Position {
  const { x, y, z } = (value ?? {}) as { x?: unknown; y?: unknown; z?: unknown };
  if (typeof x !== "number" || typeof y !== "number")
    throw new GeometryError("A position of the geometry is no pair of numbers.");
  count.vertices += 1;
  return typeof z === "number" && Number.isFinite(z) ? [x, y, z] : [x, y];
}
