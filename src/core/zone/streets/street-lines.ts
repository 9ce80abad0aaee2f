import Flatbush from "flatbush";
import type { Position } from "geojson";
import type { SurroundingFeature } from "../../model/surroundings.ts";

/** One line of a road that people walk along. */
export interface StreetLine {
  /** Its name, else its id: lines of one street share it. */
  readonly street: string;
  readonly points: readonly Position[];
}

/** The center lines of a plan's roads with an index of their boxes in degrees; without an index where there is none. */
export interface StreetLines {
  readonly lines: readonly StreetLine[];
  readonly index: Flatbush | null;
}

/** The center lines among the surroundings of a plan. Roads given as areas alone make none: nobody knows how they join. */
export function streetLines(surroundings: readonly SurroundingFeature[]): StreetLines {
  const lines = surroundings.flatMap(({ layer, geometry, name, id }): StreetLine[] => {
    if (layer !== "roads") return [];
    const parts =
      geometry.type === "LineString"
        ? [geometry.coordinates]
        : geometry.type === "MultiLineString"
          ? geometry.coordinates
          : [];
    return parts.filter((points) => points.length > 1).map((points) => ({ street: name ?? id, points }));
  });
  if (lines.length === 0) return { lines, index: null };
  const index = new Flatbush(lines.length);
  for (const { points } of lines) {
    let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const [lonDeg, latDeg] of points) {
      west = Math.min(west, lonDeg!);
      east = Math.max(east, lonDeg!);
      south = Math.min(south, latDeg!);
      north = Math.max(north, latDeg!);
    }
    index.add(west, south, east, north);
  }
  index.finish();
  return { lines, index };
}
