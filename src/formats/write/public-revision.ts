import type { Tree } from "../../core/model/trees.ts";
import type { PrescriptionLine } from "../../core/plan/read-plan.ts";
import { writeCsv } from "../csv.ts";
import { PRIVATE_FIELDS, publicTrees, type TreeField } from "./public-trees.ts";
import { fileText, type RevisionFiles } from "./revision-files.ts";

/** Files of a revision that hold nothing but what the program measured, decided and drew. */
const AS_THEY_ARE = [
  "plan.json",
  "conflicts.geojson",
  "surroundings.geojson",
  "sight.geojson",
  "zones.geojson",
  "workload.csv",
  "standard.json",
];

/**
 * A revision to be read by anybody: the same plan, without unmapped columns, without what `publicTrees` withholds, and without files that hold the inventory or the layers
 * as they came, who reported or decided what, or findings, which quote values. `chosen` lists private fields that may be public after all. What remains names streets and buildings as
 * their layers do. Throws Error naming a file that the revision lacks.
 */
export function publicRevision(files: RevisionFiles, chosen: readonly TreeField[] = []): RevisionFiles {
  const open = new Map<string, Uint8Array>();
  for (const name of AS_THEY_ARE) {
    const bytes = files.get(name);
    if (bytes !== undefined) open.set(name, bytes);
  }
  open.set("trees.geojson", publicTrees(files, chosen));
  open.set("prescriptions.jsonl", utf8(publicLines(fileText(files, "prescriptions.jsonl"), chosen)));
  open.set("findings.csv", utf8(writeCsv(headerOf(fileText(files, "findings.csv")), [])));
  open.set("columns.json", utf8(publicColumnMap(fileText(files, "columns.json"), chosen)));
  return open;
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const headerOf = (csv: string): string[] =>
  csv
    .replace(/^\uFEFF/, "")
    .split(/\r?\n/, 1)[0]!
    .split(",");

function publicLines(lines: string, chosen: readonly TreeField[]): string {
  return lines
    .split("\n")
    .map((line) => (line === "" ? "" : JSON.stringify(publicLine(JSON.parse(line) as PrescriptionLine, chosen))))
    .join("\n");
}

function publicLine({ tree, setting, prescription }: PrescriptionLine, chosen: readonly TreeField[]): PrescriptionLine {
  // What an arborist's measurement replaced says who measured.
  const { unsaid: _, ...said } = tree;
  const open: Tree = {
    ...said,
    owner: chosen.includes("owner") ? tree.owner : null,
    address: chosen.includes("address") ? tree.address : null,
  };
  return { tree: open, setting, prescription };
}

/** The columns without those that feed a private field. */
function publicColumnMap(text: string, chosen: readonly TreeField[]): string {
  const map = JSON.parse(text) as { trees?: Record<string, unknown> };
  const withheld: ReadonlySet<string> = new Set(PRIVATE_FIELDS.filter((field) => !chosen.includes(field)));
  const trees = Object.fromEntries(Object.entries(map.trees ?? {}).filter(([field]) => !withheld.has(field)));
  return `${JSON.stringify({ ...map, trees }, null, 2)}\n`;
}
