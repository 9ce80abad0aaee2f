import type { ConflictRecord } from "../../model/conflict.ts";
import type { Referral } from "../../model/prescription.ts";
import type { Settling } from "./settling.ts";

/** A conflict that is only possible, with what would settle it. */
export interface OpenQuestion {
  readonly conflict: ConflictRecord;
  /** Only figures that settle something. */
  readonly settlings: readonly Settling[];
}

/** A tree that somebody should stand before. */
export interface InspectStop {
  readonly treeId: string;
  readonly treeRow: number;
  readonly questions: readonly OpenQuestion[];
  /** What is referred to a licensed arborist; null where nothing is. */
  readonly refer: Referral | null;
}
