import type { Prescription } from "../core/model/prescription.ts";
import type { ConflictKind, Crew, Urgency } from "../core/model/terms.ts";
import type { Tree } from "../core/model/trees.ts";
import type { IsoDate } from "../core/units/calendar.ts";
import { isDueIn, type MonthRange } from "./months/month-bars.ts";

/** What the list, the map and the months show; an empty set or null leaves that side open. */
export interface TreeFilter {
  readonly urgencies: ReadonlySet<Urgency>;
  readonly kinds: ReadonlySet<ConflictKind>;
  readonly crews: ReadonlySet<Crew>;
  /** Part of an id, a species or a street, in any case; empty takes all. */
  readonly text: string;
  readonly months: MonthRange | null;
}

/** A tree with all that decides whether it is shown. */
export interface TreeEntry {
  readonly tree: Tree;
  readonly prescription: Prescription;
  readonly kinds: ReadonlySet<ConflictKind>;
  /** Id, species, common name, street and address in lower case. */
  readonly searched: string;
}

export const NO_FILTER: TreeFilter = {
  urgencies: new Set(),
  kinds: new Set(),
  crews: new Set(),
  text: "",
  months: null,
};

export const isFiltering = (filter: TreeFilter): boolean =>
  filter.urgencies.size > 0 ||
  filter.kinds.size > 0 ||
  filter.crews.size > 0 ||
  filter.text !== "" ||
  filter.months !== null;

/** Whether a tree passes every side of a filter; crew and months look at all its visits. */
export function passes(entry: TreeEntry, filter: TreeFilter, asOf: IsoDate): boolean {
  const { prescription } = entry;
  if (filter.urgencies.size > 0 && !filter.urgencies.has(prescription.urgency)) return false;
  if (filter.kinds.size > 0 && ![...filter.kinds].some((kind) => entry.kinds.has(kind))) return false;
  if (filter.text !== "" && !entry.searched.includes(filter.text.toLowerCase())) return false;
  if (filter.crews.size === 0 && filter.months === null) return true;
  return prescription.visits.some(
    (visit) => (filter.crews.size === 0 || filter.crews.has(visit.crew)) && isDueIn(visit, filter.months, asOf),
  );
}
