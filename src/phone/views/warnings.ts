import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { dayNumber, type IsoDate, parseIsoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { element } from "../element.ts";
import { type KeptRevision, keptRevisions, type Report } from "../keep/report.ts";
import { WORDS } from "../words.ts";

/** Age in days from which a packet's page asks for a newer one; our policy. */
const OLD_DAYS = 30;

/** Days from the plan's date to a day. */
export const ageDays = (page: Pick<PhonePage, "asOf">, today: IsoDate): number =>
  dayNumber(today) - dayNumber(page.asOf);

/** What is wrong with the packet's age or dates on a day, and with other revisions this device knows of; empty when nothing is. */
export function staleWarnings(page: PhonePage, today: IsoDate, kept: readonly KeptRevision[]): string[] {
  const days = ageDays(page, today);
  const newer = kept.flatMap(({ revision }) => (revision > page.revision ? [revision] : []));
  const older = kept.flatMap(({ revision, isUnexported }) =>
    isUnexported && revision < page.revision ? [revision] : [],
  );
  return [
    ...(newer.length > 0 ? [WORDS.stale.newer(Math.max(...newer))] : []),
    ...(days > OLD_DAYS ? [WORDS.stale.old(days)] : []),
    ...(today < page.windowStart ? [WORDS.stale.before(WORDS.date(formatDate(page.windowStart)))] : []),
    ...(today > page.windowEnd ? [WORDS.stale.after(WORDS.date(formatDate(page.windowEnd)))] : []),
    ...(older.length > 0 ? [WORDS.stale.older(Math.max(...older))] : []),
  ];
}

/** The day on this device's clock and in its time zone. */
export function todayHere(clock = new Date()): IsoDate {
  const two = (value: number) => String(value).padStart(2, "0");
  const text = `${clock.getFullYear()}-${two(clock.getMonth() + 1)}-${two(clock.getDate())}`;
  const today = parseIsoDate(text);
  if (today === null) throw new RangeError(`Expected a clock between the years 1000 and 9999, got ${text}`);
  return today;
}

/** The warnings as a block; null when there are none. */
export function warningsOf(page: PhonePage, report: Report): HTMLElement | null {
  const texts = staleWarnings(page, todayHere(), keptRevisions(page.planId, page.zoneId));
  if (report.trouble !== null) texts.unshift(WORDS.kept[report.trouble]);
  else if (report.kept === "memory") texts.unshift(WORDS.kept.memoryLong);
  if (texts.length === 0) return null;
  return element(
    "div",
    { class: "warning", role: "note" },
    texts.map((text) => element("p", {}, text)),
  );
}
