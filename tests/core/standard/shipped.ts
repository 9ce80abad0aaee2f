import { resolveStandard } from "../../../src/core/standard/resolve-standard.ts";
import { shippedStandard } from "../../../src/core/standard/shipped-standards.ts";
import type { ClearanceRule, Standard } from "../../../src/core/standard/standard.ts";

/** A shipped standard, merged. Throws Error where it is faulty or not there. */
export function shipped(id: string): Standard {
  const resolved = resolveStandard(shippedStandard(id));
  if ("faults" in resolved) throw new Error(resolved.faults.join("; "));
  return resolved.standard;
}

/** A rule of a standard by its id. Throws Error where there is none. */
export function ruleOf(standard: Standard, id: string): ClearanceRule {
  const rule = standard.rules.find((one) => one.id === id);
  if (rule === undefined) throw new Error(`Expected a rule ${id} in ${standard.id}`);
  return rule;
}
