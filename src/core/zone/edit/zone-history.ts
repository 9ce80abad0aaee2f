import type { Zone } from "../../model/zone.ts";
import type { ZoneEdit } from "./zone-edit.ts";
import type { ZoneEditResult } from "./zone-edit-result.ts";

/** One edit that was applied. Zones it did not touch are the same objects before and after, so that keeping both costs little. */
export interface ZoneStep {
  readonly edit: ZoneEdit;
  readonly before: readonly Zone[];
  readonly after: readonly Zone[];
}

/** The zones as they are with the way they came to be, and the way back that was undone. */
export interface ZoneHistory {
  readonly zones: readonly Zone[];
  /** Oldest first. */
  readonly past: readonly ZoneStep[];
  /** What would be redone next first. */
  readonly future: readonly ZoneStep[];
}

export const startedHistory = (zones: readonly Zone[]): ZoneHistory => ({ zones, past: [], future: [] });

/**
 * A history with an edit's result; what was undone before is gone. An edit that was refused or changed nothing leaves the history as it is. With
 * `isSameGesture` the edit takes the place of the last one and is undone with it: the result is then of the zones before that one, so that a drag
 * comes to one step.
 */
export function withStep(
  history: ZoneHistory,
  edit: ZoneEdit,
  result: ZoneEditResult,
  isSameGesture = false,
): ZoneHistory {
  if (result.isRefused || result.changes.length === 0) return history;
  const last = isSameGesture ? history.past[history.past.length - 1] : undefined;
  const step = { edit, before: last?.before ?? history.zones, after: result.zones };
  const past = last === undefined ? history.past : history.past.slice(0, -1);
  return { zones: result.zones, past: [...past, step], future: [] };
}

/** The history with its last step taken back; itself where there is none. */
export function undone(history: ZoneHistory): ZoneHistory {
  const step = history.past[history.past.length - 1];
  if (step === undefined) return history;
  return { zones: step.before, past: history.past.slice(0, -1), future: [step, ...history.future] };
}

/** The history with the step undone last done again; itself where there is none. */
export function redone(history: ZoneHistory): ZoneHistory {
  const [step, ...future] = history.future;
  if (step === undefined) return history;
  return { zones: step.after, past: [...history.past, step], future };
}
