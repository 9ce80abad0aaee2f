import type { ColumnLook, ConfidenceLevel } from "../../core/model/column-guess.ts";
import type { ColumnMap, ColumnUnit } from "../../core/model/column-map.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { PlanOptions } from "../../core/model/plan.ts";
import type { Layer } from "../../core/model/terms.ts";
import type { ShippedStandard } from "../../core/standard/shipped-standards.ts";
import type { StandardChange } from "../../core/standard/standard.ts";
import type { LayerGuess } from "../../formats/check/guess-layer.ts";

/** One layer in one file: a table of it where the file holds several. */
export interface IntakeSource {
  /** Tells sources apart; the page's own. */
  readonly key: string;
  readonly name: string;
  readonly blob: Blob;
  readonly layer: Layer;
  /** As for `parseFilter`; null takes all features. */
  readonly filter: string | null;
  readonly table: string | null;
  /** `EPSG:n` where a person knows it better than the file; null takes what the file says. */
  readonly crs: string | null;
}

/** What a person decided of one field: its column, or that no column feeds it. */
export interface FieldChoice {
  readonly layer: Layer;
  readonly field: string;
  readonly column: string | null;
  /** Null for what the values write, else what the field is usually in. */
  readonly unit: ColumnUnit | null;
  /** Null for what is usual in the field. */
  readonly zero: "value" | "unknown" | null;
}

/** A shipped standard and the city's own values over it; a whole standard of the city's stands alone. */
export interface StandardChoice {
  /** Id of a shipped standard. */
  readonly base: string;
  /** JSON of the city's file; null without one. */
  readonly own: unknown;
}

/** All that a run would be told, to be looked at before it. */
export interface IntakeQuestion {
  readonly sources: readonly IntakeSource[];
  /** A column map from a file: a layer it names is not guessed. */
  readonly given: ColumnMap;
  /** What the person decided over the guess or the given map. */
  readonly choices: readonly FieldChoice[];
  readonly standard: StandardChoice;
  readonly options: PlanOptions;
}

/** Findings of one kind, told once with an example. */
export interface FindingGroup {
  readonly code: string;
  readonly severity: Finding["severity"];
  readonly count: number;
  readonly example: Finding;
  /** The first features it is about, at most five. */
  readonly features: readonly string[];
}

/** The different values of one column, most frequent first; null where they are too many to pick from. */
export interface ColumnChoices {
  readonly column: string;
  readonly values: readonly { readonly value: string; readonly count: number }[] | null;
}

/** What would become of one source. `read = used + setAside`; `leftOut` is the part of `setAside` that its filter leaves out. */
export interface SourceReport {
  readonly key: string;
  readonly read: number;
  readonly used: number;
  readonly setAside: number;
  readonly leftOut: number;
  /** Name of the coordinate system its positions were read in; null for a file that cannot be read. */
  readonly system: string | null;
  /** Why nothing can be read of it; null when it was read. */
  readonly fault: { readonly reason: string; readonly whatToDo: string } | null;
  /** Why features would be set aside, without those its filter leaves out. */
  readonly reasons: readonly FindingGroup[];
  /** What else is to be known about the file itself. */
  readonly notes: readonly FindingGroup[];
  readonly choices: readonly ColumnChoices[];
}

/** One field of a layer with the column that feeds it. */
export interface ColumnRow extends ColumnLook {
  readonly field: string;
  readonly unit: ColumnUnit | null;
  /** Units its bare numbers can be in; empty for fields without one. */
  readonly units: readonly ColumnUnit[];
  readonly zero: "value" | "unknown" | null;
  /** What says so: the guess, the column's being called like the field, a column map from a file, or the person at the page. */
  readonly from: "guess" | "name" | "map" | "person";
  /** Null where nothing was guessed. */
  readonly level: ConfidenceLevel | null;
  readonly why: string;
  /** Share of the filled values that can be read; null without values. */
  readonly shareReadable: number | null;
  /** Whether the layer has this column. */
  readonly isFound: boolean;
  /** The middle of its values in meters; null for fields that are no lengths, and for fewer than ten values. */
  readonly middleM: number | null;
}

/** The columns of one layer, all its sources together. */
export interface LayerReport {
  readonly layer: Layer;
  readonly rows: readonly ColumnRow[];
  /** Columns that feed no field, in the table's order. */
  readonly unused: readonly ColumnLook[];
  /** Doubts of the layer as a whole. */
  readonly doubts: readonly FindingGroup[];
}

/** What the clearances would be. */
export interface StandardReport {
  readonly shipped: readonly ShippedStandard[];
  readonly title: string;
  /** Whether the own file is a whole standard, so that no shipped one is under it. */
  readonly isWhole: boolean;
  readonly changes: readonly StandardChange[];
  readonly warnings: readonly Finding[];
  /** Why it cannot be used, as sentences; empty when it can. */
  readonly faults: readonly string[];
  readonly rules: readonly StandardRule[];
  /** What a run is to be given as its standard; null for the one taken by default. */
  readonly json: unknown;
}

export interface StandardRule {
  readonly id: string;
  readonly protects: string;
  readonly minimum: string;
  readonly clearTo: string;
  readonly source: string;
}

/** What a run with the question's answers would do, and the whole column map it would be given. */
export interface IntakeReport {
  readonly sources: readonly SourceReport[];
  readonly layers: readonly LayerReport[];
  readonly columns: ColumnMap;
  readonly standard: StandardReport;
}

/** One table of a file with the layer it is taken for. */
export interface TableGuess extends LayerGuess {
  readonly table: string | null;
}

export type IntakeRequest =
  | { readonly type: "open"; readonly turn: number; readonly name: string; readonly blob: Blob }
  | { readonly type: "check"; readonly turn: number; readonly question: IntakeQuestion };

/** What the worker answers to a request's turn, `columns` and `doing` on the way; a check that a newer one replaced is not answered. */
export type IntakeAnswer =
  | { readonly type: "opened"; readonly turn: number; readonly tables: readonly TableGuess[] }
  | { readonly type: "columns"; readonly turn: number; readonly report: IntakeReport }
  | { readonly type: "doing"; readonly turn: number; readonly doing: string }
  | { readonly type: "checked"; readonly turn: number; readonly report: IntakeReport }
  | { readonly type: "failed"; readonly turn: number; readonly reason: string };
