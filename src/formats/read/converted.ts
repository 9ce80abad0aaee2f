import type { FeatureFault } from "../geojson/feature-fault.ts";
import type { ReadingTime } from "../geojson/reading-time.ts";
import type { Limits } from "./limits.ts";

/** Formats that are told apart by content first, then by name. */
export type SourceFormat = "GeoJSON" | "CSV" | "Shapefile" | "GeoPackage" | "FlatGeobuf" | "GeoParquet";

/** A file of any format as GeoJSON, with what was done to get there. */
export interface Converted {
  readonly format: SourceFormat;
  /** GeoJSON in UTF-8: the given bytes themselves where nothing had to be done. Its `crs` member names the source's system. */
  readonly bytes: Uint8Array;
  /** About the file. */
  readonly findings: readonly FeatureFault[];
  /** Why a row has no geometry, by the position of its feature; such a feature keeps all values of the row. */
  readonly rowFaults: ReadonlyMap<number, FeatureFault>;
  /** What to do where longitude and latitude are exchanged; absent where the format's own rule says it. */
  readonly axesAdvice?: string;
}

/** How a file is to be read. */
export interface ReadOptions {
  /** The table of a GeoPackage, or the shapefile of a zip with several; null asks when there is a choice. */
  readonly table?: string | null;
  /** The layer the file is for: a table of that name is taken without asking. */
  readonly layer?: string | null;
  /** Other limits than the usual ones. */
  readonly limits?: Partial<Limits>;
  /** How long reading may take; no limit when left out. */
  readonly time?: ReadingTime;
}

/** What every reader is given. */
export interface ReaderInput {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly options: ReadOptions;
  readonly limits: Limits;
  readonly time: ReadingTime;
}

/** Worth knowing about the file; nothing needs doing. */
export const note = (
  code: string,
  reason: string,
  whatToDo = "Nothing, if that is right.",
  value: string | null = null,
): FeatureFault => ({
  code,
  severity: "info",
  field: null,
  value,
  reason,
  whatToDo,
});

/** A doubt about the file, which is read all the same. */
export const doubt = (code: string, reason: string, whatToDo: string, value: string | null = null): FeatureFault => ({
  ...note(code, reason, whatToDo, value),
  severity: "warning",
});

/** Said once for a file whose geometries had a measure (M) beside their place. */
export const measuresDropped = (): FeatureFault =>
  note("measures-dropped", "Measures (M) of the geometries were left out; GeoJSON has no place for them.");
