import type { EditRecord } from "./edit-record.ts";

/** What the page asks the worker: the files of a plan with its edits made, as its next revision. */
export interface ReviseRequest {
  /** Files of the revision the edits were made on. */
  readonly base: readonly (readonly [name: string, content: Blob])[];
  readonly edits: readonly EditRecord[];
  /** Number of the next revision; null leaves the plan as it is, for a copy of one without edits. */
  readonly revision: number | null;
  /** What to put into a zip: all files, or those that differ from the base. */
  readonly zip: "all" | "changed";
}

/** The next revision. */
export interface Revised {
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly zip: Uint8Array;
  /** Edits that could not be made and are not in the files. */
  readonly leftOut: number;
}

export type ReviseAnswer =
  | { readonly type: "done"; readonly revised: Revised }
  | { readonly type: "failed"; readonly reason: string };
