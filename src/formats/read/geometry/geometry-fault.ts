import type { Geometry } from "geojson";
import { type FeatureFault, featureFault } from "../../geojson/feature-fault.ts";

/** The geometry of a row with the number of its positions, or why the row has none. */
export type ReadGeometry =
  | { readonly geometry: Geometry; readonly vertices: number; readonly hadMeasures?: boolean }
  | { readonly fault: FeatureFault };

/** Thrown inside the geometry readers; `readGeometrySafely` turns it into the row's fault. */
export class GeometryError extends Error {
  override readonly name = "GeometryError";
}

/** A row without any geometry. */
export const noGeometry = (value: unknown = null): ReadGeometry => ({
  fault: featureFault(
    "no-geometry",
    "geometry",
    value,
    "The row has no geometry.",
    "Give it a place, or leave it out of the file.",
  ),
});

/** What a reader answers, or the fault of a geometry that cannot be read: out of its bytes, or of a kind GeoJSON has no place for. */
export function readGeometrySafely(read: () => ReadGeometry, value: unknown = null): ReadGeometry {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof GeometryError || error instanceof RangeError)) throw error;
    const reason = error instanceof GeometryError ? error.message : "The geometry is damaged or cut short.";
    return {
      fault: featureFault(
        "bad-geometry",
        "geometry",
        value,
        reason,
        "Export the feature anew as a plain point, line or polygon.",
      ),
    };
  }
}
