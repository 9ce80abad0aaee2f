import { type OpenedPlan, openPlan } from "../formats/plan/open-plan.ts";
import type { PlanSource } from "../formats/plan/plan-source.ts";
import { pageTurns } from "./in-pieces.ts";
import { prepareIndex } from "./plan-index.ts";

/** Opens a plan with its look-ups, giving the page a turn now and then. Throws as `openPlan` does. */
export async function openForPage(source: PlanSource): Promise<OpenedPlan> {
  const turn = pageTurns();
  const opened = await openPlan(source, turn);
  await prepareIndex(opened, turn);
  return opened;
}
