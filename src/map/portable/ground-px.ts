import type { ExpressionSpecification } from "maplibre-gl";
import { METERS_PER_PX_AT_ZOOM_0 } from "../features/ground-scale.ts";

/** Meters of meridian in a degree of latitude, the mean of the ellipsoid's from equator to pole. */
const METERS_PER_DEG = 111_132.95;

/** Five points, since a segment of more than half the globe would be taken the other way round. */
const EQUATOR = { type: "LineString", coordinates: [-180, -90, 0, 90, 180].map((lonDeg) => [lonDeg, 0]) };

/**
 * Cosine of a feature's latitude, from its distance to the equator, since style expressions have no latitude of their own. Good to one
 * percent up to 65 degrees.
 */
const COS_LATITUDE: ExpressionSpecification = [
  "cos",
  ["*", Math.PI / 180 / METERS_PER_DEG, ["distance", EQUATOR]],
] as unknown as ExpressionSpecification;

/** A length of the feature's, in meters, as CSS pixels at every zoom; doubling a zoom makes the interpolation exact between its stops. */
export function groundPx(lengthM: ExpressionSpecification): ExpressionSpecification {
  const atZoom = (zoom: number): ExpressionSpecification => [
    "*",
    lengthM,
    ["/", 2 ** zoom / METERS_PER_PX_AT_ZOOM_0, COS_LATITUDE],
  ];
  return ["interpolate", ["exponential", 2], ["zoom"], 8, atZoom(8), 24, atZoom(24)];
}
