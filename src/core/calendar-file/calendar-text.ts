import type { Plan } from "../model/plan.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate } from "../units/calendar.ts";
import type { CalendarEvent } from "./calendar-event.ts";
import { contentLine, escapedText } from "./content-line.ts";
import { planEvents } from "./plan-events.ts";

/**
 * A plan's dates as a calendar file (iCalendar, RFC 5545): an event a work zone, a deadline and a notice, each on whole days. Times of making are the plan's as-of
 * date and revision, never the clock, so that the same plan gives the same bytes. Holds no owner and no address.
 */
export function calendarText(plan: Plan, standard: Standard): string {
  const stamp = `${basic(plan.options.asOf)}T000000Z`;
  return [
    "BEGIN:VCALENDAR\r\n",
    "VERSION:2.0\r\n",
    "PRODID:-//Boughline//Work plan//EN\r\n",
    "CALSCALE:GREGORIAN\r\n",
    contentLine("X-WR-CALNAME", escapedText(`Boughline plan ${plan.planId}`)),
    ...planEvents(plan, standard).flatMap((event) => eventLines(event, stamp, plan.revision)),
    "END:VCALENDAR\r\n",
  ].join("");
}

function eventLines(event: CalendarEvent, stamp: string, revision: number): string[] {
  return [
    "BEGIN:VEVENT\r\n",
    contentLine("UID", event.uid),
    contentLine("DTSTAMP", stamp),
    contentLine("SEQUENCE", String(revision)),
    contentLine("DTSTART;VALUE=DATE", basic(event.day)),
    // The end of an event is the day behind it (3.6.1).
    contentLine("DTEND;VALUE=DATE", basic(addDays(event.day, 1))),
    contentLine("SUMMARY", escapedText(event.summary)),
    contentLine("DESCRIPTION", escapedText(event.description)),
    ...(event.location === "" ? [] : [contentLine("LOCATION", escapedText(event.location))]),
    ...(event.geo === null
      ? []
      : [contentLine("GEO", `${event.geo.latDeg.toFixed(6)};${event.geo.lonDeg.toFixed(6)}`)]),
    contentLine("CATEGORIES", event.category.toUpperCase()),
    contentLine("STATUS", event.isPlanned ? "CONFIRMED" : "TENTATIVE"),
    "TRANSP:TRANSPARENT\r\n",
    "END:VEVENT\r\n",
  ];
}

const basic = (date: IsoDate): string => date.replaceAll("-", "");
