import { type CheckPreview, previewChecks } from "../core/plan/acceptance/preview-checks.ts";
import { type ZoneAcceptance, zoneAcceptance } from "../core/plan/acceptance/zone-acceptance.ts";
import type { AcceptanceRules } from "../core/standard/notice-rules.ts";
import { checkSheet } from "../formats/acceptance/check-sheet.ts";
import { isCheckTable, readChecks } from "../formats/acceptance/read-checks.ts";
import type { CompletionFile } from "../formats/completion/read-completions.ts";
import { acceptPlan } from "../formats/plan/accept-plan.ts";
import type { OpenedRecord } from "../formats/plan/open-record.ts";
import { planRules } from "../formats/plan/plan-rules.ts";
import { sha256 } from "../formats/sha256.ts";
import { carriedExports } from "./carried-exports.ts";
import { EXIT, inputError, usageError } from "./exit-codes.ts";
import { exportRequest, exportRevision } from "./export-options.ts";
import { openPlanFolder } from "./folder/plan-folder.ts";
import { printable } from "./printable.ts";
import { stopCleanly } from "./stop-cleanly.ts";

/** Whether files are checks of finished work. Throws CommandError (wrong usage) where some are and some are crews' reports. */
export function areChecks(files: readonly CompletionFile[]): boolean {
  const checks = files.filter(({ bytes }) => isCheckTable(bytes));
  if (checks.length === 0) return false;
  if (checks.length === files.length) return true;
  throw usageError("Record crews' reports first, then checks of their work: not both in one run.");
}

/** Prints the trees of finished zones that are still to be checked, as a table to fill in. */
export async function printCheckSheet({ plan, record, source }: OpenedRecord): Promise<void> {
  const { acceptance } = (await planRules(source)).standard;
  process.stdout.write(checkSheet(plan, record, zonesToCheck({ plan, record }), acceptance));
}

/** Zones whose work is finished. */
const zonesToCheck = ({ plan }: Pick<OpenedRecord, "plan" | "record">): string[] =>
  plan.zones.filter(({ state }) => state === "done").map(({ zoneId }) => zoneId);

/** Shows what checks would change, or takes them as the plan's next revision, whole or not at all; gives the exit code. */
export async function recordChecks(
  dir: string,
  files: readonly CompletionFile[],
  opened: () => Promise<OpenedRecord>,
  options: { readonly preview?: boolean; readonly json?: boolean },
): Promise<number> {
  const given = [];
  for (const { name, bytes } of files) {
    const read = readChecks(name, bytes, await sha256(bytes));
    if ("faults" in read) throw inputError([`${name} cannot be used.`, ...read.faults].join("\n"));
    given.push(...read.checks);
  }
  const show = (of: OpenedRecord, preview: readonly CheckPreview[], rules: AcceptanceRules, taken: number | null) => {
    const zoneIds = [...new Set(preview.flatMap(({ check }) => check?.zoneId ?? []))];
    const zones = zoneIds.map((zoneId) => zoneAcceptance(of.plan.planId, zoneId, of.record, rules));
    const told =
      options.json === true
        ? `${JSON.stringify({ checks: preview, taken_into: taken })}\n`
        : textOf(preview, zones, taken);
    process.stdout.write(printable(told));
    return preview.some(({ status }) => status === "refused") ? EXIT.inputRefused : EXIT.done;
  };
  if (options.preview === true) {
    const plan = await opened();
    const { acceptance } = (await planRules(plan.source)).standard;
    return show(plan, previewChecks(given, plan.record), acceptance, null);
  }
  const folder = await openPlanFolder(dir, { replace: true });
  const stopping = stopCleanly(() => folder.close());
  try {
    const plan = await opened();
    const { acceptance } = (await planRules(plan.source)).standard;
    const preview = previewChecks(given, plan.record);
    const isRefused = preview.some(({ status }) => status === "refused");
    const output = isRefused ? null : await acceptPlan(plan, preview, folder.nextRevision);
    if (output === null) return show(plan, preview, acceptance, null);
    const exporting = await carriedExports(exportRequest({}), {}, plan.source);
    const { files: all } = await exportRevision(output.files, exporting);
    await folder.commit(all, { plan: output.planId, as_of: plan.plan.options.asOf, event: "check" });
    return show(await opened(), preview, acceptance, output.revision);
  } finally {
    stopping.release();
    folder.close();
  }
}

function textOf(preview: readonly CheckPreview[], zones: readonly ZoneAcceptance[], taken: number | null): string {
  const lines = preview.map(
    ({ file, line, status, reason, check }) =>
      `${status.padEnd(14)}${check === null ? `${file}, line ${line}` : check.visitId}: ${reason}`,
  );
  if (preview.some(({ status }) => status === "refused"))
    lines.push("Nothing was recorded: correct the rows that are refused.");
  else if (taken !== null) {
    lines.push(`Recorded as revision ${taken}.`, ...zones.map(zoneLine));
  } else if (preview.every(({ status }) => status === "already-taken")) lines.push("Nothing is new.");
  return `${lines.join("\n")}\n`;
}

const zoneLine = ({ zoneId, finished, trees, passed, toCheck, rework, isAccepted }: ZoneAcceptance): string =>
  `${zoneId}: ${finished} trees finished, ${trees.length} to check, ${passed} passed, ${rework} to be made good, ${toCheck} not looked at yet${isAccepted ? "; accepted" : ""}.`;
