import type { ResolvedStandard } from "../../core/standard/resolve-standard.ts";
import { layersOf } from "../plan/plan-inputs.ts";
import type { ReadRun } from "../plan/read-run.ts";
import type { EarlierPlan } from "./earlier-plan.ts";
import { startCarrying } from "./start-carrying.ts";

/** A run that was read, as the next revision of an earlier plan. Throws `RefusedInput` when that plan's files cannot be used. */
export async function carriedRun(run: ReadRun, earlier: EarlierPlan, rules: ResolvedStandard): Promise<ReadRun> {
  const { facts, ground, trees, columns, around } = run;
  const carrying = await startCarrying(earlier, {
    trees,
    columns,
    rules,
    inputs: facts.inputs,
    options: facts.options,
    layers: layersOf(run.reads.map((read) => ({ read }))),
    surroundings: { ...ground.surroundings, features: around },
  });
  return {
    ...run,
    carrying,
    trees: carrying.trees,
    facts: { ...facts, planId: carrying.planId },
    ground: { ...ground, firstSeen: carrying.firstSeen },
  };
}
