import type { Geometry } from "geojson";
import { isGeometryObject } from "geojson-validation";
import type { Layer } from "../../core/model/terms.ts";
import { isObject, ownMember } from "../json/own-member.ts";
import { checkShape } from "./check-shape.ts";
import { type Extent, emptyExtent, widen } from "./extent.ts";
import { type FeatureFault, featureFault } from "./feature-fault.ts";

/** A geometry that is well formed for its layer; whether it lies on the globe is for `checkRange`. */
export interface CheckedGeometry {
  readonly geometry: Geometry;
  readonly extent: Extent;
  /** Warnings about a shape that can be used. */
  readonly doubts: readonly FeatureFault[];
}

/** Array levels above a position, and what the innermost list of positions must be. */
const SHAPES: ReadonlyMap<string, { readonly levels: number; readonly list: "any" | "line" | "ring" }> = new Map([
  ["Point", { levels: 0, list: "any" }],
  ["MultiPoint", { levels: 1, list: "any" }],
  ["LineString", { levels: 1, list: "line" }],
  ["MultiLineString", { levels: 2, list: "line" }],
  ["Polygon", { levels: 2, list: "ring" }],
  ["MultiPolygon", { levels: 3, list: "ring" }],
]);

const POINTS = ["Point", "MultiPoint"];
const LINES = ["LineString", "MultiLineString"];
const AREAS = ["Polygon", "MultiPolygon"];

/** Geometry types a layer can use. */
const LAYER_TYPES: Readonly<Record<Layer, readonly string[]>> = {
  trees: POINTS,
  buildings: AREAS,
  roads: [...LINES, ...AREAS],
  paths: [...LINES, ...AREAS],
  signs: POINTS,
  signals: POINTS,
  // Points among the conductors are poles.
  conductors: [...LINES, ...POINTS],
};

/**
 * The geometry of a feature, checked by RFC 7946 section 3.1 and for its layer, or the fault that sets the feature aside. A MultiPoint
 * of one point becomes that point. Winding of rings is never a reason (section 3.1.6).
 */
export function checkGeometry(value: unknown, layer: Layer): CheckedGeometry | FeatureFault {
  if (value === null || value === undefined) {
    return featureFault(
      "no-geometry",
      "geometry",
      null,
      "The feature has no geometry.",
      "Give it a place, or leave it out of the file.",
    );
  }
  const type = ownMember(value, "type");
  const shape = typeof type === "string" ? SHAPES.get(type) : undefined;
  if (type !== "GeometryCollection" && shape === undefined) {
    return featureFault(
      "invalid-geometry",
      "geometry.type",
      type ?? value,
      "The geometry has no GeoJSON type.",
      `Write the geometry as ${LAYER_TYPES[layer].join(" or ")}.`,
    );
  }
  if (shape === undefined || !LAYER_TYPES[layer].includes(type as string)) return wrongType(type as string, layer);

  const coordinates = ownMember(value, "coordinates");
  const extent = emptyExtent();
  const fault = checkCoordinates(coordinates, shape.levels, shape.list, extent) ?? checkAgain({ type, coordinates });
  if (fault !== null) return fault;
  if (type !== "MultiPoint") {
    const geometry = value as Geometry;
    const { fault: shapeFault, doubts } = checkShape(geometry);
    return shapeFault ?? { geometry, extent, doubts };
  }
  const points = coordinates as number[][];
  if (points.length > 1) {
    return featureFault(
      "several-points",
      "geometry",
      `MultiPoint of ${points.length}`,
      `One feature stands for ${points.length} points.`,
      "Write one Point feature for each.",
    );
  }
  return { geometry: { type: "Point", coordinates: points[0]! }, extent, doubts: [] };
}

function wrongType(type: string, layer: Layer): FeatureFault {
  return featureFault(
    "wrong-geometry-type",
    "geometry.type",
    type,
    `The layer ${layer} cannot use a ${type}.`,
    `Give ${LAYER_TYPES[layer].join(" or ")} features, or give the file to the layer it belongs to.`,
  );
}

function checkCoordinates(
  value: unknown,
  levels: number,
  list: "any" | "line" | "ring",
  extent: Extent,
): FeatureFault | null {
  if (levels === 0) return checkPosition(value, extent);
  if (!Array.isArray(value)) {
    return badCoordinates(value, "The coordinates are not nested as the geometry's type asks.");
  }
  if (value.length === 0) {
    return featureFault(
      "empty-geometry",
      "geometry.coordinates",
      null,
      "The geometry, or a part of it, has no positions.",
      "Draw the feature again, or leave the empty part out.",
    );
  }
  for (const part of value) {
    const fault = checkCoordinates(part, levels - 1, list, extent);
    if (fault !== null) return fault;
  }
  if (levels > 1 || list === "any") return null;
  return list === "line" ? checkLine(value) : checkRing(value);
}

function checkPosition(value: unknown, extent: Extent): FeatureFault | null {
  if (!Array.isArray(value)) return badCoordinates(value, "A position is not an array of numbers.");
  if (value.length === 0) {
    return featureFault(
      "empty-geometry",
      "geometry.coordinates",
      null,
      "A position is empty.",
      "Give the feature its position, or leave it out of the file.",
    );
  }
  if (value.length < 2) return badCoordinates(value[0], "A position has fewer than two numbers.");
  for (const number of value) {
    if (typeof number !== "number") return badCoordinates(number, "A position holds something that is not a number.");
    if (!Number.isFinite(number)) return badCoordinates(number, "A position holds a number too large to be one.");
  }
  widen(extent, value[0], value[1]);
  return null;
}

const checkLine = (line: readonly unknown[]): FeatureFault | null =>
  line.length >= 2 ? null : badCoordinates(line, "A line has only one position.");

function checkRing(ring: readonly unknown[]): FeatureFault | null {
  const first = ring[0] as readonly number[];
  const last = ring.at(-1) as readonly number[];
  if (first.length !== last.length || first.some((number, index) => number !== last[index])) {
    return featureFault(
      "open-ring",
      "geometry.coordinates",
      `${first.join(" ")} / ${last.join(" ")}`.slice(0, 256),
      "A polygon's ring is not closed: its last position is not its first.",
      "End the ring with its first position (RFC 7946 section 3.1.6).",
    );
  }
  return ring.length >= 4 ? null : badCoordinates(ring, "A polygon's ring has fewer than four positions.");
}

const badCoordinates = (value: unknown, reason: string): FeatureFault =>
  featureFault("bad-coordinates", "geometry.coordinates", value, reason, "Draw the feature again and export it anew.");

/** A second opinion from geojson-validation, on geometries our own checks passed: type, nesting and finiteness are sure by then. */
function checkAgain(geometry: unknown): FeatureFault | null {
  let verdict: unknown;
  try {
    verdict = isObject(geometry) && isGeometryObject(geometry);
  } catch {
    verdict = false;
  }
  if (verdict === true) return null;
  return featureFault(
    "invalid-geometry",
    "geometry",
    null,
    "The geometry breaks the GeoJSON standard.",
    "Export the feature anew from the program that wrote it.",
  );
}
