import { calendarText } from "../../core/calendar-file/calendar-text.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Standard } from "../../core/standard/standard.ts";

/** Name of the calendar in a revision. */
export const CALENDAR_NAME = "plan.ics";

/** Puts the calendar of a plan with work zones into a revision's files; a plan without has none. */
export function addCalendar(files: Map<string, Uint8Array>, plan: Plan, standard: Standard): void {
  if (plan.zones.length > 0) files.set(CALENDAR_NAME, new TextEncoder().encode(calendarText(plan, standard)));
}
