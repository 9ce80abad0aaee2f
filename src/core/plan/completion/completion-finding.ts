import type { Finding, Severity } from "../../model/finding.ts";

/** A finding about a completion; the value is cut to 256 characters. */
export const completionFinding = (
  code: string,
  severity: Severity,
  feature: string | null,
  field: string,
  value: string,
  words: { readonly reason: string; readonly whatToDo: string },
): Finding => ({
  code,
  severity,
  layer: "plan",
  file: null,
  feature,
  field,
  value: value.slice(0, 256),
  ...words,
});
