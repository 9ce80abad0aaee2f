import type { NotKept } from "./storage-fault.ts";

/** What is true of the reader's work on the plan at this moment, for the page to say. */
export type KeepState =
  /** Nothing was changed: there is nothing to keep. */
  | { readonly is: "unchanged" }
  | { readonly is: "saving" }
  /** Everything so far is on the disk; when, in ISO 8601. */
  | { readonly is: "kept"; readonly at: string; readonly edits: number }
  | { readonly is: "not-kept"; readonly why: NotKept }
  /** Another page has the plan: this one may look, not change. Edits it made before it knew are counted, and kept nowhere. */
  | { readonly is: "elsewhere"; readonly unkept: number };

/** Whether closing the page now would lose something. */
export const wouldLose = (state: KeepState): boolean =>
  state.is === "saving" || state.is === "not-kept" || (state.is === "elsewhere" && state.unkept > 0);
