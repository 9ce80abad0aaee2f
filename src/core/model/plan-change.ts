import type { IsoDate } from "../units/calendar.ts";
import type { Urgency } from "./terms.ts";

/**
 * What became of a tree from one inventory to the next. `matched`: the same id at the same place. `moved`: the same id, its position corrected.
 * `renumbered`: found by place and species under another id. `replanted`: another tree at the same place, or under the same id. `new`, `removed`.
 */
export const IDENTITIES = ["matched", "moved", "renumbered", "replanted", "new", "removed"] as const;
export type Identity = (typeof IDENTITIES)[number];

/** Why a tree is planned otherwise than before, in order of precedence: the first that explains it is told. */
export const CHANGE_CAUSES = ["work", "word", "data", "surroundings", "rule", "growth", "model"] as const;
export type ChangeCause = (typeof CHANGE_CAUSES)[number];

/** What of a tree can differ, the weightiest first; the first that does is the change that a cause is told for. */
export const CHANGE_ASPECTS = ["urgency", "conflicts", "prescription", "dates"] as const;
export type ChangeAspect = (typeof CHANGE_ASPECTS)[number];

/** What a tree was planned for, in brief. */
export interface PlannedThen {
  readonly urgency: Urgency;
  readonly refer: string | null;
  /** Ids of its conflicts in the later revision's names, in order. */
  readonly conflictIds: readonly string[];
  readonly remedy: string;
  readonly dosePct: number;
  readonly due: IsoDate | null;
  readonly overdue: boolean;
}

/** One tree that is another than before, or planned otherwise. */
export interface TreeChange {
  /** Id in this revision; of a removed tree the one it had. */
  readonly treeId: string;
  /** Id in the revision compared with, where it is another; null otherwise. */
  readonly formerly: string | null;
  readonly identity: Identity;
  /** Null where it is planned as before. */
  readonly cause: ChangeCause | null;
  /** What differs, the weightiest first; empty where it is planned as before. */
  readonly aspects: readonly ChangeAspect[];
  /** What exactly brought it about, one plain phrase, for example `crown base 2.4 m -> 4.6 m`. */
  readonly detail: string;
  /** Null for a tree that was not there. */
  readonly before: PlannedThen | null;
  readonly now: PlannedThen | null;
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Meters between its positions then and now; null where there is but one. */
  readonly movedM: number | null;
}

/** How a plan was carried on from an earlier one, and its changes summed up. */
export interface ChangeTotals {
  /** Revision that was carried on, and the one that the changes count from: the last one made from an inventory. */
  readonly previousRevision: number;
  readonly sinceRevision: number;
  readonly sinceAsOf: IsoDate;
  /** Revision that the changes were found for. */
  readonly inRevision: number;
  readonly trees: Readonly<Record<Identity, number>>;
  readonly byCause: Readonly<Record<ChangeCause, number>>;
  readonly byAspect: Readonly<Record<ChangeAspect, number>>;
  /** Trees planned otherwise than before; the sum over the causes. */
  readonly changed: number;
}
