import type { Finding } from "../model/finding.ts";
import { belowFloor } from "./below-floor.ts";
import { isMembers } from "./merge-members.ts";
import { mergeStandard } from "./merge-standard.ts";
import { nameFault } from "./name-faults.ts";
import { parseStandard, usCommon } from "./parse-standard.ts";
import { SHIPPED_STANDARDS, shippedStandard } from "./shipped-standards.ts";
import type { Standard } from "./standard.ts";
import { toldChanges } from "./told-changes.ts";

/** A standard ready for use. */
export interface ResolvedStandard {
  readonly standard: Standard;
  /** The whole standard as JSON with its `changes`, for the plan folder. */
  readonly json: unknown;
  readonly findings: readonly Finding[];
}

/**
 * The standard that a file stands for, or its faults as sentences: a whole standard as it is; one with `extends` merged into the shipped
 * standard it names, which may itself extend another.
 */
export function resolveStandard(given: unknown): ResolvedStandard | { faults: string[] } {
  const merged = wholeOf(given);
  if ("faults" in merged) return merged;
  const parsed = parseStandard(merged.json);
  if ("faults" in parsed) return parsed;
  const root = usCommon();
  const isOfRoot = parsed.standard.mergedFrom[0] === root.id;
  const findings = [...toldChanges(parsed.standard), ...belowFloor(parsed.standard, isOfRoot ? root : null)];
  return { ...parsed, json: merged.json, findings };
}

function wholeOf(given: unknown): { json: unknown } | { faults: string[] } {
  if (!isMembers(given) || !Object.hasOwn(given, "extends")) return { json: given };
  const name = given.extends;
  const extended = typeof name === "string" ? shippedStandard(name) : null;
  if (extended === null) {
    const known = SHIPPED_STANDARDS.map(({ id }) => id);
    return { faults: [nameFault("extends", "shipped standard", String(name), known)] };
  }
  const base = wholeOf(extended);
  if ("faults" in base) return base;
  const merged = mergeStandard(base.json, given);
  return "faults" in merged ? merged : { json: merged.merged };
}
