import { inspectFirst } from "../../core/inspect-first.ts";
import { inspectionRounds } from "../../core/inspection-rounds.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { InspectStop } from "../../core/plan/inspect/inspect-stop.ts";
import { INSPECT_COLUMNS, inspectRows } from "../../core/plan/inspect/inspect-table.ts";
import { buildSurroundings } from "../../core/surroundings/build-surroundings.ts";
import { writeCsv } from "../csv.ts";
import { readLayerFiles } from "./layer-files.ts";
import { planRules } from "./plan-rules.ts";
import type { PlanSource } from "./plan-source.ts";

/** What a plan asks to be inspected first. */
export interface InspectionOfPlan {
  readonly stops: readonly InspectStop[];
  /** The rounds as zones of a plan made for packets; see `inspectionRounds`. */
  readonly rounds: Plan;
  readonly csv: string;
}

/** The trees of a plan to inspect, in rounds, with what settles each question where the plan keeps its layers. `onShare` is told how much is settled. */
export async function inspectPlan(
  source: PlanSource,
  plan: Plan,
  onShare: (share: number) => void = () => {},
): Promise<InspectionOfPlan> {
  const { standard, columns } = await planRules(source);
  const layers = await readLayerFiles(source);
  const surroundings = layers === null ? null : buildSurroundings(layers, columns, standard, plan.options).surroundings;
  const stops = inspectFirst(plan, surroundings, standard, onShare);
  const rounds = inspectionRounds(plan, stops, standard);
  return { stops, rounds, csv: writeCsv(INSPECT_COLUMNS, inspectRows(rounds, stops)) };
}
