import type { Prescription, Visit } from "../core/model/prescription.ts";
import type { ConflictKind, Crew, Urgency } from "../core/model/terms.ts";
import type { Tree } from "../core/model/trees.ts";
import type { VisitCause } from "../core/schedule/forecast-visits.ts";
import { addDays, type IsoDate } from "../core/units/calendar.ts";
import { isDueIn, type MonthRange } from "./months/month-bars.ts";

/** When the next work is due: its date has passed, or it comes within so many days of the date that is shown. */
export const DUE_CHOICES = ["overdue", 30, 90, 365] as const;
export type DueChoice = (typeof DUE_CHOICES)[number];

/** What the list, the map and the months show; an empty set, an empty text or null leaves that side open. */
export interface TreeFilter {
  readonly urgencies: ReadonlySet<Urgency>;
  readonly kinds: ReadonlySet<ConflictKind>;
  readonly crews: ReadonlySet<Crew>;
  /** Part of an id, a species or a street, in any case; empty takes all. */
  readonly text: string;
  readonly months: MonthRange | null;
  readonly street: string | null;
  /** Common name, or the scientific one where there is none. */
  readonly species: string | null;
  readonly zoneId: string | null;
  readonly due: DueChoice | null;
  /** Owner or jurisdiction; absent or null for all. */
  readonly owner?: string | null;
  /** Protected trees alone; absent for all. */
  readonly protectedOnly?: boolean;
  /** Trees that another page has chosen, and by what; absent or null for all. Never part of a link. */
  readonly chosen?: { readonly words: string; readonly treeIds: ReadonlySet<string> } | null;
}

/** A visit to a tree as lists, months and filters see it. */
export interface WorkItem extends Pick<Visit, "due" | "crew" | "hours" | "urgency" | "overdue"> {
  readonly cause: VisitCause;
  /** Null where the crown has yet to grow there. */
  readonly doseShare: number | null;
  /** Whether it is done by the date that is shown. */
  readonly isDone: boolean;
  /** The plan's own visit; null for a forecast one. */
  readonly visit: Visit | null;
}

/** A tree with all that decides whether it is shown. */
export interface TreeEntry {
  readonly tree: Tree;
  readonly prescription: Prescription;
  readonly kinds: ReadonlySet<ConflictKind>;
  readonly zone: { readonly zoneId: string } | null;
  /** Id, species, common name, street and address in lower case. */
  readonly searched: string;
  /** On the date that is shown. */
  readonly urgency: Urgency;
  readonly overdue: boolean;
  /** Its visits by date, done ones first. */
  readonly work: readonly WorkItem[];
}

export const NO_FILTER: TreeFilter = {
  urgencies: new Set(),
  kinds: new Set(),
  crews: new Set(),
  text: "",
  months: null,
  street: null,
  species: null,
  zoneId: null,
  due: null,
};

export const isFiltering = (filter: TreeFilter): boolean =>
  filter.urgencies.size > 0 || filter.kinds.size > 0 || filter.crews.size > 0 || filter.text !== "" || hasNamed(filter);

const hasNamed = ({ months, street, species, zoneId, due, owner, protectedOnly, chosen }: TreeFilter): boolean =>
  [months, street, species, zoneId, due].some((side) => side !== null) ||
  owner != null ||
  protectedOnly === true ||
  chosen != null;

/** What a tree's kind is called in filters and lists; null where no species is given. */
export const speciesName = ({ commonName, species }: Tree): string | null => commonName ?? species;

/** The next visit that is not done by the date that is shown. */
export const nextWork = ({ work }: TreeEntry): WorkItem | undefined => work.find(({ isDone }) => !isDone);

/**
 * Whether a tree passes every side of a filter on a date; `on` is the as-of date unless another is shown. Crew and months look at all its
 * visits, and where months are chosen also at those done by then.
 */
export function passes(entry: TreeEntry, filter: TreeFilter, asOf: IsoDate, on: IsoDate = asOf): boolean {
  const { street, species, zoneId, due, months, crews } = filter;
  if (filter.urgencies.size > 0 && !filter.urgencies.has(entry.urgency)) return false;
  if (filter.kinds.size > 0 && !hasAny(filter.kinds, entry.kinds)) return false;
  if (street !== null && entry.tree.street !== street) return false;
  if (species !== null && speciesName(entry.tree) !== species) return false;
  if (zoneId !== null && entry.zone?.zoneId !== zoneId) return false;
  if (filter.owner != null && entry.tree.owner !== filter.owner) return false;
  if (filter.protectedOnly === true && !entry.tree.isProtected) return false;
  if (filter.chosen != null && !filter.chosen.treeIds.has(entry.tree.id)) return false;
  if (due === "overdue" && !entry.overdue) return false;
  if (typeof due === "number" && !isWithin(entry, addDays(on, due))) return false;
  if (filter.text !== "" && !entry.searched.includes(filter.text.toLowerCase())) return false;
  if (crews.size === 0 && months === null) return true;
  return entry.work.some(
    (item) =>
      (crews.size === 0 || crews.has(item.crew)) && (months === null ? !item.isDone : isDueIn(item, months, asOf)),
  );
}

function isWithin(entry: TreeEntry, last: IsoDate): boolean {
  const next = nextWork(entry);
  return next !== undefined && next.due <= last;
}

function hasAny<T>(wanted: ReadonlySet<T>, has: ReadonlySet<T>): boolean {
  for (const one of wanted) if (has.has(one)) return true;
  return false;
}
