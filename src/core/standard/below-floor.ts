import type { Finding } from "../model/finding.ts";
import { approachDistanceM } from "./approach-distance.ts";
import type { ClearanceRule, Source, Standard } from "./standard.ts";

/** Two texts of one length, "80 in" and "6 ft 8 in", may differ by the last bit. */
const SAME_M = 1e-9;

/**
 * A warning `below-legal-floor` for every minimum, hazard height and approach distance of a standard that is below the law's least, as its
 * own rules or those of the standard it was made of say it. Such a standard is used as given: whose law holds is for people to decide.
 */
export function belowFloor(standard: Standard, madeOf: Standard | null): Finding[] {
  const findings = standard.rules.flatMap((rule) => {
    const before = madeOf?.rules.find(({ id }) => id === rule.id)?.floor ?? null;
    const floor =
      before !== null && (rule.floor === null || before.minimumM > rule.floor.minimumM) ? before : rule.floor;
    if (floor === null) return [];
    const found: Finding[] = [];
    if (rule.minimumM < floor.minimumM - SAME_M) {
      found.push(finding(rule.id, "minimum", rule.published, `The minimum of ${rule.published}`, floor));
    }
    if (rule.hazard === null || rule.hazard.belowM < floor.minimumM - SAME_M) {
      found.push(finding(rule.id, "hazard", null, "The height or distance that starts a deadline", floor));
    }
    return found;
  });
  return madeOf === null ? findings : [...findings, ...approachFindings(standard, madeOf)];
}

function finding(
  feature: string,
  field: string,
  value: string | null,
  what: string,
  floor: NonNullable<ClearanceRule["floor"]>,
): Finding {
  return warning(
    feature,
    field,
    value,
    `${what} is below the legal floor of ${floor.published} (${named(floor.source)}).`,
  );
}

function approachFindings(standard: Standard, madeOf: Standard): Finding[] {
  const tops = [...standard.conductor.approach, ...madeOf.conductor.approach].map(({ upToV }) => upToV);
  const nearer = [...tops, null].filter(
    (voltageV) => approachDistanceM(standard, voltageV) < approachDistanceM(madeOf, voltageV) - SAME_M,
  );
  if (nearer.length === 0) return [];
  const { source } = madeOf.conductor;
  const reason = `A worker approach distance is shorter than the legal one (${named(source)}).`;
  return [warning("conductor", "approach", null, reason)];
}

function warning(feature: string, field: string, value: string | null, reason: string): Finding {
  return {
    code: "below-legal-floor",
    severity: "warning",
    layer: "standard",
    file: null,
    feature,
    field,
    value,
    reason,
    whatToDo: "Raise it to the floor, or make sure that the law which holds there allows less and give its source.",
  };
}

const named = ({ title, edition, section }: Source): string =>
  [title, edition, section].filter((part) => part !== null).join(", ");
