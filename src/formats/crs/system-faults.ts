import { withThousands } from "../../core/units/with-thousands.ts";
import type { Extent } from "../geojson/extent.ts";
import { type FeatureFault, featureFault } from "../geojson/feature-fault.ts";
import type { CoordinateSystem } from "./system.ts";

/** What of a file was read in its coordinate system. */
export interface SystemTally {
  features: number;
  /** Positions converted; 0 where coordinates are longitude and latitude already. */
  positions: number;
  /** Features outside the area the system is made for. */
  outside: number;
}

/** Degrees around a system's area of use within which nothing is said: such areas are drawn roughly. Our policy. */
const AREA_MARGIN_DEG = 0.5;
/** A shift no better than this is a warning: a crown's edge moves by more than a lane's shoulder. Our policy. */
const COARSE_SHIFT_M = 2;

/** Whether any part of an extent in degrees lies outside a system's area of use by half a degree; false where that area is not known. */
export function isOutsideArea(extent: Extent, { area }: CoordinateSystem): boolean {
  if (area === null) return false;
  const [west, south, east, north] = area;
  if (extent.minY < south - AREA_MARGIN_DEG || extent.maxY > north + AREA_MARGIN_DEG) return true;
  const isIn = (lonDeg: number): boolean =>
    west <= east
      ? lonDeg >= west - AREA_MARGIN_DEG && lonDeg <= east + AREA_MARGIN_DEG
      : lonDeg >= west - AREA_MARGIN_DEG || lonDeg <= east + AREA_MARGIN_DEG;
  return !isIn(extent.minX) || !isIn(extent.maxX);
}

/**
 * What a reader should know of how a file's coordinates became longitude and latitude on WGS 84; nothing for those that were so.
 *
 * "1 to 2 m": NAD83(2011) and WGS 84 (G1762) differ by up to that in the conterminous United States (J. Van Sickle, GPS for Land Surveyors,
 * as Penn State's course GEOG 862 gives it); PROJ's own shifts of 680 other such systems are 0.1 to 1.4 m.
 */
export function systemFaults(system: CoordinateSystem, tally: SystemTally): FeatureFault[] {
  const faults: FeatureFault[] = [];
  const label = labelOf(system);
  const say = (code: string, severity: "info" | "warning", reason: string, whatToDo: string): void => {
    faults.push({ ...featureFault(code, "crs", system.name, reason, whatToDo), severity });
  };
  if (system.toLonLat !== null) {
    const count = `${withThousands(tally.positions)} ${tally.positions === 1 ? "position" : "positions"} of ${withThousands(tally.features)} ${tally.features === 1 ? "feature" : "features"}`;
    say(
      "reprojected",
      "info",
      `${count} were converted from ${label} to longitude and latitude on WGS 84 and are written back so, without crs and bbox.`,
      "Nothing.",
    );
  }
  const { datum } = system;
  if (datum.kind === "same") {
    say(
      "datum-not-shifted",
      "info",
      `${datum.name} is taken for WGS 84, from which it lies up to 1 to 2 m off.`,
      "Nothing, as long as all layers are in the same datum; else shift them with the agency's own tool first.",
    );
  } else if (datum.kind === "shifted") {
    const isCoarse = datum.errorM === null || datum.errorM > COARSE_SHIFT_M;
    const size = datum.errorM === null ? "by an amount that is not published" : `by up to ${datum.errorM} m`;
    say(
      "datum-shifted",
      isCoarse ? "warning" : "info",
      `${datum.name} was shifted to WGS 84 by ${datum.source ?? "published parameters"} without a grid file; positions may be off ${size}.`,
      "Nothing, as long as all layers are in the same datum; else convert them to longitude and latitude with the national grid file.",
    );
  } else if (datum.kind === "unknown") {
    say(
      "datum-shift-unknown",
      "warning",
      `No shift from ${datum.name} to WGS 84 is known here; positions may be off by hundreds of meters.`,
      "Convert the file to longitude and latitude on WGS 84 with the agency's own tool.",
    );
  }
  if (tally.outside > 0) {
    say(
      "outside-area-of-use",
      "warning",
      `${withThousands(tally.outside)} of ${withThousands(tally.features)} features lie outside the area that ${label} is made for.`,
      "Check the code: another zone, or feet instead of meters, is the usual cause.",
    );
  }
  return faults;
}

const labelOf = ({ name, title }: CoordinateSystem): string =>
  title === name ? name.slice(0, 80) : `${title.slice(0, 80)} (${name})`;
