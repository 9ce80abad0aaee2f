import type { Geometry, Position } from "geojson";
import { hasZ } from "./geometry-box.ts";

/** A geometry as well-known text (OGC 06-103r4 section 7) with every digit of its coordinates; heights as in `wkb`. */
export function wkt(geometry: Geometry): string {
  return geometryText(geometry, hasZ(geometry));
}

function geometryText(geometry: Geometry, isWithZ: boolean): string {
  const tag = `${geometry.type.toUpperCase()}${isWithZ ? " Z" : ""}`;
  const position = (one: Position): string => one.slice(0, isWithZ ? 3 : 2).join(" ");
  const list = <T>(items: readonly T[], textOf: (item: T) => string): string =>
    items.length === 0 ? "EMPTY" : `(${items.map(textOf).join(",")})`;
  const line = (positions: readonly Position[]): string => list(positions, position);
  const area = (rings: readonly (readonly Position[])[]): string => list(rings, line);
  switch (geometry.type) {
    case "Point":
      return `${tag} (${position(geometry.coordinates)})`;
    case "LineString":
      return `${tag} ${line(geometry.coordinates)}`;
    case "Polygon":
      return `${tag} ${area(geometry.coordinates)}`;
    case "MultiPoint":
      return `${tag} ${list(geometry.coordinates, (one) => `(${position(one)})`)}`;
    case "MultiLineString":
      return `${tag} ${area(geometry.coordinates)}`;
    case "MultiPolygon":
      return `${tag} ${list(geometry.coordinates, area)}`;
    case "GeometryCollection":
      return `${tag} ${list(geometry.geometries, (one) => geometryText(one, isWithZ))}`;
  }
}
