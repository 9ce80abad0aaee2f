import { type Finding, SEVERITIES, type Severity } from "../../core/model/finding.ts";

/** Findings of one code, which share their meaning and remedy. */
export interface FindingGroup {
  readonly code: string;
  /** The worst among them. */
  readonly severity: Severity;
  readonly findings: readonly Finding[];
}

/** Findings by code: worst severity first, then most frequent, then in the order of their first finding. */
export function groupFindings(findings: readonly Finding[]): FindingGroup[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const group = groups.get(finding.code);
    if (group === undefined) groups.set(finding.code, [finding]);
    else group.push(finding);
  }
  const rank = (severity: Severity) => SEVERITIES.indexOf(severity);
  return [...groups]
    .map(([code, group], place) => ({
      code,
      place,
      findings: group,
      severity: SEVERITIES[Math.max(...group.map((finding) => rank(finding.severity)))] ?? "info",
    }))
    .sort(
      (one, other) =>
        rank(other.severity) - rank(one.severity) ||
        other.findings.length - one.findings.length ||
        one.place - other.place,
    )
    .map(({ code, severity, findings: group }) => ({ code, severity, findings: group }));
}
