import type { Zone } from "../model/zone.ts";
import { NOTICE_WORDS, noticeBy, noticeDay, visitNotices, zoneNotices } from "../standard/needed-notices.ts";
import type { NoticeKind, NoticeRules } from "../standard/notice-rules.ts";
import { formatDate } from "../units/format-date.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** What is to be done before the day, each with its last day: counted back from the day that is planned, else from the last one in time. */
export function zoneNoticeLines(zone: Zone, stops: readonly ZoneStop[], rules: NoticeRules): string[] {
  const notices = zoneNotices(zone.closure, stops, rules);
  if (notices.length === 0) return [];
  const day = noticeDay(zone);
  return [
    ...(zone.plannedOn == null ? [`No day is planned yet; dates count back from ${formatDate(day)}.`] : []),
    ...notices.map(({ kind, leadDays }) => `By ${formatDate(noticeBy(day, leadDays))}: ${NOTICE_WORDS[kind]}.`),
  ];
}

/** What one tree's visit needs before it; empty for nothing. Names no owner. */
export const treeNoticeText = (stop: ZoneStop, rules: NoticeRules): string =>
  visitNotices(stop, rules)
    .flatMap((kind) => TREE_WORDS[kind] ?? [])
    .join(" ");

const TREE_WORDS: Partial<Readonly<Record<NoticeKind, string>>> = {
  "outage-request": "The line's owner is asked about an outage or protective cover.",
  "owner-permission": "Not the city's tree: only with the owner's permission.",
  "protected-permit": "Protected tree: only with a permit.",
};
