import type { Finding } from "../core/model/finding.ts";
import { withThousands } from "../core/units/with-thousands.ts";

/** Findings of one group that are written out; the rest is counted. */
const EXAMPLES = 3;
/** Features that are named in one line beside the examples. */
const NAMES = 12;

/**
 * The findings of a file for people, in groups of one severity, code and field: errors first, then warnings, then the rest, each in the
 * order found. A group of more than a few shows three and then counts and names others. Every finding is shown or counted, and the line
 * that counts says where the rest stands.
 */
export function findingGroupLines(findings: readonly Finding[]): string[] {
  return (["error", "warning", "info"] as const).flatMap((severity) => {
    const groups = new Map<string, Finding[]>();
    for (const finding of findings) {
      if (finding.severity !== severity) continue;
      const key = `${finding.code}\n${finding.field ?? ""}`;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [finding]);
      else group.push(finding);
    }
    return [...groups.values()].flatMap(groupLines);
  });
}

function groupLines(group: readonly Finding[]): string[] {
  const { severity, code, field } = group[0]!;
  const rest = group.slice(EXAMPLES);
  // One more takes no more room than the line that says so.
  if (rest.length <= 1) return group.map(findingLine);
  const names = rest.slice(0, NAMES).flatMap(({ feature }) => (feature === null ? [] : [feature.slice(0, 40)]));
  const which = names.length === 0 ? "" : `: features ${names.join(", ")}${rest.length > names.length ? " ..." : ""}`;
  const what = field === null ? code : `${code} of ${field}`;
  return [
    ...group.slice(0, EXAMPLES).map(findingLine),
    `    ${severity.padEnd(7)} ${what}: ${withThousands(group.length)} in all, ${withThousands(rest.length)} not written out here${which}; --json lists all`,
  ];
}

function findingLine({ severity, code, feature, field, value, reason, whatToDo }: Finding): string {
  const where = [feature === null ? null : `feature ${feature}`, field, value === null ? null : JSON.stringify(value)];
  const place = where.filter((part) => part !== null).join(", ");
  return `    ${severity.padEnd(7)} ${code}: ${place === "" ? "" : `${place}: `}${reason} ${whatToDo}`;
}
