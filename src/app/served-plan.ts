import { openPlan } from "../formats/plan/open-plan.ts";
import { urlSource } from "../formats/plan/plan-source.ts";
import { type PlanInHand, planName } from "./plan-in-hand.ts";

/**
 * The plan served beside the page, or null where there is none: no `plan.json`, or one that holds only `null`, as the page's own
 * folder does; called `name`, or as its tree file. Throws Error when a plan is there but cannot be opened.
 */
export async function servedPlan(name: string | null): Promise<PlanInHand | null> {
  const source = urlSource("./plan/current/");
  const manifest = await source.read("plan.json");
  if (manifest === null || new TextDecoder().decode(manifest.slice(0, 16)).trim() === "null") return null;
  const opened = await openPlan(source);
  return { opened, source, files: null, name: name ?? planName(opened) };
}
