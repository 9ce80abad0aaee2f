import type { GivenCheck } from "../../core/plan/acceptance/preview-checks.ts";
import { isCheckTable, readChecks } from "../../formats/acceptance/read-checks.ts";
import { COMPLETION_FILE_BYTES } from "../../formats/completion/completion-limits.ts";
import { sha256 } from "../../formats/sha256.ts";
import type { DeskController } from "../keep/desk-controller.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import { counted } from "../words.ts";

/** Bytes of a file's beginning that tell what it is. */
const LOOK_BYTES = 4096;
/** Faults told at once; the others show when these are mended. */
const MOST_FAULTS = 3;

/** Takes the tables of checks among files that were given to the page, all or none, and gives back the other files. Says what became of them. */
export async function takeCheckTables(
  given: readonly File[],
  hand: PlanInHand | null,
  desk: DeskController,
): Promise<File[]> {
  const areChecks = await Promise.all(given.map(isTableOfChecks));
  const tables = given.filter((_, at) => areChecks[at]);
  if (tables.length > 0) void takeTables(tables, hand, desk).then((sentence) => desk.tell(sentence));
  return given.filter((_, at) => !areChecks[at]);
}

async function isTableOfChecks(file: File): Promise<boolean> {
  if (!/\.(?:csv|tsv)$/i.test(file.name)) return false;
  return isCheckTable(new Uint8Array(await file.slice(0, LOOK_BYTES).arrayBuffer()));
}

/** What became of the tables, in words. */
async function takeTables(tables: readonly File[], hand: PlanInHand | null, desk: DeskController): Promise<string> {
  if (hand === null) return "This is a table of checks: open the plan first that it belongs to, then drop it again.";
  if (!desk.keep.canEdit) return "Another page has this plan: record the checks there.";
  if (desk.keep.edits.length > 0)
    return "Nothing was recorded: save the edits of the zones first, then drop the checks again.";
  try {
    const checks: GivenCheck[] = [];
    for (const file of tables) {
      const read = await readTable(file);
      if ("faults" in read) return refusal(file.name, read.faults);
      checks.push(...read.checks);
    }
    const { takeChecksIntoHand } = await import("./take-checks.ts");
    const reason = await takeChecksIntoHand({ hand, desk }, checks);
    if (reason !== null) return `Nothing was recorded. ${reason}`;
    const rework = checks.filter(({ result }) => result === "rework").length;
    const opened = rework === 0 ? "" : `, and ${counted(rework, "tree has", "trees have")} a new visit to be made good`;
    return `Recorded ${counted(checks.length, "check")}: ${checks.length - rework} passed${opened}.`;
  } catch (error) {
    return `Nothing was recorded. ${error instanceof Error ? error.message : String(error)}`;
  }
}

async function readTable(file: File): Promise<ReturnType<typeof readChecks>> {
  if (file.size > COMPLETION_FILE_BYTES) return { faults: ["It is too large for a table of checks."] };
  const bytes = new Uint8Array(await file.arrayBuffer());
  return readChecks(file.name, bytes, await sha256(bytes));
}

function refusal(name: string, faults: readonly string[]): string {
  const more = faults.length - MOST_FAULTS;
  const told = faults.slice(0, MOST_FAULTS).join(" ");
  return `${name} cannot be used, and nothing was recorded. ${told}${more > 0 ? ` And ${counted(more, "more fault")}.` : ""}`;
}
