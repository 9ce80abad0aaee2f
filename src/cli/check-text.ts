import type { ColumnGuess } from "../core/model/column-guess.ts";
import { withThousands } from "../core/units/with-thousands.ts";
import type { FileCheck } from "../formats/check/check-files.ts";
import { findingGroupLines } from "./finding-group-lines.ts";
import { printable } from "./printable.ts";

/** The report of `check` for people: a block a file, then the sum. Texts from the files are on one line and without control characters. */
export function checkText(checks: readonly FileCheck[]): string {
  const lines = checks.flatMap((one) => [...fileLines(one), ""]);
  const sum = (of: (one: FileCheck) => number): number => checks.reduce((total, one) => total + of(one), 0);
  const [read, used, setAside] = [sum((one) => one.read), sum((one) => one.used), sum((one) => one.setAside)];
  const files = `${checks.length} ${checks.length === 1 ? "file" : "files"}`;
  const unknown = checks.filter(({ layer, verdict }) => layer === null && verdict !== "unreadable").length;
  const left = unknown === 0 ? "" : ` Not checked, as the layer is not known: ${withThousands(unknown)}.`;
  lines.push(`In all ${files}: ${countLine(read, used, setAside)}.${left}`);
  return `${lines.map(oneLine).join("\n")}\n`;
}

function fileLines(one: FileCheck): string[] {
  const layer =
    one.layer === null
      ? "layer unknown"
      : `${one.layer}${one.guessedBy === null ? "" : ` (guessed by ${one.guessedBy})`}`;
  const lines = [`${one.file}: ${layer}: ${one.verdict}`];
  if (one.layer !== null && one.verdict !== "unreadable")
    lines.push(`  ${countLine(one.read, one.used, one.setAside)}`);
  if (one.crs !== null) lines.push(`  Coordinates: ${one.crs}`);
  if (one.columns.length > 0)
    lines.push("  Columns as guessed (unit, how sure, values):", ...one.columns.map(columnLine));
  if (one.findings.length > 0) lines.push("  Findings:", ...findingGroupLines(one.findings));
  return lines;
}

const countLine = (read: number, used: number, setAside: number): string =>
  `${withThousands(read)} read = ${withThousands(used)} used + ${withThousands(setAside)} set aside`;

function columnLine({ field, column, unit, unitFrom, confidence, samples }: ColumnGuess): string {
  const how = unitFrom === "assumed" ? " assumed" : unitFrom === "range" ? " by size" : "";
  const inUnit = unit === null ? "" : `${unit}${how}`;
  const values = samples.map((value) => JSON.stringify(value)).join(", ");
  return `    ${field.padEnd(20)} from ${column.slice(0, 60).padEnd(24)} ${inUnit.padEnd(12)} ${`${Math.round(confidence * 100)} %`.padStart(5)}  ${values}`.trimEnd();
}

/** A line as it can be printed: line breaks from a file's texts are shown, not obeyed. */
const oneLine = (line: string): string => printable(line.replaceAll("\n", "\\n"));
