const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;
/** A leap year, so that 29 February has a place of its own. */
const LEAP_YEAR = 2024;

/** A month-day `MM-DD` for reading: `15 Apr`. */
export const formatMonthDay = (monthDay: string): string =>
  `${Number(monthDay.slice(3))} ${MONTHS[Number(monthDay.slice(0, 2)) - 1] ?? ""}`;

/** The month-day six months on; the last day of a month becomes the last of the other, as 29 February for 31 August. */
export function halfYearOn(monthDay: string): string {
  const month = ((Number(monthDay.slice(0, 2)) + 5) % 12) + 1;
  const last = new Date(Date.UTC(LEAP_YEAR, month, 0)).getUTCDate();
  const day = Math.min(Number(monthDay.slice(3)), last);
  return `${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
}
