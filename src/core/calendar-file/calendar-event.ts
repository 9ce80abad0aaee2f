import type { IsoDate } from "../units/calendar.ts";

/** One event that takes a whole day. */
export interface CalendarEvent {
  /** The same through all revisions of a plan. */
  readonly uid: string;
  readonly day: IsoDate;
  readonly summary: string;
  readonly description: string;
  /** Streets; empty for none. */
  readonly location: string;
  readonly geo: { readonly latDeg: number; readonly lonDeg: number } | null;
  /** `zone`, `deadline` or `notice`. */
  readonly category: "zone" | "deadline" | "notice";
  /** False while no day is set and the event stands on the last one. */
  readonly isPlanned: boolean;
}
