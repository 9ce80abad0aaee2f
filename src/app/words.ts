import type { Severity } from "../core/model/finding.ts";
import type { Layer } from "../core/model/terms.ts";
import type { IsoDate } from "../core/units/calendar.ts";
import { formatDate } from "../core/units/format-date.ts";
import { DEFAULT_WORDS } from "../map/words.ts";
import type { Month } from "./months/month-bars.ts";

/** The map's words for urgencies, kinds, crews, remedies and states; the page uses the same. */
export const WORDS = DEFAULT_WORDS;

export const LAYER_WORDS: Readonly<Record<Layer, string>> = {
  trees: "Trees",
  buildings: "Buildings",
  roads: "Roads",
  paths: "Walks and bikeways",
  signs: "Signs",
  signals: "Signals",
  conductors: "Conductors",
};

export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  error: "Could not be used",
  warning: "Used, with doubt",
  info: "Worth knowing",
};

/** A text with its first letter in upper case. */
export const capitalized = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** A month for reading: `Mar 2027`. */
export const readableMonth = (month: Month): string => formatDate(`${month}-01` as IsoDate).slice(2);

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
