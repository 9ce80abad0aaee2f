import type { VisitCompletion } from "../core/plan/completion/completion.ts";
import type { WorkTotals } from "../core/plan/record/work-summary.ts";
import type { ToldRecord } from "./record-text.ts";
import { wordsJson } from "./record-words.ts";

/** The preview or the result of `record` for programs: names with underscores, lengths in meters, shares from 0 to 1. */
export function recordJson({ read, preview, summary, taken, words }: ToldRecord): object {
  return {
    plan: preview.planId,
    revision: preview.revision,
    new_revision: taken?.revision ?? null,
    changes_anything: preview.changesAnything || words.preview.some(({ status }) => status === "take"),
    refused: read.refused,
    not_read: read.notRead,
    files: preview.files.map(({ file, sha256, status, reason, completion }) => ({
      file,
      sha256,
      status,
      reason,
      report: completion.reportId,
      zone: completion.zoneId,
      from_revision: completion.revision,
    })),
    totals: preview.totals,
    visits: preview.visits.map((one) => ({
      visit: one.visitId,
      tree: one.treeId,
      zone: one.zoneId,
      file: one.file,
      report: one.reportId,
      status: one.status,
      reason: one.reason,
      can_decide: one.canDecide,
      says: one.entry === null ? null : entryJson(one.entry),
      against: one.against === null ? null : entryJson(one.against),
    })),
    additions: preview.additions.map(({ file, reportId, status, reason, addition }) => ({
      id: addition.added.addedId,
      kind: addition.kind,
      file,
      report: reportId,
      status,
      reason,
      notes: addition.added.notes,
    })),
    findings: preview.findings,
    ...wordsJson(words, taken),
    changed_trees: taken?.changedTreeIds ?? [],
    summary: {
      all: totalsJson(summary.all),
      by_crew: Object.fromEntries(summary.byCrew.map(({ crew, totals }) => [crew, totalsJson(totals)])),
      by_month: Object.fromEntries(summary.byMonth.map(({ month, totals }) => [month, totalsJson(totals)])),
      open_visits: summary.openVisits,
      open_hours: summary.openHours,
      trees_gone: summary.treesGone,
      added_trees: summary.addedTrees,
      hazards: summary.hazards,
    },
  };
}

const entryJson = (entry: VisitCompletion) => ({
  outcome: entry.outcome,
  reason: entry.reason,
  date: entry.date,
  who: entry.who,
  crown_base_m: entry.crownBaseM,
  headroom_m: entry.headroomM,
  dose_share: entry.doseShare,
  notes: entry.notes,
});

const totalsJson = (one: WorkTotals) => ({
  done: one.done,
  partly: one.partly,
  not_done: one.notDone,
  trees: one.trees,
  planned_hours: one.plannedHours,
  reported_person_hours: one.reportedPersonHours,
  compared_person_hours: one.comparedPersonHours,
  hours_ratio: one.hoursRatio,
  planned_crowns: one.plannedCrowns,
  reported_crowns: one.reportedCrowns,
  dose_ratio: one.doseRatio,
});
