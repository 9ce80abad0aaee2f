import type { Finding } from "../core/model/finding.ts";
import type { PlanManifest } from "../core/plan/plan-manifest.ts";
import { type WaitingFigures, waitingWords } from "../formats/plan/waiting-words.ts";
import { changeLines } from "./change-lines.ts";
import { printable } from "./printable.ts";

/** The plain summary a run ends with: what went in, what was found, what is to be done, what was not checked, and the cost of waiting where it was asked for. */
export function summaryText(
  manifest: PlanManifest,
  findings: readonly Finding[],
  folder: string,
  waiting: WaitingFigures | null = null,
): string {
  const { counts } = manifest;
  const lines = [`Plan ${manifest.plan}, revision ${manifest.revision}, as of ${manifest.as_of}`, ""];
  for (const input of manifest.inputs) {
    const filter = input.filter === null ? "" : ` where ${input.filter}`;
    lines.push(
      `  ${input.layer.padEnd(11)} ${count(input.features).padStart(8)} read, ${count(input.used)} used, ${count(input.setAside)} set aside   ${input.file}${filter}`,
    );
  }
  lines.push("", "Conflicts");
  for (const [kind, amount] of Object.entries(counts.conflicts_by_kind)) {
    if (amount > 0) lines.push(`  ${kind.padEnd(18)} ${count(amount).padStart(8)}`);
  }
  lines.push("", "Trees by urgency");
  for (const [urgency, amount] of Object.entries(counts.trees_by_urgency)) {
    lines.push(`  ${urgency.padEnd(18)} ${count(amount).padStart(8)}`);
  }
  lines.push(`  ${"overdue".padEnd(18)} ${count(counts.overdue).padStart(8)}`);
  lines.push("", `Referred to a licensed arborist or to be inspected first: ${count(counts.referred)}`);
  for (const [reason, amount] of Object.entries(counts.referred_by_reason)) {
    lines.push(`  ${reason.padEnd(24)} ${count(amount).padStart(8)}`);
  }
  lines.push("", `Next visits: ${crews(counts.next_visits_by_crew)}; ${count(counts.next_visit_hours)} crew-hours`);
  if (waiting !== null) lines.push(waitingWords(waiting));
  lines.push(...changeLines(manifest.changes));
  if (manifest.not_checked.length > 0) lines.push(`Not checked for any tree: ${manifest.not_checked.join(", ")}`);
  lines.push("", ...findingLines(findings), "", `Written to ${folder}`, manifest.caution);
  return printable(`${lines.join("\n")}\n`);
}

/** What `zone` ends with: the zones, and what was found while writing them. */
export function zonesText(manifest: PlanManifest, findings: readonly Finding[], folder: string): string {
  const lines = [
    `Plan ${manifest.plan}, revision ${manifest.revision}, as of ${manifest.as_of}`,
    `Work zones: ${count(manifest.counts.zones)}, for what is due now or in the next window`,
    ...(findings.length === 0 ? [] : findingLines(findings)),
    `Written to ${folder}`,
  ];
  return printable(`${lines.join("\n")}\n`);
}

/** Findings by code, most frequent first, with the advice of the first of each. */
function findingLines(findings: readonly Finding[]): string[] {
  if (findings.length === 0) return ["No findings"];
  const byCode = new Map<string, Finding[]>();
  for (const finding of findings) byCode.set(finding.code, [...(byCode.get(finding.code) ?? []), finding]);
  const groups = [...byCode.values()].sort((a, b) => b.length - a.length || (a[0]!.code < b[0]!.code ? -1 : 1));
  return [
    `Findings: ${count(findings.length)} (all in findings.csv)`,
    ...groups.map(
      (group) =>
        `  ${count(group.length).padStart(6)}  ${group[0]!.severity.padEnd(7)} ${group[0]!.code}: ${group[0]!.reason}`,
    ),
  ];
}

const crews = (byCrew: Readonly<Record<string, number>>): string => {
  const parts = Object.entries(byCrew).filter(([, amount]) => amount > 0);
  return parts.length === 0 ? "none" : parts.map(([crew, amount]) => `${count(amount)} ${crew}`).join(", ");
};

const count = (amount: number): string => amount.toLocaleString("en-US");
