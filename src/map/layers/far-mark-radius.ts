import type { ExpressionSpecification } from "maplibre-gl";

/** Radius of a far-out mark by zoom; `radius` gives it as a share of the token's. */
export const farMarkRadius = (radius: (share: number) => ExpressionSpecification): ExpressionSpecification => [
  "interpolate",
  ["linear"],
  ["zoom"],
  11,
  radius(0.4),
  13,
  radius(0.55),
  14,
  radius(0.75),
  15,
  radius(1.1),
  16,
  radius(1.6),
];
