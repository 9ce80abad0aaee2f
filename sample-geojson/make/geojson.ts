import type { Line, Point } from "./line.ts";

export type Properties = Readonly<Record<string, string | number | boolean | null>>;

export type Shape =
  | { readonly type: "Point"; readonly point: Point }
  | { readonly type: "LineString"; readonly points: Line }
  | { readonly type: "Polygon"; readonly ring: Line };

export interface Feature {
  readonly geometry: Shape;
  readonly properties: Properties;
}

export interface Collection {
  readonly features: readonly Feature[];
}

export const collection = (features: readonly Feature[]): Collection => ({ features });

/** The middle of the town, in open ocean where no town can be. */
const ORIGIN_LON_DEG = -139.5;
const ORIGIN_LAT_DEG = 44.25;
/** The town's x axis points this far north of east. */
const TURN_RAD = (11 * Math.PI) / 180;
// Meters in one degree at 44.25 degrees north from the WGS 84 radii of curvature: N cos(lat) and M, times pi / 180.
const METERS_PER_DEGREE_LON = 79_868.6;
const METERS_PER_DEGREE_LAT = 111_117.1;

/** Longitude and latitude of a point of the town, to 7 decimals (about 1 cm). Good to 0.1 per mille over the town. */
export function lonLat([x, y]: Point): readonly [number, number] {
  const east = x * Math.cos(TURN_RAD) - y * Math.sin(TURN_RAD);
  const north = x * Math.sin(TURN_RAD) + y * Math.cos(TURN_RAD);
  return [
    Number((ORIGIN_LON_DEG + east / METERS_PER_DEGREE_LON).toFixed(7)),
    Number((ORIGIN_LAT_DEG + north / METERS_PER_DEGREE_LAT).toFixed(7)),
  ];
}

/** Bearing in whole degrees clockwise from north of a direction of the town. */
export function bearingOf([x, y]: Point): number {
  const mathDeg = ((Math.atan2(y, x) + TURN_RAD) * 180) / Math.PI;
  return (((Math.round(90 - mathDeg) % 360) + 360) % 360) % 360;
}

/** A FeatureCollection as text, one feature a line. */
export function geojsonText({ features }: Collection): string {
  const lines = features.map(({ geometry, properties }) =>
    JSON.stringify({
      type: "Feature",
      properties,
      geometry: { type: geometry.type, coordinates: coordinatesOf(geometry) },
    }),
  );
  return `{"type":"FeatureCollection","features":[\n${lines.join(",\n")}\n]}\n`;
}

function coordinatesOf(shape: Shape): unknown {
  switch (shape.type) {
    case "Point":
      return lonLat(shape.point);
    case "LineString":
      return shape.points.map(lonLat);
    case "Polygon": {
      const ring = isCounterclockwise(shape.ring) ? shape.ring : [...shape.ring].reverse();
      return [[...ring, ring[0]!].map(lonLat)];
    }
  }
}

function isCounterclockwise(ring: Line): boolean {
  let doubleArea = 0;
  for (let at = 0, last = ring.length - 1; at < ring.length; last = at, at += 1) {
    doubleArea += ring[last]![0] * ring[at]![1] - ring[at]![0] * ring[last]![1];
  }
  return doubleArea > 0;
}
