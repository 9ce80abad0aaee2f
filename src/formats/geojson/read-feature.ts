import type { Geometry } from "geojson";
import type { SourceFeature } from "../../core/model/feature.ts";
import type { Layer } from "../../core/model/terms.ts";
import { reproject } from "../crs/reproject.ts";
import type { CoordinateSystem } from "../crs/system.ts";
import { isOutsideArea, type SystemTally } from "../crs/system-faults.ts";
import { type Filter, matches } from "../filter.ts";
import { isObject, ownMember } from "../json/own-member.ts";
import { bboxDoubt } from "./check-bbox.ts";
import { type CheckedGeometry, checkGeometry } from "./check-geometry.ts";
import { checkProjected, checkRange } from "./check-range.ts";
import { exactId, exactProperties } from "./exact-numbers.ts";
import { emptyExtent } from "./extent.ts";
import { type FeatureFault, featureFault } from "./feature-fault.ts";
import type { FeatureRanges } from "./geojson-read.ts";

/** What is the same for all features of a file. */
export interface FeatureContext {
  readonly layer: Layer;
  readonly filter: Filter | null;
  readonly system: CoordinateSystem;
  readonly bytes: Uint8Array;
  readonly ranges: FeatureRanges;
  /** What was converted, counted as features are read. */
  readonly tally: SystemTally;
}

/** What a feature says, apart from its place in file and layer. */
export type FeatureContent = Pick<SourceFeature, "id" | "properties" | "geometry">;

/** A feature's content with doubts about it, or the fault that sets it aside. `id` is known in both cases, where it can be. */
export type FeatureOutcome =
  | { readonly content: FeatureContent; readonly doubts: readonly FeatureFault[] }
  | { readonly fault: FeatureFault; readonly id: string | number | null };

/** Deepest nesting of a feature, itself being 1: the limit of GEOS and protobuf (their documents). */
export const MAX_DEPTH = 100;

/** Reads one parsed feature, the `index`th of its file: shape, filter, geometry, coordinates, in this order. */
export function readFeature(value: unknown, index: number, context: FeatureContext): FeatureOutcome {
  const { bytes, ranges, layer, filter } = context;
  if (!isObject(value) || ownMember(value, "type") !== "Feature") return { fault: notAFeature(value), id: null };
  const rawId = ownMember(value, "id");
  const id = exactId(rawId, bytes, ranges.idStart[index]!, ranges.idEnd[index]!);
  const depth = ranges.depth[index]!;
  if (depth > MAX_DEPTH) {
    const reason = `The feature is nested ${depth} deep; at most ${MAX_DEPTH} is read.`;
    return { fault: featureFault("too-deep", null, depth, reason, "Flatten its properties."), id };
  }

  const rawProperties = ownMember(value, "properties") ?? {};
  if (!isObject(rawProperties)) {
    const reason = "The feature's properties are not an object.";
    return { fault: featureFault("bad-properties", "properties", rawProperties, reason, "Export the file anew."), id };
  }
  const properties = exactProperties(
    rawProperties,
    bytes,
    ranges.propertiesStart[index]!,
    ranges.propertiesEnd[index]!,
  );
  if (filter !== null && !matches(filter, properties)) return { fault: filteredOut(filter), id };

  const checked = checkGeometry(ownMember(value, "geometry"), layer);
  if ("code" in checked) return { fault: checked, id };
  const placed = toDegrees(checked, context.system, context.tally);
  if ("code" in placed) return { fault: placed, id };

  const doubts: FeatureFault[] = [...checked.doubts];
  const badBbox = bboxDoubt(value, "bbox") ?? bboxDoubt(ownMember(value, "geometry"), "geometry.bbox");
  if (badBbox !== null) doubts.push(badBbox);
  if (rawId !== undefined && rawId !== null && id === null) {
    doubts.push({
      ...featureFault(
        "bad-id",
        "id",
        rawId,
        "The feature's id is neither text nor a number.",
        "Give it a text or a number.",
      ),
      severity: "warning",
    });
  }
  if (placed.type === "Point" && placed.coordinates[0] === 0 && placed.coordinates[1] === 0) {
    doubts.push({
      ...featureFault(
        "zero-position",
        "geometry.coordinates",
        "0 0",
        "Longitude and latitude are both 0, which is usually a missing position.",
        "Give the feature its true position.",
      ),
      severity: "warning",
    });
  }
  return { content: { id, properties, geometry: placed }, doubts };
}

function toDegrees(
  { geometry, extent }: CheckedGeometry,
  system: CoordinateSystem,
  tally: SystemTally,
): Geometry | FeatureFault {
  if (system.toLonLat === null) {
    const wrong = checkRange(extent);
    if (wrong === null) tally.features += 1;
    return wrong ?? geometry;
  }
  const wrong = system.isGeographic ? checkRange(extent) : checkProjected(extent, system.name);
  if (wrong !== null) return wrong;
  const source = geometry as Exclude<Geometry, { type: "GeometryCollection" }>;
  const degrees = emptyExtent();
  const before = tally.positions;
  const coordinates = reproject(source.coordinates, system.toLonLat, degrees, tally);
  if (coordinates === null) {
    tally.positions = before;
    return featureFault(
      "not-reprojectable",
      "geometry.coordinates",
      `${extent.minX} ${extent.minY}`,
      `A position has no place in ${system.name.slice(0, 80)}.`,
      "Check the coordinate system of the file.",
    );
  }
  const kept = Object.entries(geometry).filter(([name]) => name !== "bbox" && name !== "coordinates");
  tally.features += 1;
  if (isOutsideArea(degrees, system)) tally.outside += 1;
  return checkRange(degrees) ?? ({ ...Object.fromEntries(kept), coordinates } as Geometry);
}

function notAFeature(value: unknown): FeatureFault {
  const type = ownMember(value, "type");
  return featureFault(
    "not-a-feature",
    "type",
    type ?? value,
    'The entry is not a GeoJSON Feature: it has no "type": "Feature".',
    "Export the file anew, with every entry of its features as a Feature.",
  );
}

const filteredOut = (filter: Filter): FeatureFault => ({
  code: "filtered-out",
  severity: "info",
  field: filter.clauses[0]?.field ?? null,
  value: null,
  reason: `The feature does not satisfy the filter "${filter.text.slice(0, 120)}".`,
  whatToDo: "Nothing, if the filter is meant so.",
});
