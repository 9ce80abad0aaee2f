import type { ConflictRecord } from "../model/conflict.ts";
import type { Visit } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import type { Closure } from "../model/zone.ts";
import { addDays, type IsoDate } from "../units/calendar.ts";
import { NOTICE_KINDS, type NoticeKind, type NoticeRules } from "./notice-rules.ts";

/** A visit with what decides whom to tell before it. */
export interface NoticeStop {
  readonly tree: Tree;
  readonly visit: Visit;
  /** Conflicts of the tree; those that the visit works on are found by their ids. */
  readonly conflicts: readonly Pick<ConflictRecord, "conflictId" | "kind">[];
}

/** Something to do before the day of the work. */
export interface Notice {
  readonly kind: NoticeKind;
  /** Trees it is about, in order of work; empty where it is about the street. */
  readonly treeIds: readonly string[];
  readonly leadDays: number;
}

/** Whether an owner's name is that of the city itself by the standard's words, each as whole words without case. */
export function isOwnOwner(owner: string, { ownOwners }: NoticeRules): boolean {
  const words = ` ${wordsOf(owner)} `;
  return ownOwners.some((own) => words.includes(` ${wordsOf(own)} `));
}

const wordsOf = (text: string): string =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "")
    .join(" ");

/**
 * What one visit needs beforehand: the owner's permission where an owner is recorded who is not the city, a permit for a protected tree, and an outage request
 * where it works on a conflict with a conductor or is the line owner's own work. An owner that nobody recorded asks for nothing.
 */
export function visitNotices({ tree, visit, conflicts }: NoticeStop, rules: NoticeRules): NoticeKind[] {
  const worked = new Set(visit.tasks.flatMap(({ conflictIds }) => conflictIds));
  const isAtLine = conflicts.some(({ kind, conflictId }) => kind === "conductor" && worked.has(conflictId));
  const needed: NoticeKind[] = [];
  if (isAtLine || visit.crew === "utility") needed.push("outage-request");
  if (tree.owner !== null && !isOwnOwner(tree.owner, rules)) needed.push("owner-permission");
  if (tree.isProtected) needed.push("protected-permit");
  return needed;
}

/** Closures behind which vehicles may not stand at the curb. */
const TAKES_PARKING: readonly Closure["kind"][] = ["parking-lane", "lane", "lane-and-walk"];

/** What a zone needs beforehand, in the order of {@link NOTICE_KINDS}: that of its visits, and for its closure signs at the curb and the road authority's word. */
export function zoneNotices(closure: Closure, stops: readonly NoticeStop[], rules: NoticeRules): Notice[] {
  const trees = new Map<NoticeKind, string[]>();
  if (TAKES_PARKING.includes(closure.kind)) trees.set("parking-notice", []);
  if (closure.kind !== "none") trees.set("closure-request", []);
  for (const stop of stops) {
    for (const kind of visitNotices(stop, rules)) {
      const own = trees.get(kind);
      if (own === undefined) trees.set(kind, [stop.tree.id]);
      else own.push(stop.tree.id);
    }
  }
  return NOTICE_KINDS.flatMap((kind) => {
    const treeIds = trees.get(kind);
    return treeIds === undefined ? [] : [{ kind, treeIds, leadDays: rules.leadDays[kind] }];
  });
}

/** The last day on which a notice is in time for work on a day: so many calendar days before it. */
export const noticeBy = (workOn: IsoDate, leadDays: number): IsoDate => addDays(workOn, -leadDays);

/** The day that notices of a zone are counted back from: the one the work is planned for, else the last one on which it is in time. */
export function noticeDay({ plannedOn, due, windowEnd }: NoticeDates): IsoDate {
  if (plannedOn != null) return plannedOn;
  return windowEnd < due ? windowEnd : due;
}

/** Dates of a zone that its notices hang on. */
export interface NoticeDates {
  readonly plannedOn?: IsoDate | null;
  readonly due: IsoDate;
  readonly windowEnd: IsoDate;
}

/** What is to be done, in words that follow a date. */
export const NOTICE_WORDS: Readonly<Record<NoticeKind, string>> = {
  "parking-notice": "post no-parking signs at the work",
  "closure-request": "ask the road authority about the closure",
  "outage-request": "ask the line's owner about an outage or protective cover",
  "owner-permission": "ask the owners of the trees for permission",
  "protected-permit": "get the permits for protected trees",
};
