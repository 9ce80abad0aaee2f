import type { VisitCompletion } from "../core/plan/completion/completion.ts";
import { REASON_WORDS } from "../core/plan/completion/reason-words.ts";
import type { RecordPreview, RecordStatus, VisitPreview } from "../core/plan/record/record-preview.ts";
import type { WorkSummary, WorkTotals } from "../core/plan/record/work-summary.ts";
import { type DisplayUnits, formatLength, formatShare } from "../core/units/format-length.ts";
import type { ReadCompletions } from "../formats/completion/read-completions.ts";
import type { RecordOutput } from "../formats/plan/record-plan.ts";
import { type ToldWords, wordLines } from "./record-words.ts";

/** What `record` tells: what was read, what becomes of it, what was taken (null for nothing), and what is recorded in all. */
export interface ToldRecord {
  readonly read: ReadCompletions;
  readonly preview: RecordPreview;
  readonly summary: WorkSummary;
  readonly taken: RecordOutput | null;
  readonly words: ToldWords;
}

const HEADS: readonly (readonly [RecordStatus, string])[] = [
  ["take", "Taken"],
  ["conflict", "In conflict: nothing is taken until somebody decides"],
  ["needs-decision", "Waiting for a decision"],
  ["refused", "Cannot be taken"],
  ["already-taken", "Already in the record"],
];
/** Of what is taken or there already, so many lines are printed; --json has all. What needs somebody is printed in full. */
const MOST_LINES = 40;

/** The preview or the result of `record` in plain lines. */
export function recordText(
  { read, preview, summary, taken, words }: ToldRecord,
  units: DisplayUnits,
  dir: string,
): string {
  const lines: string[] = [`Plan ${preview.planId}, revision ${preview.revision}`];
  for (const { file, faults } of read.refused) {
    lines.push(`  refused        ${file}`, ...faults.map((fault) => `                 ${fault}`));
  }
  for (const { file, status, reason, completion } of preview.files) {
    const by = completion.who.trim() === "" ? "" : `, ${completion.who.trim()}`;
    lines.push(
      `  ${status.padEnd(14)} ${file} (zone ${completion.zoneId}, revision ${completion.revision}${by})`,
      `                 ${reason}`,
    );
  }
  lines.push(...read.notRead.map((sentence) => `  ${sentence}`));
  for (const [status, head] of HEADS)
    lines.push(...visitLines(preview, status, status === "take" && taken === null ? "To be taken" : head, units));
  const additions = preview.additions.filter(({ status }) => status === "take");
  if (additions.length > 0)
    lines.push("", `Reported beside the list: ${additions.length} (in added.geojson and findings.csv)`);
  for (const { addition, reason } of additions.slice(0, MOST_LINES)) {
    lines.push(`  ${addition.kind.padEnd(7)} ${addition.added.notes.trim().slice(0, 100)} - ${reason}`);
  }
  lines.push(...wordLines(words, taken, units));
  const looks = preview.findings.filter(({ code }) => !code.startsWith("completion-o"));
  if (looks.length > 0)
    lines.push(
      "",
      "To look at",
      ...looks.slice(0, MOST_LINES).map(({ feature, reason }) => `  ${feature ?? ""}: ${reason}`),
    );
  if (preview.visits.some(({ canDecide }) => canDecide)) {
    lines.push("", "To take one that waits: --take VISIT, or --take VISIT=REPORT where several files report it.");
  }
  lines.push("", ...summaryLines(summary), "", endLine(read, preview, taken, dir, words));
  return `${lines.join("\n")}\n`;
}

function endLine(
  read: ReadCompletions,
  preview: RecordPreview,
  taken: RecordOutput | null,
  dir: string,
  words: ToldWords,
): string {
  if (taken !== null)
    return `Written to ${dir} as revision ${taken.revision}; ${taken.changedTreeIds.length} trees have new figures.`;
  if (read.refused.length > 0 || preview.files.some(({ status }) => status === "refused")) {
    return "Nothing was changed: leave the refused files out, or bring them in order.";
  }
  return preview.changesAnything || words.preview.some(({ status }) => status === "take")
    ? "A preview: nothing was changed."
    : "Nothing was changed: there is nothing new to take.";
}

function visitLines(preview: RecordPreview, status: RecordStatus, head: string, units: DisplayUnits): string[] {
  const visits = preview.visits.filter((one) => one.status === status);
  if (visits.length === 0) return [];
  const shown = status === "take" || status === "already-taken" ? visits.slice(0, MOST_LINES) : visits;
  const rest = visits.length - shown.length;
  return [
    "",
    `${head}: ${visits.length}`,
    ...shown.flatMap((one) => visitLine(one, units)),
    ...(rest > 0 ? [`  and ${rest} more`] : []),
  ];
}

function visitLine({ visitId, reportId, entry, against, reason, status }: VisitPreview, units: DisplayUnits): string[] {
  const said = entry === null ? "no longer reported" : entryWords(entry, units);
  const lines = [`  ${visitId.padEnd(16)} ${said}`];
  if (status === "already-taken" || (status === "take" && against === null)) return lines;
  lines.push(`  ${"".padEnd(16)} ${reason}${status === "take" ? "" : ` (report ${reportId})`}`);
  if (against !== null) lines.push(`  ${"".padEnd(16)} against: ${entryWords(against, units)}`);
  return lines;
}

/** What an entry says, in one line. */
export function entryWords(entry: VisitCompletion, units: DisplayUnits): string {
  const { outcome, reason, date, who, crownBaseM, headroomM, doseShare } = entry;
  const figures = [
    crownBaseM === null ? null : `crown base ${formatLength(crownBaseM, units)}`,
    headroomM === null ? null : `headroom ${formatLength(headroomM, units)}`,
    doseShare === null ? null : `dose ${formatShare(doseShare)}`,
  ].filter((one) => one !== null);
  const why = reason === null ? "" : ` because ${REASON_WORDS[reason]}`;
  const by = who.trim() === "" ? "" : `, ${who.trim()}`;
  return `${outcome} ${date}${by}${why}${figures.length === 0 ? "" : `; ${figures.join(", ")}`}`;
}

function summaryLines(summary: WorkSummary): string[] {
  const { all, byCrew, byMonth } = summary;
  if (all.done + all.partly + all.notDone === 0) return ["Nothing is recorded of this plan yet."];
  return [
    "Recorded in all",
    `  ${"".padEnd(16)} ${"done".padStart(6)} ${"partly".padStart(6)} ${"not".padStart(6)} ${"trees".padStart(6)} ${"planned h".padStart(10)} ${"ratio".padStart(7)} ${"dose".padStart(7)}`,
    totalsLine("all", all),
    ...byCrew.map(({ crew, totals }) => totalsLine(crew, totals)),
    ...byMonth.map(({ month, totals }) => totalsLine(month, totals)),
    hoursLine(all),
    `  Still open: ${summary.openVisits} next visits, ${summary.openHours.toFixed(1)} crew-hours. Trees gone: ${summary.treesGone}. Reported beside the lists: ${summary.addedTrees} trees, ${summary.hazards} hazards.`,
  ];
}

const ratio = (value: number | null): string => (value === null ? "-" : value.toFixed(2));

const totalsLine = (name: string, one: WorkTotals): string =>
  `  ${name.padEnd(16)} ${String(one.done).padStart(6)} ${String(one.partly).padStart(6)} ${String(one.notDone).padStart(6)} ${String(one.trees).padStart(6)} ${one.plannedHours.toFixed(1).padStart(10)} ${ratio(one.hoursRatio).padStart(7)} ${ratio(one.doseRatio).padStart(7)}`;

function hoursLine({ reportedPersonHours, comparedPersonHours }: WorkTotals): string {
  if (reportedPersonHours === null)
    return "  No report told its hours. Ratio and dose compare what was reported with what was planned.";
  return `  Person-hours reported ${reportedPersonHours.toFixed(1)}, planned for the same visits ${comparedPersonHours.toFixed(1)}. Ratio and dose: reported over planned.`;
}
