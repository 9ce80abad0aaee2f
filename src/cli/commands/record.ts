import { stat } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import type { Command } from "commander";
import type { RecordPreview } from "../../core/plan/record/record-preview.ts";
import { previewWords } from "../../core/plan/word/preview-words.ts";
import {
  type CompletionFile,
  type ReadCompletions,
  readCompletions,
} from "../../formats/completion/read-completions.ts";
import { type OpenedRecord, openRecord } from "../../formats/plan/open-record.ts";
import {
  previewRecordPlan,
  type RecordDecisions,
  type RecordOutput,
  recordedSummary,
  recordPlan,
  wordsGiven,
} from "../../formats/plan/record-plan.ts";
import { RefusedInput } from "../../formats/plan/refused-input.ts";
import { isWordTable } from "../../formats/word/read-words-csv.ts";
import { carriedExports } from "../carried-exports.ts";
import { EXIT, inputError, usageError } from "../exit-codes.ts";
import { exportRequest, exportRevision } from "../export-options.ts";
import { openPlanFolder } from "../folder/plan-folder.ts";
import { REVISIONS } from "../folder/read-current.ts";
import { currentSource, folderSource } from "../folder-source.ts";
import { printable } from "../printable.ts";
import type { SetExit } from "../program.ts";
import { readInput } from "../read-input.ts";
import { areChecks, printCheckSheet, recordChecks } from "../record-checks.ts";
import { recordJson } from "../record-json.ts";
import { recordText } from "../record-text.ts";
import { readWordFiles, toldWords, type WordFiles, wordsTaken } from "../record-words.ts";
import { stopCleanly } from "../stop-cleanly.ts";

/** Options of `record`. */
export interface RecordOptions {
  readonly preview?: boolean;
  readonly take?: string[];
  readonly checks?: boolean;
  readonly json?: boolean;
}

/** Adds `boughline record DIR FILE...`: takes what crews report back into the plan. */
export function addRecord(program: Command, setExit: SetExit): void {
  program
    .command("record")
    .description("Take crews' reports into the plan: the phone page's files, tables written by hand, or zips of them")
    .argument("<dir>", "plan folder")
    .argument(
      "[files...]",
      "reports: .json from the phone page, .csv by hand (of work, of checks of finished work, or of arborists' words), .zip of several; none prints what is recorded",
    )
    .option("--preview", "show what would be taken and change nothing")
    .option(
      "--take <visit>",
      "take a visit that is shown as a conflict or waits for a decision; VISIT=REPORT where several files report it; may be repeated",
      (visit: string, earlier?: string[]) => [...(earlier ?? []), visit],
    )
    .option("--checks", "print the trees of finished zones that are to be checked, as a table to fill in and record")
    .option("--json", "print the preview and the summary as JSON")
    .action(async (dir: string, files: string[], options: RecordOptions) => {
      setExit(await record(dir, files, options));
    });
}

/** Runs `record`; gives the exit code. Throws CommandError when there is no plan, and CannotWriteError when the folder cannot be written. */
export async function record(dir: string, paths: readonly string[], options: RecordOptions): Promise<number> {
  const decisions = decisionsOf(options.take ?? []);
  try {
    // Before the folder is opened for writing, which would make a missing one.
    await currentSource(dir);
    const all = await readFiles(paths);
    const files = all.filter(({ bytes }) => !isWordTable(bytes));
    const words = await readWordFiles(all.filter(({ bytes }) => isWordTable(bytes)));
    if (options.checks === true) {
      await printCheckSheet(await opened(dir));
      return EXIT.done;
    }
    if (areChecks(files) && all.length > files.length)
      throw usageError("Record words first, then checks: not both in one run.");
    if (areChecks(files)) return await recordChecks(dir, files, () => opened(dir), options);
    if (options.preview === true || all.length === 0) return await show(dir, files, decisions, options, words);
    return await take(dir, files, decisions, options, words);
  } catch (error) {
    if (error instanceof RefusedInput) throw inputError(error.sentences.join("\n"));
    throw error;
  }
}

const opened = async (dir: string) =>
  openRecord(await currentSource(dir), (revision) => folderSource(join(resolve(dir), REVISIONS, String(revision))));

async function show(
  dir: string,
  files: readonly CompletionFile[],
  decisions: RecordDecisions,
  options: RecordOptions,
  words: WordFiles,
): Promise<number> {
  const plan = await opened(dir);
  const read = await readCompletions(files, plan.plan, plan.record);
  const preview = await previewRecordPlan(plan, read.given, decisions);
  checkDecisions(decisions, preview);
  const told = { read, preview, summary: await recordedSummary(plan), taken: null, words: toldOf(plan, read, words) };
  print(told, plan.plan.options.units, dir, options);
  return exitCode(read, preview);
}

async function take(
  dir: string,
  files: readonly CompletionFile[],
  decisions: RecordDecisions,
  options: RecordOptions,
  words: WordFiles,
): Promise<number> {
  const folder = await openPlanFolder(dir, { replace: true });
  const stopping = stopCleanly(() => folder.close());
  try {
    // Read under the lock, so that no other run makes a revision in between.
    const plan = await opened(dir);
    const read = await readCompletions(files, plan.plan, plan.record);
    const preview = await previewRecordPlan(plan, read.given, decisions);
    checkDecisions(decisions, preview);
    const isRefused = exitCode(read, preview) !== EXIT.done;
    const output = isRefused ? null : await recordPlan(plan, read.given, decisions, folder.nextRevision, words.given);
    if (output !== null) {
      const exporting = await carriedExports(exportRequest({}), {}, plan.source);
      const { files: all } = await exportRevision(output.files, exporting);
      await folder.commit(all, {
        plan: output.planId,
        as_of: plan.plan.options.asOf,
        event: "record",
        reports: reportsOf(output),
        ...wordsTaken(output.words),
      });
    }
    const summary = output?.summary ?? (await recordedSummary(plan));
    print(
      { read, preview, summary, taken: output, words: toldOf(plan, read, words) },
      plan.plan.options.units,
      dir,
      options,
    );
    return exitCode(read, preview);
  } finally {
    stopping.release();
    folder.close();
  }
}

/** What becomes of the words given, those that reports bring first. */
const toldOf = (plan: OpenedRecord, { given }: ReadCompletions, words: WordFiles) =>
  toldWords(previewWords(plan.plan, plan.words, wordsGiven(given, words.given)), words);

/** The files taken, for the history. */
const reportsOf = ({ preview }: RecordOutput) =>
  preview.files.flatMap(({ status, file, sha256, completion }) =>
    status === "take" ? [{ file, sha256, report: completion.reportId, zone: completion.zoneId }] : [],
  );

/** A file that is refused refuses the run: nothing of it and of the others is taken. */
const exitCode = ({ refused }: ReadCompletions, { files }: RecordPreview): number =>
  refused.length > 0 || files.some(({ status }) => status === "refused") ? EXIT.inputRefused : EXIT.done;

async function readFiles(paths: readonly string[]): Promise<CompletionFile[]> {
  const files: CompletionFile[] = [];
  for (const path of paths) {
    const bytes = await readInput(path);
    const modifiedAt = `${(await stat(path)).mtime.toISOString().slice(0, 19)}Z`;
    files.push({ name: basename(path), bytes, modifiedAt });
  }
  return files;
}

/** Decisions by visit. A report's id stands behind the last `=`; a tree's own id may hold one, but never behind its `/v`. */
function decisionsOf(take: readonly string[]): RecordDecisions {
  const decisions = new Map<string, string | null>();
  for (const one of take) {
    const at = one.lastIndexOf("=");
    const isReport = at > one.lastIndexOf("/v") && one.includes("/v");
    const visit = isReport ? one.slice(0, at) : one;
    if (decisions.has(visit)) throw usageError(`--take names ${visit.slice(0, 80)} twice.`);
    decisions.set(visit, isReport ? one.slice(at + 1) : null);
  }
  return decisions;
}

function checkDecisions(decisions: RecordDecisions, { visits }: RecordPreview): void {
  for (const [visitId, reportId] of decisions) {
    if (visits.some((one) => one.visitId === visitId && (reportId === null || one.reportId === reportId))) continue;
    const from = reportId === null ? "" : ` in report ${reportId.slice(0, 80)}`;
    throw usageError(`--take: none of the files has visit ${visitId.slice(0, 80)}${from}.`);
  }
}

function print(
  told: Parameters<typeof recordText>[0],
  units: "us" | "metric",
  dir: string,
  { json }: RecordOptions,
): void {
  process.stdout.write(
    printable(json === true ? `${JSON.stringify(recordJson(told))}\n` : recordText(told, units, dir)),
  );
}
