import type { IsoDate } from "../units/calendar.ts";
import type { ClearanceRemedy, Defect } from "./terms.ts";

/** What an arborist can say of a tree. The order is that of `bough_word` and of the list's filter. */
export const WORD_KINDS = [
  "do-not-prune",
  "option",
  "dates",
  "referral-resolved",
  "measurement",
  "inspected",
  "note",
] as const;
export type WordKind = (typeof WORD_KINDS)[number];

/** An option of those computed, with its figures when it was chosen; it is found again by its remedy, and by its figures where two share one. */
export interface OptionValue {
  readonly remedy: ClearanceRemedy;
  readonly liftToM: number | null;
  readonly shortenM: number | null;
  /** Share of live crown that it took then; null where nobody said. */
  readonly doseShare: number | null;
  readonly lastsYears: number | null;
}

/** Dates for a visit, both inclusive. */
export interface DatesValue {
  readonly windowStart: IsoDate;
  readonly windowEnd: IsoDate;
  /** Null is the window's end. */
  readonly due: IsoDate | null;
}

export interface DoNotPruneValue {
  /** The last day on which it holds; null holds until it is taken back. */
  readonly until: IsoDate | null;
}

export interface NoteValue {
  readonly text: string;
}

/** A referral that somebody has decided: it is shown as decided, and comes back only for another reason. */
export interface ReferralResolvedValue {
  /** Code of the referral, such as `inspect-first`; null is whichever there is. */
  readonly code: string | null;
  /** What was decided, in words. */
  readonly decision: string;
  /** Whether the rules may prescribe after all, where what held them back was a doubt (`inspect-first`, `confirm-planting-date`). */
  readonly mayPrescribe: boolean;
}

export const MEASURED_LENGTHS = ["height", "crown-base", "crown-radius", "headroom", "dbh"] as const;
export type MeasuredLength = (typeof MEASURED_LENGTHS)[number];

/** One thing measured or seen in the field; lengths in meters, `headroom` over the road. */
export type MeasurementValue =
  | { readonly of: MeasuredLength; readonly valueM: number }
  | { readonly of: "planted"; readonly date: IsoDate }
  | { readonly of: "defect"; readonly defect: Defect; readonly isThere: boolean };

/** What somebody who stood before the tree says of its conflicts. */
export interface InspectedValue {
  /** Conflicts it is about; empty for all that were only possible. */
  readonly conflictIds: readonly string[];
  /** `conflict`: it is real. `no-conflict`: there is none. `seen`: looked at, and the figures speak for themselves. */
  readonly found: "conflict" | "no-conflict" | "seen";
}

/** A visit's place in a work zone's order of work, from 0. */
export interface ZonePlace {
  readonly zoneId: string;
  readonly visitId: string;
  readonly at: number;
}

/** Who took a word back, when and why. */
export interface TakenBack {
  readonly on: IsoDate;
  readonly by: string;
  readonly why: string;
  /** Its line in `words.jsonl`, behind the first, from 1, so that the file only ever grows; absent before it was written. */
  readonly line?: number;
}

interface Said<Kind extends WordKind, Value> {
  /** Unique in a plan, and for ever. */
  readonly wordId: string;
  readonly treeId: string;
  /** The visit it is about, `TREE/vN`: it holds until that visit is done. Null is the tree, whatever its visits. */
  readonly visitId: string | null;
  readonly on: IsoDate;
  /** Who said it; never empty. */
  readonly by: string;
  readonly why: string;
  readonly kind: Kind;
  readonly value: Value;
  /** Places of visits in work zones that it called off, so that they return to them when it is taken back; absent where there are none. */
  readonly left?: readonly ZonePlace[];
  readonly takenBack: TakenBack | null;
}

export type OptionWord = Said<"option", OptionValue>;
export type DatesWord = Said<"dates", DatesValue>;
export type DoNotPruneWord = Said<"do-not-prune", DoNotPruneValue>;
export type NoteWord = Said<"note", NoteValue>;
export type ReferralResolvedWord = Said<"referral-resolved", ReferralResolvedValue>;
export type MeasurementWord = Said<"measurement", MeasurementValue>;
export type InspectedWord = Said<"inspected", InspectedValue>;

/**
 * What an arborist says of a tree or a visit. It outranks the model and is kept through every run; a word is never changed, only taken back, and then
 * stays in the history.
 */
export type ArboristWord =
  | OptionWord
  | DatesWord
  | DoNotPruneWord
  | NoteWord
  | ReferralResolvedWord
  | MeasurementWord
  | InspectedWord;

/** A word that is in force, as a prescription tells it. */
export interface WordInForce {
  readonly wordId: string;
  readonly kind: WordKind;
  readonly visitId: string | null;
  readonly on: IsoDate;
  readonly by: string;
  readonly why: string;
  /** One plain sentence: what was said. */
  readonly says: string;
  /** The limits that it breaks and hazards that it leaves open, a sentence each; it holds nevertheless. */
  readonly breaks: readonly string[];
  /** Why it changes nothing as things stand, in words; null where it does what it says. */
  readonly idle: string | null;
}
