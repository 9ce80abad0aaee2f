import { columnName } from "../../core/inventory/column-name.ts";
import type { ColumnUnit } from "../../core/model/column-map.ts";

/** Columns of a completion written by hand, in the order of the template. Lengths take the unit in their name: `crown_base_after_ft`, `(m)`. */
export const COMPLETION_COLUMNS = [
  "tree",
  "visit",
  "outcome",
  "reason",
  "date",
  "who",
  "crown_base_after",
  "headroom_after",
  "dose_taken",
  "crew_hours",
  "notes",
  "photos",
  "plan",
  "revision",
  "zone",
  "report",
  "written",
] as const;
export type CompletionColumn = (typeof COMPLETION_COLUMNS)[number];

/** Other names of a column, without marks and units. */
const ALSO: Readonly<Record<CompletionColumn, readonly string[]>> = {
  tree: ["treeid", "treenumber", "treeno"],
  visit: ["visitid"],
  outcome: ["status", "result", "done"],
  reason: ["whynot", "notdonereason", "reasonnotdone"],
  date: ["workdate", "dateofwork", "datedone", "doneon", "completed", "completedon"],
  who: ["crewleader", "by", "doneby", "recordedby"],
  crown_base_after: ["newcrownbase", "crownbaseafterwork", "crownbasenew"],
  headroom_after: ["headroom", "measuredheadroom", "clearanceafter", "headroommeasured"],
  dose_taken: ["dosetakenpct", "taken", "dosetakenpercent"],
  crew_hours: ["personhours", "hoursworked"],
  notes: ["note", "remarks", "remark", "comment", "comments"],
  photos: ["photo", "pictures", "photonames"],
  plan: ["planid"],
  revision: ["planrevision", "rev"],
  zone: ["zoneid", "workzone"],
  report: ["reportid"],
  written: ["exportedat", "writtenat"],
};

/** Where a column stands in the header, with the unit its name says. */
export interface FoundColumn {
  readonly at: number;
  readonly name: string;
  readonly unit: ColumnUnit | null;
}

export type FoundColumns = ReadonlyMap<CompletionColumn, FoundColumn>;

/** The columns of a header that are understood, and the names of those that are not; of two for the same the first counts and the other is not. */
export function findColumns(header: readonly string[]): { columns: FoundColumns; others: string[] } {
  const byName = new Map<string, CompletionColumn>();
  for (const column of COMPLETION_COLUMNS) {
    for (const name of [column.replaceAll("_", ""), ...ALSO[column]]) byName.set(name, column);
  }
  const columns = new Map<CompletionColumn, FoundColumn>();
  const others: string[] = [];
  header.forEach((name, at) => {
    const { whole, stem, unit } = columnName(name);
    const column = byName.get(whole) ?? byName.get(stem);
    if (column !== undefined && !columns.has(column)) columns.set(column, { at, name, unit });
    else if (name.trim() !== "") others.push(name.trim());
  });
  return { columns, others };
}
