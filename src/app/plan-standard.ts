import { completeStandard } from "../core/standard/complete-standard.ts";
import { usCommon } from "../core/standard/parse-standard.ts";
import type { Standard } from "../core/standard/standard.ts";
import type { PlanSource } from "../formats/plan/plan-source.ts";

/** The rules of a plan, the common ones where it keeps none. Throws Error when they cannot be read. */
export async function planStandard(source: PlanSource): Promise<Standard> {
  const bytes = await source.read("standard.json");
  if (bytes === null) return usCommon();
  const parsed = completeStandard(JSON.parse(new TextDecoder().decode(bytes)));
  if ("faults" in parsed) throw new Error(`The plan's standard cannot be used. ${parsed.faults.join(" ")}`);
  return parsed.standard;
}
