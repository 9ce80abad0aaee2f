import { acceptWork } from "../../core/accept-work.ts";
import type { CheckPreview } from "../../core/plan/acceptance/preview-checks.ts";
import { recordText } from "../../core/plan/record/record-lines.ts";
import { buildSurroundings } from "../../core/surroundings/build-surroundings.ts";
import { readLayerFiles } from "./layer-files.ts";
import type { OpenedRecord } from "./open-record.ts";
import type { PlanOutput } from "./plan-request.ts";
import { planRules } from "./plan-rules.ts";
import { RefusedInput } from "./refused-input.ts";
import { revisePlan } from "./revise-plan.ts";

/**
 * The next revision with the checks that a preview shows as `take`; null where that is nothing. Throws {@link RefusedInput} where a tree is to be reopened in a plan of an
 * earlier version, which kept no layers.
 */
export async function acceptPlan(
  { source, plan, record, words }: OpenedRecord,
  preview: readonly CheckPreview[],
  revision: number,
): Promise<PlanOutput | null> {
  if (!preview.some(({ status }) => status === "take")) return null;
  const rules = await planRules(source);
  const layers = await readLayerFiles(source);
  if (layers === null && plan.surroundings.length > 0) {
    throw new RefusedInput([
      "This plan was made by an earlier version, which kept no layers, so its trees cannot be measured anew.",
      'Make it anew with "boughline enrich" and the same files, then record.',
    ]);
  }
  const { surroundings } = buildSurroundings(layers ?? {}, rules.columns, rules.standard, plan.options);
  const work = acceptWork(plan, record, preview, revision, surroundings, rules.standard, words);
  const files = await revisePlan({ ...work.plan, revision }, source);
  files.set("record.jsonl", new TextEncoder().encode(recordText(work.record)));
  return { planId: plan.planId, revision, files, findings: work.plan.findings };
}
