import type { Finding } from "../../core/model/finding.ts";

/** What is wrong with one feature, before it is known which one it is. */
export type FeatureFault = Pick<Finding, "code" | "severity" | "field" | "value" | "reason" | "whatToDo">;

const MAX_VALUE = 256;

/** An error that sets the feature aside. */
export const featureFault = (
  code: string,
  field: string | null,
  value: unknown,
  reason: string,
  whatToDo: string,
): FeatureFault => ({ code, severity: "error", field, value: shortText(value), reason, whatToDo });

/** A value as text of at most 256 characters; arrays and objects are named, not written out. Null for an absent value. */
export function shortText(value: unknown): string | null {
  if (value === undefined || value === null) return null;
  if (Array.isArray(value)) return `array of ${value.length}`;
  if (typeof value === "object") return "object";
  return String(value).slice(0, MAX_VALUE);
}
