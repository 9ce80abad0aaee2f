import type { PlanInputs } from "../../core/exchange-input.ts";
import { readRecord } from "../../core/plan/record/record-lines.ts";
import { readWords } from "../../core/plan/word/word-lines.ts";
import { readLayerFiles } from "../plan/layer-files.ts";
import { openPlanAlone } from "../plan/open-plan.ts";
import { planRules } from "../plan/plan-rules.ts";
import { memorySource } from "../plan/plan-source.ts";
import { RefusedInput } from "../plan/refused-input.ts";

/**
 * A revision with all that it was made of, from its files. Throws {@link RefusedInput} when they cannot be used, as those of an early version cannot,
 * which kept no layers.
 */
export async function openInputs(files: ReadonlyMap<string, Uint8Array>): Promise<PlanInputs> {
  const source = memorySource(files);
  const plan = await opened(files);
  const { standard, json, columns } = await planRules(source);
  const layers = await readLayerFiles(source);
  if (layers === null && plan.surroundings.length > 0) {
    throw new RefusedInput([
      "The earlier plan was made by a version that kept no layers, so nobody can tell what changes are due to.",
      'Make it anew with "boughline enrich", the same files and --as-of, then carry it on.',
    ]);
  }
  const text = (name: string): string => new TextDecoder().decode(files.get(name) ?? new Uint8Array());
  return {
    plan,
    standard,
    standardJson: json,
    columns,
    layers: layers ?? {},
    record: readRecord(text("record.jsonl")),
    words: readWords(text("words.jsonl")),
  };
}

async function opened(files: ReadonlyMap<string, Uint8Array>): Promise<PlanInputs["plan"]> {
  try {
    return await openPlanAlone(memorySource(files));
  } catch (error) {
    throw new RefusedInput([`The earlier plan cannot be read: ${(error as Error).message}.`]);
  }
}
