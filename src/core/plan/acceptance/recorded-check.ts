import type { IsoDate } from "../../units/calendar.ts";

export const CHECK_RESULTS = ["passed", "rework"] as const;
/** `rework`: the work is not accepted, and the tree gets a new visit. */
export type CheckResult = (typeof CHECK_RESULTS)[number];

/** What somebody found who looked at finished work. */
export interface WorkCheck {
  readonly zoneId: string;
  readonly treeId: string;
  /** The finished visit that was looked at. */
  readonly visitId: string;
  readonly result: CheckResult;
  /** What is to be made good; empty when it passed. */
  readonly reason: string;
  readonly on: IsoDate;
  readonly by: string;
  readonly notes: string;
}

/** A check as the record holds it; a line is never taken out, only marked as replaced. */
export interface RecordedCheck extends WorkCheck {
  readonly file: string;
  readonly sha256: string;
  /** Revision it was taken into. */
  readonly revision: number;
  /** Revision in which a later check of the same visit took its place; null while it is in force. */
  readonly replacedIn: number | null;
}
