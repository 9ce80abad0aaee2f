import type { Layer } from "./terms.ts";

export const SEVERITIES = ["info", "warning", "error"] as const;
/** `error`: the feature or value could not be used. `warning`: used, with doubt. `info`: worth knowing. */
export type Severity = (typeof SEVERITIES)[number];

/** One thing found in the input or the plan that a person should know. The only such type in the project. */
export interface Finding {
  /** Stable, kebab-case, for example `crown-base-above-top`. */
  readonly code: string;
  readonly severity: Severity;
  readonly layer: Layer | "plan" | "standard" | "columns";
  readonly file: string | null;
  /** The id in the column that feeds `id` (of a tree its id in the plan), else the feature's own id, else `#<index>` counted from 0 in its file. */
  readonly feature: string | null;
  readonly field: string | null;
  /** The offending value as text, at most 256 characters. */
  readonly value: string | null;
  /** What is wrong, one plain sentence. */
  readonly reason: string;
  /** What the reader can do about it, one plain sentence. */
  readonly whatToDo: string;
}

/** Whether a severity is at least another. */
export const isAtLeast = (severity: Severity, threshold: Severity): boolean =>
  SEVERITIES.indexOf(severity) >= SEVERITIES.indexOf(threshold);
