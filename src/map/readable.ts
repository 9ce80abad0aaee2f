/** A text with its first letter in upper case. */
export const capitalized = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Work hours for reading: `0.4 h`, from ten hours on whole hours, `1,240 h`. */
export function readableHours(hours: number): string {
  if (!Number.isFinite(hours)) return "unknown";
  return `${hours < 10 ? Math.round(hours * 10) / 10 : readableCount(Math.round(hours))} h`;
}

/** A count with thousands set apart: `12,480`. */
export function readableCount(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ",");
}

/** `1 tree`, `12 trees`. */
export function counted(count: number, singular: string, plural = `${singular}s`): string {
  return `${readableCount(count)} ${count === 1 ? singular : plural}`;
}
