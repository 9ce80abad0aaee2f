import type { Finding } from "../../core/model/finding.ts";
import type { PlanManifest } from "../../core/plan/plan-manifest.ts";
import { findingTable } from "../../core/plan/plan-tables.ts";
import { readCsv, writeCsv } from "../csv.ts";
import { fileText, type RevisionFiles } from "./revision-files.ts";

/** Files of a revision with more beside them, and what a person should be told of those. */
export interface ExtendedRevision {
  readonly files: RevisionFiles;
  /** New ones only; they are in `findings.csv` and counted in `plan.json` already. */
  readonly findings: readonly Finding[];
}

/** A revision's files with more findings at the end of `findings.csv`, counted in `plan.json`; those that stand there already are left out. */
export function withFindings(files: RevisionFiles, findings: readonly Finding[]): ExtendedRevision {
  if (findings.length === 0) return { files, findings };
  const csv = fileText(files, "findings.csv");
  const present = new Set(readCsv(csv).map((row) => JSON.stringify(row)));
  const cells = findingTable(findings).rows.map((row) => JSON.stringify(row.map((cell) => String(cell ?? ""))));
  const added = findings.filter((_, at) => !present.has(cells[at]!));
  if (added.length === 0) return { files, findings: [] };
  const { header, rows } = findingTable(added);
  const written = writeCsv(header, rows);
  const manifest = JSON.parse(fileText(files, "plan.json")) as PlanManifest;
  const counts = { ...manifest.counts, findings: manifest.counts.findings + added.length };
  const encoder = new TextEncoder();
  const all = new Map(files);
  all.set("findings.csv", encoder.encode(csv + written.slice(written.indexOf("\r\n") + 2)));
  all.set("plan.json", encoder.encode(`${JSON.stringify({ ...manifest, counts }, null, 2)}\n`));
  return { files: all, findings: added };
}
