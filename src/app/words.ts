import type { Severity } from "../core/model/finding.ts";
import type { Layer } from "../core/model/terms.ts";
import type { IsoDate } from "../core/units/calendar.ts";
import { formatDate } from "../core/units/format-date.ts";
import { DEFAULT_WORDS } from "../map/words.ts";
import type { Month } from "./months/month-bars.ts";

export { capitalized, counted, readableCount, readableHours } from "../map/readable.ts";

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

/** A month for reading: `Mar 2027`. */
export const readableMonth = (month: Month): string => formatDate(`${month}-01` as IsoDate).slice(2);
