import type { Visit } from "../../model/prescription.ts";
import type { Crew } from "../../model/terms.ts";
import type { Tree } from "../../model/trees.ts";
import type { IsoDate } from "../../units/calendar.ts";
import type { RecordedCheck } from "../acceptance/recorded-check.ts";
import type { AddedTree, ReportedHazard, VisitCompletion } from "../completion/completion.ts";

/**
 * All that crews have reported of a plan's work: what `record.jsonl` of a revision holds. It only grows: what is replaced or taken back stays, marked so.
 * The state of a tree follows from its base and the visits in force, whatever order they were taken in.
 */
export interface WorkRecord {
  /** Files taken, in the order they were taken. */
  readonly reports: readonly RecordedReport[];
  readonly visits: readonly RecordedVisit[];
  /** The trees that something was recorded of, as they were before. */
  readonly bases: readonly RecordedBase[];
  readonly additions: readonly RecordedAddition[];
  /** Ids that trees bear no more since a later inventory; absent where none changed. */
  readonly names?: readonly RecordedName[];
  /** Checks of finished work; absent where none was recorded. */
  readonly checks?: readonly RecordedCheck[];
}

/** An id that a tree bore up to a revision, so that reports made from it or an earlier one still find the tree. */
export interface RecordedName {
  readonly from: string;
  /** Its id since; of a tree that is no more and whose id another tree bears now, what the record calls it. */
  readonly to: string;
  readonly untilRevision: number;
}

/** One completion file that was taken, wholly or in part. */
export interface RecordedReport {
  readonly reportId: string;
  readonly exportedAt: string;
  /** Name of the file without its folder, and the digest of its bytes. */
  readonly file: string;
  readonly sha256: string;
  /** Revision its packet was made from, and the one it was taken into. */
  readonly fromRevision: number;
  readonly revision: number;
  readonly zoneId: string;
  readonly crew: Crew | null;
  readonly who: string;
  readonly crewHours: number | null;
  readonly notes: string;
}

/** What a crew reported of one visit, beside what was planned. */
export interface RecordedVisit {
  readonly reportId: string;
  readonly exportedAt: string;
  /** Revision its packet was made from, and the one it was taken into. */
  readonly fromRevision: number;
  readonly revision: number;
  readonly zoneId: string;
  readonly entry: VisitCompletion;
  readonly planned: PlannedVisit;
  /** Revision in which another report took its place or it was taken back; null while it is in force. */
  readonly replacedIn: number | null;
  /** Why it was taken although something stood against it, as the person who decided saw it; null when nothing did. */
  readonly decided: string | null;
  /** Ids it was reported under, where the tree bears another since a later inventory; absent where it does not. */
  readonly formerly?: { readonly treeId: string; readonly visitId: string };
}

/** A visit as the packet said it, without words. */
export interface PlannedVisit {
  readonly crew: Crew;
  readonly hours: number;
  readonly doseShare: number;
  readonly due: IsoDate;
  readonly tasks: readonly PlannedTask[];
}

export type PlannedTask = Pick<
  Visit["tasks"][number],
  "taskId" | "remedy" | "conflictIds" | "belowM" | "targetM" | "doseShare"
> & {
  /** Years until the first minimum is reached again, of the option prescribed; null where no clearance is cut for. */
  readonly lastsYears: number | null;
};

/** A tree before anything was recorded of it, and since when its conflicts are known. */
export interface RecordedBase {
  readonly tree: Tree;
  readonly firstSeen: Readonly<Record<string, IsoDate>>;
  /** Since when a later inventory measured anew what crews had measured; absent where none did. */
  readonly newer?: NewerMeasures;
  /** Revision in which the tree of a later inventory took its place; absent or null while it is in force. */
  readonly replacedIn?: number | null;
}

/** Days on which a later inventory measured: work up to that day changes the figure no more. Absent where it did not measure it anew. */
export interface NewerMeasures {
  readonly crownBaseOn?: IsoDate;
  readonly headroomOn?: IsoDate;
}

/** A tree or a hazard that crews found beside their list. */
export type RecordedAddition = {
  readonly reportId: string;
  readonly exportedAt: string;
  readonly revision: number;
  readonly zoneId: string;
  readonly who: string;
  readonly replacedIn: number | null;
} & (
  | { readonly kind: "tree"; readonly added: AddedTree }
  | { readonly kind: "hazard"; readonly added: ReportedHazard }
);

/** The record of a plan of which nothing was reported yet. */
export const EMPTY_RECORD: WorkRecord = { reports: [], visits: [], bases: [], additions: [] };
