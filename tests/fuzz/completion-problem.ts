import type { Completion } from "../../src/core/plan/completion/completion.ts";
import { previewRecord } from "../../src/core/plan/record/preview-record.ts";
import { takeIntoRecord } from "../../src/core/plan/record/take-record.ts";
import { EMPTY_RECORD } from "../../src/core/plan/record/work-record.ts";
import { readCompletions } from "../../src/formats/completion/read-completions.ts";
import { smallPlan, smallZone } from "../core/packet/small-plan.ts";
import { reported, sampleCompletion } from "../core/plan/completion/sample-completion.ts";
import { mutateBytes } from "./mutate-bytes.ts";
import { mutateJson } from "./mutate-json.ts";
import type { Random } from "./random.ts";

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const TABLE = [
  "tree,outcome,reason,date,who,crown_base_after_ft,dose_taken_pct,notes",
  ...smallZone.treeIds.slice(0, 3).map((id) => `${id},partly,weather,2027-03-12,"R. ""Alder""",15,12,'=1+1`),
].join("\r\n");

/** A damaged report: of the phone page's JSON its bytes or its tree of values, or the bytes of a table. */
export function damagedReport(random: Random): Uint8Array {
  if (random(4) === 0) return mutateBytes(bytesOf(TABLE), random);
  if (random(2) === 0) return mutateBytes(bytesOf(JSON.stringify(sampleCompletion)), random);
  const value = mutateJson(sampleCompletion, random);
  return bytesOf(JSON.stringify(value) ?? "");
}

/**
 * What a damaged report breaks of what is promised, or null: it is read or refused with reasons, never half; what is read says what the file says; the
 * preview counts every entry; what it takes is there the second time. Throws nothing.
 */
export async function completionProblem(bytes: Uint8Array): Promise<string | null> {
  try {
    const { given, refused } = await readCompletions([{ name: "report", bytes }], smallPlan);
    if (given.length > 0 === refused.length > 0) return "neither read nor refused";
    if (refused.some(({ faults }) => faults.length === 0 || faults.some((fault) => fault.trim() === "")))
      return "refused without a reason";
    if (({} as { polluted?: unknown }).polluted !== undefined) return "the prototype was changed";
    for (const { completion } of given) {
      if (completion.appVersion !== "by hand" && !isAsWritten(completion, bytes))
        return "read as something else than it says";
    }
    const input = { plan: smallPlan, record: EMPTY_RECORD, given, earlier: new Map(), decisions: new Map() };
    const preview = previewRecord(input);
    const counted = Object.values(preview.totals).reduce((sum, count) => sum + count, 0);
    if (counted !== preview.visits.length) return "the preview does not count every entry";
    if (preview.visits.some(({ status, becomes }) => (status === "take") !== (becomes !== null)))
      return "a visit is taken without a line";
    const { record } = takeIntoRecord(smallPlan, EMPTY_RECORD, preview, smallPlan.revision + 1);
    if (previewRecord({ ...input, record }).changesAnything) return "taken again the second time";
    return null;
  } catch (error) {
    return `threw ${String(error).slice(0, 200)}`;
  }
}

/** Whether a completion is, member for member, the value that the file's JSON has. */
function isAsWritten(completion: Completion, bytes: Uint8Array): boolean {
  const text = new TextDecoder().decode(bytes);
  return JSON.stringify(sorted(completion)) === JSON.stringify(sorted(JSON.parse(text)));
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== "object" || value === null) return value;
  return Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, held]) => [key, sorted(held)]);
}

/** An undamaged report, to show that one passes. */
export const soundReport = (): Uint8Array =>
  bytesOf(JSON.stringify({ ...sampleCompletion, visits: [reported(0), reported(1)] }));
