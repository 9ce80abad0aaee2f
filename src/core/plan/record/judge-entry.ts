import type { VisitCompletion } from "../completion/completion.ts";
import { figureFindings } from "../completion/figure-findings.ts";
import type { FoundVisit, KnownWork } from "./known-work.ts";
import type { GivenCompletion, RecordStatus, VisitPreview } from "./record-preview.ts";
import { canBothBe, isSameEntry, saysTheSame } from "./same-report.ts";
import { asksForTheSame, plannedVisit } from "./visits-by-id.ts";
import type { PlannedVisit, RecordedVisit } from "./work-record.ts";

/**
 * What becomes of one entry, seen against the plan and the record alone; other files of the same preview are weighed after it. A decision to take it
 * is looked at here too, unless another file of the preview has the same visit.
 */
export function judgeEntry(entry: VisitCompletion, given: GivenCompletion, known: KnownWork): VisitPreview {
  const { reportId, exportedAt, zoneId, revision } = given.completion;
  const judged = (status: RecordStatus, reason: string, more: Partial<VisitPreview> = {}): VisitPreview => ({
    file: given.file,
    reportId,
    visitId: entry.visitId,
    treeId: entry.treeId,
    zoneId,
    status,
    reason,
    entry,
    against: null,
    canDecide: false,
    becomes: null,
    ...more,
  });
  const tree = known.trees.get(entry.treeId);
  if (tree === undefined) return judged("refused", `The plan has no tree ${entry.treeId}.`);
  const recorded = known.recorded.get(entry.visitId) ?? [];
  const own = recorded.find((one) => one.reportId === reportId);
  if (own !== undefined) {
    if (isSameEntry(own.entry, entry)) return judged("already-taken", "The record has it.");
    if (own.exportedAt >= exportedAt)
      return judged("already-taken", "The record has a later file of the same copy.", { against: own.entry });
  }
  const others = recorded.filter((one) => one !== own);
  const alike = others.find((one) => saysTheSame(one.entry, entry));
  if (alike !== undefined && own === undefined) {
    return judged("already-taken", `Reported alike by ${whoOf(alike)}.`, { against: alike.entry });
  }
  const planned = plannedFor(entry, revision, recorded, known);
  if (planned.visit === null) return judged("refused", planned.reason);
  const above = figureFindings(entry, tree, planned.visit.doseShare).find(({ severity }) => severity === "error");
  if (above !== undefined) return judged("refused", `${above.reason} ${above.whatToDo}`);
  const becomes: RecordedVisit = {
    reportId,
    exportedAt,
    fromRevision: revision,
    revision: known.input.plan.revision + 1,
    zoneId,
    entry,
    planned: planned.visit,
    replacedIn: null,
    decided: null,
  };
  const against = others.find((one) => !canBothBe(one.entry, entry));
  const objection: { status: RecordStatus; reason: string; against: VisitCompletion | null } | null =
    against !== undefined
      ? {
          status: "conflict",
          reason: `${whoOf(against)} reported it otherwise on ${against.entry.date}.`,
          against: against.entry,
        }
      : planned.reason === ""
        ? null
        : { status: "needs-decision", reason: planned.reason, against: null };
  if (objection === null) {
    const reason =
      own === undefined ? whatHappens(entry) : `Takes the place of what the same copy said: ${whatHappens(entry)}`;
    return judged("take", reason, { becomes, against: own?.entry ?? null });
  }
  return judged(objection.status, objection.reason, { against: objection.against, canDecide: true, becomes });
}

/** Who reported, for people. */
export const whoOf = ({ entry, reportId }: Pick<RecordedVisit, "entry" | "reportId">): string =>
  entry.who.trim() === "" ? `Report ${reportId.slice(0, 40)}` : entry.who.trim();

/** What taking an entry does, in one sentence. */
export function whatHappens({ outcome, reason }: VisitCompletion): string {
  if (outcome === "done") return "The visit is done.";
  if (reason === "tree-gone") return "The tree is gone: it stays in the plan without conflicts and visits.";
  return outcome === "partly"
    ? "Partly done: the visit stays open with what is left."
    : "Not done: the visit stays open with the reason.";
}

/** The visit that the packet asked for; the reason is empty where nothing stands against taking the entry, `visit` null where it cannot be. */
function plannedFor(
  entry: VisitCompletion,
  revision: number,
  recorded: readonly RecordedVisit[],
  { input, visits }: KnownWork,
): { visit: PlannedVisit | null; reason: string } {
  const mine = (found: FoundVisit | undefined): FoundVisit | null =>
    found?.visit.treeId === entry.treeId ? found : null;
  const before = revision < input.plan.revision ? input.earlier.get(revision) : undefined;
  const then = mine(before?.get(entry.visitId));
  if (before !== undefined && then === null) return { visit: null, reason: unknown(entry, revision) };
  // What the record holds of the visit was judged when it was taken; done work the plan asks for no more.
  const [known] = recorded;
  if (known !== undefined && known.entry.treeId === entry.treeId) return { visit: known.planned, reason: "" };
  const now = mine(visits.get(entry.visitId));
  const visit = then ?? now;
  const planned = visit === null ? null : plannedVisit(visit);
  if (revision >= input.plan.revision)
    return { visit: planned, reason: planned === null ? unknown(entry, revision) : "" };
  if (then === null) {
    return {
      visit: planned,
      reason:
        now === null
          ? `The plan has no visit ${entry.visitId} any more, and revision ${revision} is not at hand.`
          : `Revision ${revision} is not at hand, so nobody can tell whether its visit was the same.`,
    };
  }
  if (now === null)
    return { visit: planned, reason: `The plan no longer asks for this visit, as revision ${revision} did.` };
  return {
    visit: planned,
    reason: asksForTheSame(then.visit, now.visit) ? "" : `The plan asks for other work than revision ${revision} did.`,
  };
}

const unknown = ({ visitId, treeId }: VisitCompletion, revision: number): string =>
  `Revision ${revision} has no visit ${visitId} of tree ${treeId}.`;
