import type { FeatureFault } from "../geojson/feature-fault.ts";
import { note, type ReadOptions } from "./converted.ts";
import { unreadableFile } from "./unreadable-file.ts";

/**
 * Which of several tables to read: the one that was asked for, else the only one, else the one called like the layer. Names are compared
 * without regard to case and, in a zip, to folders. Throws UnreadableError, with the names, where nobody said which.
 */
export function pickTable(
  names: readonly string[],
  { table, layer }: ReadOptions,
  container: "zip" | "GeoPackage",
): { readonly index: number; readonly findings: readonly FeatureFault[] } {
  const wanted = table ?? null;
  if (wanted !== null) {
    const index = find(names, wanted);
    if (index !== -1) return { index, findings: [] };
    throw unreadableFile(
      "no-such-table",
      `The ${container} has no ${JSON.stringify(wanted.slice(0, 80))}; it has ${list(names)}.`,
      "Name one of these.",
    );
  }
  if (names.length === 1) return { index: 0, findings: [] };
  const index = layer === undefined || layer === null ? -1 : find(names, layer);
  if (index !== -1) {
    const reason = `Of ${names.length} tables in the ${container}, ${names[index]!.slice(0, 80)} was read, as it is called like the layer.`;
    return { index, findings: [note("table-chosen", reason)] };
  }
  throw unreadableFile(
    "several-tables",
    `The ${container} holds ${names.length} tables: ${list(names)}.`,
    "Say which one to read (--table LAYER=NAME).",
  );
}

function find(names: readonly string[], wanted: string): number {
  const exact = names.indexOf(wanted);
  if (exact !== -1) return exact;
  const lower = wanted.toLowerCase();
  return names.findIndex((name) =>
    [name, name.slice(name.lastIndexOf("/") + 1)].some((one) => one.toLowerCase() === lower),
  );
}

const list = (names: readonly string[]): string =>
  names
    .slice(0, 20)
    .map((name) => name.slice(0, 60))
    .join(", ") + (names.length > 20 ? " and others" : "");
