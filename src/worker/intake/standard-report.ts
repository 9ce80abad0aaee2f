import { resolveStandard } from "../../core/standard/resolve-standard.ts";
import { SHIPPED_STANDARDS, shippedStandard } from "../../core/standard/shipped-standards.ts";
import type { ClearanceRule, Standard } from "../../core/standard/standard.ts";
import type { StandardChoice, StandardReport } from "./intake-messages.ts";

/** The standard a choice comes to, what the city's values change in it, and where they are below a legal floor; a standard to go on with is null where it cannot be used. */
export function standardReport(choice: StandardChoice): { report: StandardReport; standard: Standard | null } {
  const isWhole = isObject(choice.own) && !Object.hasOwn(choice.own, "extends");
  const json = jsonOf(choice, isWhole);
  const resolved = resolveStandard(json ?? shippedStandard(choice.base));
  if ("faults" in resolved) {
    const report = { ...EMPTY, isWhole, faults: resolved.faults, json };
    return { report, standard: null };
  }
  const { standard, findings } = resolved;
  return {
    standard,
    report: {
      ...EMPTY,
      title: standard.title,
      isWhole,
      changes: standard.changes,
      warnings: findings,
      rules: standard.rules.map(ruleOf),
      json,
    },
  };
}

const EMPTY: StandardReport = {
  shipped: SHIPPED_STANDARDS,
  title: "",
  isWhole: false,
  changes: [],
  warnings: [],
  faults: [],
  rules: [],
  json: null,
};

function jsonOf({ base, own }: StandardChoice, isWhole: boolean): unknown {
  if (own !== null) return isWhole || !isObject(own) ? own : { ...own, extends: base };
  return base === SHIPPED_STANDARDS[0]?.id ? null : shippedStandard(base);
}

const ruleOf = ({ id, protects, published, publishedClearTo, source }: ClearanceRule) => ({
  id,
  protects,
  minimum: published,
  clearTo: publishedClearTo,
  source: [source.title, source.edition, source.section].filter((part) => part !== null).join(", "),
});

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
