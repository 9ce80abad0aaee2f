import type { SourceFeature } from "../../core/model/feature.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { SetAside } from "../../core/model/plan.ts";
import type { Layer } from "../../core/model/terms.ts";
import type { CoordinateSystem } from "../crs/system.ts";

/**
 * Where each feature of a file stands in its bytes: one entry a feature, set-aside ones included, in file order. Offsets in bytes; a
 * member that is absent has -1. Of a repeated member the last counts, as in `JSON.parse`.
 */
export interface FeatureRanges {
  readonly count: number;
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly propertiesStart: Float64Array;
  readonly propertiesEnd: Float64Array;
  readonly idStart: Float64Array;
  readonly idEnd: Float64Array;
  readonly geometryStart: Float64Array;
  readonly geometryEnd: Float64Array;
  /** Depth of nesting inside the feature, the feature itself being 1. */
  readonly depth: Float64Array;
}

/** How a file holds its features. `sequence` is newline-delimited GeoJSON or an RFC 8142 text sequence. */
export type GeoJsonForm = "feature-collection" | "feature" | "geometry" | "sequence";

/** What became of a file. `set-aside`: read, but some features could not be used. `unreadable`: nothing was read. */
export type Verdict = "clean" | "warnings" | "set-aside" | "unreadable";

/** A GeoJSON file read for one layer, with its bytes and the place of every feature in them. */
export interface GeoJsonRead {
  readonly layer: Layer;
  readonly file: string;
  /** The whole file; the ranges are offsets in it. */
  readonly bytes: Uint8Array;
  readonly form: GeoJsonForm;
  readonly verdict: Verdict;
  /** Why nothing could be read; null when the file was read. The same finding is in `findings`. */
  readonly fault: Finding | null;
  /** The features that passed, in file order. `ordinal` is `firstOrdinal + index`: set-aside features keep their place. */
  readonly features: readonly SourceFeature[];
  /** The features that did not, each with its reason; filtered ones have the code `filtered-out`. */
  readonly setAside: readonly SetAside[];
  /** About the file and the features that passed; what is about a set-aside feature is in `setAside`. */
  readonly findings: readonly Finding[];
  readonly firstOrdinal: number;
  readonly ranges: FeatureRanges;
  /** Bytes before the first feature and after the last, made up where the file is no FeatureCollection. No byte-order mark. */
  readonly head: Uint8Array;
  readonly tail: Uint8Array;
  /** The CRS that coordinates were converted from, for example `EPSG:26910`; null when they are as in the file. */
  readonly reprojectedFrom: string | null;
  /** The system the file's coordinates are in. */
  readonly system: CoordinateSystem;
  /** What to do where longitude and latitude are exchanged; absent where GeoJSON's own rule says it. */
  readonly axesAdvice?: string;
  /** `used + setAside = features`; `filteredOut` is a part of `setAside`. */
  readonly counts: {
    readonly features: number;
    readonly used: number;
    readonly setAside: number;
    readonly filteredOut: number;
  };
}
