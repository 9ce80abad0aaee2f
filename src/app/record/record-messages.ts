import type { RecordPreview } from "../../core/plan/record/record-preview.ts";
import type { WorkSummary } from "../../core/plan/record/work-summary.ts";
import type { GivenWord, WordPreview } from "../../core/plan/word/word-preview.ts";
import type { RefusedFile } from "../../formats/completion/read-completions.ts";
import type { EditRecord } from "../keep/edit-record.ts";

/** The plan that work is recorded in, as the page has it. */
export interface RecordBase {
  /** Files of the revision at hand. */
  readonly files: readonly (readonly [name: string, content: Blob])[];
  /** Edits made on it since, which the new revision holds too. */
  readonly edits: readonly EditRecord[];
  /** Address under which earlier revisions are served, by number; null where they are not at hand. */
  readonly earlier: string | null;
}

/** One file that a crew handed in. */
export interface HandedIn {
  readonly name: string;
  readonly blob: Blob;
  /** When it was last written, `2027-03-12T14:05:00Z`. */
  readonly modifiedAt: string;
}

/** Visits decided on, each with the report to take it from, or null where one alone has it. */
export type Decisions = ReadonlyMap<string, string | null>;

/** What the page asks the worker: first what to record in, then what would be taken, any number of times, at last to take it; or to take words of arborists. */
export type RecordQuestion =
  | { readonly type: "open"; readonly base: RecordBase }
  | { readonly type: "preview"; readonly files: readonly HandedIn[]; readonly decisions: Decisions }
  | { readonly type: "take"; readonly decisions: Decisions }
  | { readonly type: "say"; readonly words: readonly GivenWord[] };

export type RecordRequest = RecordQuestion & { readonly turn: number };

/** What would be taken, with the files that cannot be read. */
export interface RecordShown {
  readonly preview: RecordPreview;
  readonly refused: readonly RefusedFile[];
  readonly notRead: readonly string[];
}

/** The plan's next revision with the work in it. */
export interface RecordTaken {
  readonly files: ReadonlyMap<string, Uint8Array>;
  /** Of those the files that differ from the revision before, as a zip. */
  readonly changed: Uint8Array;
  readonly summary: WorkSummary;
  readonly changedTreeIds: readonly string[];
  /** What became of words, and the limits that those taken break, by their ids. */
  readonly words: readonly WordPreview[];
  readonly breaks: ReadonlyMap<string, readonly string[]>;
  /** Edits that could not be made and are not in the files. */
  readonly leftOut: number;
}

export type RecordAnswer =
  | { readonly type: "opened"; readonly turn: number }
  | { readonly type: "shown"; readonly turn: number; readonly shown: RecordShown }
  | { readonly type: "taken"; readonly turn: number; readonly taken: RecordTaken | null }
  | { readonly type: "failed"; readonly turn: number; readonly reason: string };
