import type { Finding } from "../core/model/finding.ts";
import { withThousands } from "../core/units/with-thousands.ts";

/** Findings of one group that are written out; the rest is counted. */
const EXAMPLES = 3;
/** Features that are named in one line beside the examples. */
const NAMES = 12;
const INDENT = " ".repeat(12);

/**
 * The findings of a file for people, in groups of one severity, code and field: errors first, then warnings, then the rest, each in the
 * order found. A group of more than a few shows three and then counts the others: of errors, which set features aside, every feature is
 * named, of the rest the first. Every finding is shown or counted, and the line that counts says where the rest stands.
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
  const isNamedInFull = severity === "error";
  const named = (isNamedInFull ? rest : rest.slice(0, NAMES)).flatMap(({ feature }) => feature ?? []);
  const names = named.map((name) => name.slice(0, 40));
  const what = field === null ? code : `${code} of ${field}`;
  const count = `${withThousands(group.length)} in all, ${withThousands(rest.length)} not written out here; --json lists all`;
  const which = isNamedInFull ? "The others" : `The first ${names.length} of the others`;
  return [
    ...group.slice(0, EXAMPLES).map(findingLine),
    `    ${severity.padEnd(7)} ${what}: ${count}.${names.length === 0 ? "" : ` ${which}: features`}`,
    ...inRows(names).map((row) => `${INDENT}${row}`),
  ];
}

function inRows(names: readonly string[]): string[] {
  const rows: string[] = [];
  for (let at = 0; at < names.length; at += NAMES) rows.push(names.slice(at, at + NAMES).join(", "));
  return rows;
}

function findingLine({ severity, code, feature, field, value, reason, whatToDo }: Finding): string {
  const where = [feature === null ? null : `feature ${feature}`, field, value === null ? null : JSON.stringify(value)];
  const place = where.filter((part) => part !== null).join(", ");
  return `    ${severity.padEnd(7)} ${code}: ${place === "" ? "" : `${place}: `}${reason} ${whatToDo}`;
}
