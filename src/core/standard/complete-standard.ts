import type { Finding } from "../model/finding.ts";
import { isMembers } from "./merge-members.ts";
import { parseStandard, usCommonSource } from "./parse-standard.ts";
import type { Standard } from "./standard.ts";
import { standardSchema } from "./standard-schema.ts";

/** A standard with the parts it lacked. */
export interface CompletedStandard {
  readonly standard: Standard;
  /** The whole standard as JSON; the very value given where nothing was lacking. */
  readonly json: unknown;
  readonly findings: readonly Finding[];
}

/** Lists of its own that a standard is never completed with: an added rule would find conflicts nobody asked for. */
const OWN: readonly PropertyKey[] = ["id", "title", "rules", "seasons"];

/**
 * A standard that an earlier version of the program wrote, with what it must have since then taken from the standard that all shipped ones are
 * made of, and a finding that says so; or its faults as sentences. Only members that are required and left out are filled: what is there stays,
 * and rules and seasons are never added. A standard that is whole comes back as it is.
 */
export function completeStandard(json: unknown): CompletedStandard | { faults: string[] } {
  let whole = json;
  const filled: string[] = [];
  for (;;) {
    const lacking = lackingIn(whole);
    if (lacking.length === 0) break;
    for (const path of lacking) {
      whole = filledAt(whole, path, valueAt(usCommonSource, path));
      filled.push(path.join("."));
    }
  }
  const parsed = parseStandard(whole);
  if ("faults" in parsed) return parsed;
  return {
    standard: parsed.standard,
    json: whole,
    findings: filled.length === 0 ? [] : [toldFilling(filled, parsed.standard)],
  };
}

/** Paths that the schema asks for, the standard leaves out and the shipped one has. */
function lackingIn(json: unknown): PropertyKey[][] {
  if (!isMembers(json)) return [];
  const { success, error } = standardSchema.safeParse(json);
  if (success) return [];
  return error.issues
    .filter(({ code }) => code === "invalid_type" || code === "invalid_union" || code === "invalid_value")
    .map(({ path }) => path)
    .filter((path) => path.length > 0 && !OWN.includes(path[0]!))
    .filter((path) => valueAt(json, path) === undefined && valueAt(usCommonSource, path) !== undefined);
}

function valueAt(json: unknown, path: readonly PropertyKey[]): unknown {
  let value = json;
  for (const name of path) {
    if (!isMembers(value) || !Object.hasOwn(value, name)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[name];
  }
  return value;
}

/** A copy of a value with another at a path, whose last member is put behind the others. */
function filledAt(json: unknown, [name, ...rest]: readonly PropertyKey[], value: unknown): unknown {
  if (name === undefined) return value;
  const members = json as Record<PropertyKey, unknown>;
  return { ...members, [name]: filledAt(members[name], rest, value) };
}

const toldFilling = (filled: readonly string[], standard: Standard): Finding => ({
  code: "standard-completed",
  severity: "warning",
  layer: "standard",
  file: null,
  feature: standard.id,
  field: null,
  value: filled.join(", ").slice(0, 256),
  reason: `"${standard.title}" was written before ${filled.length === 1 ? "a part" : "parts"} a standard must have now: ${filled.join(", ")}. They are taken from the common standard that ships.`,
  whatToDo: "Check these values in standard.json; for others plan anew with --standard.",
});
