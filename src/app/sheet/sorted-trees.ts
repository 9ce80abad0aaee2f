import { URGENCIES } from "../../core/model/terms.ts";
import { dayNumber } from "../../core/units/calendar.ts";
import { nextWork, type TreeEntry, type WorkItem } from "../tree-filter.ts";

/** What a list of trees can be sorted by. */
export const SORTS = ["urgency", "due", "dose", "hours", "street"] as const;
export type Sort = (typeof SORTS)[number];

/** Rows, days and ranks of a sorting key: 22, 17 and 14 bits make the 53 that a number holds exactly. */
const ROWS = 2 ** 22;
const DAYS = 2 ** 17;
const RANKS = 2 ** 14;
/** The place of trees without a date. */
const NEVER = DAYS - 1;

/**
 * The trees in an order: by urgency the most urgent first; by due date the earliest; by dose and hours of the next visit the most; by street
 * its name. Ties by due date, then by input order. Trees without what is sorted by stand last.
 *
 * Each tree becomes one number, so that two hundred thousand are sorted at once. Throws RangeError for a row of 2^22 or more.
 */
export function sortedTrees<T extends TreeEntry>(trees: readonly T[], by: Sort): T[] {
  const places = by === "street" ? streetPlaces(trees) : null;
  const keys = new Float64Array(trees.length);
  const byRow: T[] = [];
  for (const [at, entry] of trees.entries()) {
    const { row } = entry.tree;
    if (row >= ROWS) throw new RangeError(`Expected rows below ${ROWS} to sort trees by, got ${row}`);
    const next = nextWork(entry);
    const day = next === undefined ? NEVER : Math.min(NEVER, dayNumber(next.due));
    keys[at] = (rank(entry, next, by, places) * DAYS + day) * ROWS + row;
    byRow[row] = entry;
  }
  return Array.from(keys.sort(), (key) => byRow[key % ROWS]!);
}

/** A whole number below 2^14 by which a tree stands before others. */
function rank(
  entry: TreeEntry,
  next: WorkItem | undefined,
  by: Sort,
  places: ReadonlyMap<string, number> | null,
): number {
  switch (by) {
    case "urgency":
      return URGENCIES.indexOf(entry.urgency);
    case "due":
      return next === undefined ? 1 : 0;
    case "dose":
      return next?.doseShare == null ? RANKS - 1 : 1000 - Math.round(Math.min(1, next.doseShare) * 1000);
    case "hours":
      // Tenths of an hour, as lists write them.
      return next === undefined ? RANKS - 1 : 1000 - Math.min(1000, Math.round(next.hours * 10));
    case "street":
      return Math.min(RANKS - 1, places?.get(entry.tree.street ?? "") ?? RANKS - 1);
  }
}

/** Places of the streets in the order of their names; trees without a street have none. */
function streetPlaces(trees: readonly TreeEntry[]): Map<string, number> {
  const names = new Set(trees.flatMap(({ tree }) => tree.street ?? []));
  const inOrder = [...names].sort(new Intl.Collator("en", { numeric: true }).compare);
  return new Map(inOrder.map((name, place) => [name, place]));
}
