import type { InputFile } from "../../core/model/plan.ts";
import { sha256 } from "../sha256.ts";
import type { PlanRequest } from "./plan-request.ts";

/** Length of a plan id: 48 bits, so that two plans of one city meet about once in ten million. */
const PLAN_ID_LENGTH = 12;

/** Name of a plan: a digest of everything that decides it, so that the same run has the same name on any machine. */
export async function planIdOf(
  request: PlanRequest,
  inputs: readonly InputFile[],
  standardJson: unknown,
): Promise<string> {
  const facts = {
    inputs: inputs.map(({ layer, filter, sha256: digest }) => [layer, filter, digest]),
    columns: request.columns,
    standard: standardJson,
    options: request.options,
    crs: request.crs,
  };
  return (await sha256(new TextEncoder().encode(JSON.stringify(facts)))).slice(0, PLAN_ID_LENGTH);
}
