import { type IsoDate, isoDate } from "../../core/units/calendar.ts";

/** Today's date where the reader is. */
export function localDate(): IsoDate {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, "0");
  return isoDate(`${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`);
}
