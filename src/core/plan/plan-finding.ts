import type { Finding, Severity } from "../model/finding.ts";

/** A finding about a plan itself, as about what was reported or said of its trees; long values and reasons are cut. */
export const planFinding = (
  code: string,
  severity: Severity,
  feature: string | null,
  value: string,
  reason: string,
  whatToDo: string,
): Finding => ({
  code,
  severity,
  layer: "plan",
  file: null,
  feature,
  field: null,
  value: value.slice(0, 256),
  reason: reason.slice(0, 1000),
  whatToDo,
});
