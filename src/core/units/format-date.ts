import type { IsoDate } from "./calendar.ts";

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/**
 * A date for people to read, the same in every locale.
 *
 * @example formatDate(isoDate("2027-03-12")) // "12 Mar 2027"
 */
export function formatDate(date: IsoDate): string {
  return `${Number(date.slice(8, 10))} ${MONTHS[Number(date.slice(5, 7)) - 1]} ${Number(date.slice(0, 4))}`;
}
