import type { Extent } from "./extent.ts";
import { type FeatureFault, featureFault } from "./feature-fault.ts";

const MAX_LON = 180;
const MAX_LAT = 90;
/** No longitude is written past two turns; a larger number is a length. Our policy. */
const MAX_ANGLE = 360;

/** The fault of positions that cannot be longitude and latitude in degrees, or null when they can. */
export function checkRange(extent: Extent): FeatureFault | null {
  const largestX = farther(extent.minX, extent.maxX);
  const largestY = farther(extent.minY, extent.maxY);
  if (Math.abs(largestX) <= MAX_LON && Math.abs(largestY) <= MAX_LAT) return null;
  const value = `${largestX} ${largestY}`;
  if (Math.abs(largestX) > MAX_ANGLE || Math.abs(largestY) > MAX_ANGLE) {
    return featureFault(
      "projected-coordinates",
      "geometry.coordinates",
      value,
      "The coordinates are no degrees; they look like meters or feet.",
      "Give the file's coordinate system: --crs EPSG:n.",
    );
  }
  if (Math.abs(largestX) <= MAX_LAT && Math.abs(largestY) <= MAX_LON) {
    return featureFault(
      "swapped-axes",
      "geometry.coordinates",
      value,
      "The latitude is past 90 degrees; longitude and latitude look swapped.",
      "Write longitude first, then latitude (RFC 7946 section 3.1.1).",
    );
  }
  return featureFault(
    "out-of-range",
    "geometry.coordinates",
    value,
    "A position lies outside longitude -180 to 180 and latitude -90 to 90.",
    "Correct the position.",
  );
}

/** The fault of positions that look like degrees although the file is said to be in meters or feet, or null. */
export function checkProjected(extent: Extent, crs: string): FeatureFault | null {
  if (Math.abs(farther(extent.minX, extent.maxX)) > MAX_LON) return null;
  if (Math.abs(farther(extent.minY, extent.maxY)) > MAX_LAT) return null;
  return featureFault(
    "degrees-in-projected",
    "geometry.coordinates",
    `${extent.minX} ${extent.minY}`,
    `The coordinates look like degrees, but the file is read as ${crs.slice(0, 80)}.`,
    "Leave --crs away for this file, or take the wrong crs member out of it.",
  );
}

const farther = (low: number, high: number): number => (Math.abs(low) > Math.abs(high) ? low : high);
