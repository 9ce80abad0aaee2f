import type { Source } from "./standard.ts";

/** What somebody is told or asked before a crew comes. The order is that of lists. */
export const NOTICE_KINDS = [
  "parking-notice",
  "closure-request",
  "outage-request",
  "owner-permission",
  "protected-permit",
] as const;
export type NoticeKind = (typeof NOTICE_KINDS)[number];

/** Whom to tell before work, and how long before. */
export interface NoticeRules {
  /** Words of an owner's name that mean the city's own trees, for which nobody is asked. */
  readonly ownOwners: readonly string[];
  /** Calendar days before the day of the work. */
  readonly leadDays: Readonly<Record<NoticeKind, number>>;
  readonly source: Source;
}

/** How many of a zone's finished trees are checked. */
export interface AcceptanceRules {
  /** Share of the trees, 0 to 1, rounded up. */
  readonly share: number;
  /** At least so many, or all where a zone has fewer. */
  readonly leastTrees: number;
  readonly source: Source;
}
