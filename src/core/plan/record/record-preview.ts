import type { Finding } from "../../model/finding.ts";
import type { Plan } from "../../model/plan.ts";
import type { Visit } from "../../model/prescription.ts";
import type { Completion, VisitCompletion } from "../completion/completion.ts";
import type { RecordedAddition, RecordedVisit, WorkRecord } from "./work-record.ts";

/** A completion that was read from a file. */
export interface GivenCompletion {
  /** File name without its folder, or `archive.zip/name` inside a zip. */
  readonly file: string;
  /** Digest of the file's bytes. */
  readonly sha256: string;
  readonly completion: Completion;
}

/** The visits of an earlier revision with the years that each tree's prescribed option lasts, by visit id. */
export type EarlierVisits = ReadonlyMap<string, { readonly visit: Visit; readonly lastsYears: number | null }>;

/** What a preview is made of. */
export interface RecordInput {
  readonly plan: Plan;
  readonly record: WorkRecord;
  readonly given: readonly GivenCompletion[];
  /** Visits of earlier revisions that are at hand, by number. */
  readonly earlier: ReadonlyMap<number, EarlierVisits>;
  /** Visits decided to be taken although something stands against it, with the report to take them from; null where only one report has it. */
  readonly decisions: ReadonlyMap<string, string | null>;
}

/**
 * `take`: will be taken. `already-taken`: the record has it, or something newer of the same copy. `conflict`: another report says something else.
 * `needs-decision`: of an older revision whose visit has changed or is not at hand, or no longer reported by the copy that reported it. `refused`: cannot be.
 * Conflicts and needs-decision are taken by naming the visit in `decisions`.
 */
export const RECORD_STATUSES = ["take", "already-taken", "conflict", "needs-decision", "refused"] as const;
export type RecordStatus = (typeof RECORD_STATUSES)[number];

/** What becomes of one visit of one file. */
export interface VisitPreview {
  readonly file: string;
  readonly reportId: string;
  readonly visitId: string;
  readonly treeId: string;
  readonly zoneId: string;
  readonly status: RecordStatus;
  /** One plain sentence: why it is so; what will be done, for `take`. */
  readonly reason: string;
  /** What the file says; null where it no longer says anything of a visit that its copy reported before. */
  readonly entry: VisitCompletion | null;
  /** What the record or another file of this preview says otherwise; null where nothing does. */
  readonly against: VisitCompletion | null;
  /** Whether naming it in `decisions` takes it. */
  readonly canDecide: boolean;
  /** The line it adds to the record, for `take`; null otherwise, and where a visit is taken back. */
  readonly becomes: RecordedVisit | null;
}

export interface AdditionPreview {
  readonly file: string;
  readonly reportId: string;
  readonly status: "take" | "already-taken" | "refused";
  readonly reason: string;
  readonly addition: RecordedAddition;
}

/** What becomes of one file as a whole; a refused one has no visits here. */
export interface FilePreview {
  readonly file: string;
  readonly sha256: string;
  readonly completion: Completion;
  readonly status: "take" | "already-taken" | "refused";
  readonly reason: string;
}

/** Exactly what taking would do: what stands here as `take` is taken, whole or not at all, and nothing else. */
export interface RecordPreview {
  readonly planId: string;
  /** Revision of the plan that it was made for. */
  readonly revision: number;
  /** In the order of exportedAt and reportId, whatever order they were given in. */
  readonly files: readonly FilePreview[];
  readonly visits: readonly VisitPreview[];
  readonly additions: readonly AdditionPreview[];
  readonly totals: Readonly<Record<RecordStatus, number>>;
  /** Warnings about what will be taken, such as a dose far from the planned one, and why files are refused. */
  readonly findings: readonly Finding[];
  /** False when nothing would be taken: no new revision is made. */
  readonly changesAnything: boolean;
}
