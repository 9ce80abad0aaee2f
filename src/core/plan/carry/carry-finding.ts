import type { Finding, Severity } from "../../model/finding.ts";

/** Beginning of the codes of what carrying a plan on leaves for somebody to look at. */
export const CARRY_FINDINGS = "carry-";

/** A finding about a tree, a zone or the plan as it was carried on. */
export const carryFinding = (
  code: `carry-${string}`,
  severity: Severity,
  layer: "trees" | "plan",
  feature: string | null,
  value: string | null,
  reason: string,
  whatToDo: string,
): Finding => ({
  code,
  severity,
  layer,
  file: null,
  feature,
  field: null,
  value: value?.slice(0, 256) ?? null,
  reason: reason.slice(0, 1000),
  whatToDo,
});
