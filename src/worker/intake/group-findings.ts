import type { Finding } from "../../core/model/finding.ts";
import type { FindingGroup } from "./intake-messages.ts";

const MOST_FEATURES = 5;
const ORDER = { error: 0, warning: 1, info: 2 };

/** Findings of one code, severity and field as one group, the severest first, then the most frequent, then the first. */
export function groupFindings(findings: readonly Finding[]): FindingGroup[] {
  const groups = new Map<string, { example: Finding; count: number; features: string[] }>();
  for (const finding of findings) {
    const key = `${finding.code}\n${finding.severity}\n${finding.field ?? ""}`;
    const group = groups.get(key) ?? { example: finding, count: 0, features: [] };
    group.count += 1;
    if (finding.feature !== null && group.features.length < MOST_FEATURES) group.features.push(finding.feature);
    groups.set(key, group);
  }
  return [...groups.values()]
    .map(({ example, count, features }) => ({
      code: example.code,
      severity: example.severity,
      count,
      example,
      features,
    }))
    .sort((one, other) => ORDER[one.severity] - ORDER[other.severity] || other.count - one.count);
}
