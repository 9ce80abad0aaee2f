import { type ColumnMap, type ColumnUnit, columnSource, columnUnit, type Field } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { IsoDate } from "../units/calendar.ts";
import { isMissing } from "../units/is-missing.ts";
import { type FilledIn, parseDate } from "../units/parse-date.ts";
import { parseLengthM } from "../units/parse-length.ts";
import { type LengthRange, parseLengthRangeM } from "../units/parse-range.ts";
import { parseShare } from "../units/parse-share.ts";
import type { DateOrders } from "./date-orders.ts";
import type { FindingLog } from "./finding-log.ts";
import { parseStemsM } from "./stem-list.ts";

export type TreeField = Field<"trees">;

/** What a length in a field can be; outside it the value is set aside. */
export interface LengthLimits {
  readonly leastM: number;
  readonly mostM: number;
  /** Whether 0 always means unknown here, whatever the column map says. */
  readonly zeroIsUnknown: boolean;
  /** Why a value outside the limits is not believed. */
  readonly why: string;
}

/** Reads a tree feature's canonical fields; what cannot be used is null and becomes a finding, what is missing is null. */
export interface FieldReader {
  readonly columnOf: (field: TreeField) => string;
  readonly text: (feature: SourceFeature, field: TreeField) => string | null;
  /** A length in meters; a field whose value could not be used is added to `refused`. */
  readonly lengthM: (
    feature: SourceFeature,
    field: TreeField,
    limits: LengthLimits,
    refused?: Set<TreeField>,
  ) => number | null;
  /** A length with its interval where the column gives a class such as `10-20 ft`; `isClass` says so, and the ends are equal where it does not. */
  readonly lengthRangeM: (
    feature: SourceFeature,
    field: TreeField,
    limits: LengthLimits,
    refused?: Set<TreeField>,
  ) => ReadLength | null;
  /** Diameters in meters of the stems a column lists, two or more; null where it gives no list. */
  readonly stemsM: (feature: SourceFeature, field: TreeField) => readonly number[] | null;
  /** Whether the column map names the unit of a field's bare numbers. */
  readonly isUnitNamed: (field: TreeField) => boolean;
  readonly share: (feature: SourceFeature, field: TreeField) => number | null;
  readonly count: (feature: SourceFeature, field: TreeField) => number | null;
  readonly date: (feature: SourceFeature, field: TreeField) => IsoDate | null;
  readonly flag: (feature: SourceFeature, field: TreeField) => boolean | null;
}

/** A length as read: of a class the middle and its ends. */
export interface ReadLength extends LengthRange {
  readonly isClass: boolean;
}

interface Column {
  readonly name: string;
  readonly unit: ColumnUnit;
  readonly isUnitNamed: boolean;
  readonly zeroIsUnknown: boolean;
  readonly words: ReadonlyMap<string, string> | null;
}

/** What is said of a date of which a part was filled in. */
const FILLED_IN_WORDS: Readonly<Record<Exclude<FilledIn, "nothing">, string>> = {
  "month-and-day": "gives only a year; its middle, 1 July, is assumed",
  day: "gives no day; the middle of the month is assumed",
  century: "gives years of two digits; they are taken as 1969 to 2068",
};

const YES: ReadonlySet<string> = new Set(["y", "yes", "true", "t", "1"]);
const NO: ReadonlySet<string> = new Set(["n", "no", "false", "f", "0"]);
const MAX_TEXT = 256;
const MAX_STEMS = 100;

/**
 * A reader of one run's tree columns. Dates after `options.asOf` are not used. Where day and month can be read two ways, `orders` decides
 * by column, else the month comes first in the United States and nothing is decided elsewhere.
 */
export function fieldReader(
  columns: ColumnMap,
  options: PlanOptions,
  log: FindingLog,
  orders: DateOrders = new Map(),
): FieldReader {
  const cache = new Map<TreeField, Column>();
  const isMonthFirst = options.place.region?.toUpperCase().startsWith("US") ?? false;

  const column = (field: TreeField): Column => {
    const known = cache.get(field);
    if (known !== undefined) return known;
    const source = columnSource(columns, "trees", field);
    const words =
      source.values === undefined
        ? null
        : new Map(Object.entries(source.values).map(([from, to]) => [from.trim().toLowerCase(), to]));
    const made = {
      name: source.column,
      unit: columnUnit(columns, "trees", field),
      isUnitNamed: source.unit !== undefined,
      zeroIsUnknown: source.zero === "unknown",
      words,
    };
    cache.set(field, made);
    return made;
  };

  /** The value after the city's words were translated; null when nothing is known. */
  const raw = (feature: SourceFeature, field: TreeField): unknown => {
    const { name, zeroIsUnknown, words } = column(field);
    if (!Object.hasOwn(feature.properties, name)) return null;
    const value = feature.properties[name];
    if (words !== null && (typeof value === "string" || typeof value === "number" || typeof value === "boolean")) {
      const word = words.get(String(value).slice(0, MAX_TEXT).trim().toLowerCase());
      if (word !== undefined) return isMissing(word) ? null : word;
    }
    if (isMissing(value)) return null;
    return zeroIsUnknown && isZero(value) ? null : value;
  };

  /** A list of a city's defect codes in one cell, each put into its word; a cell that stands in the map as it is has been already. */
  const translated = (field: TreeField, text: string): string => {
    const { words } = column(field);
    if (field !== "defects" || words === null) return text;
    return text
      .split(/[,;|/]/)
      .map((part) => words.get(part.trim().toLowerCase()) ?? part)
      .join(";");
  };

  const unreadable = (feature: SourceFeature, field: TreeField, value: unknown, expected: string): null => {
    log.note(feature, {
      code: "unreadable-value",
      severity: "warning",
      field,
      value,
      reason: `Column ${column(field).name} does not hold ${expected}; the value is not used`,
      whatToDo: `Correct the value, or map another column to ${field}`,
    });
    return null;
  };

  const lengthRangeM = (
    feature: SourceFeature,
    field: TreeField,
    limits: LengthLimits,
    refused?: Set<TreeField>,
  ): ReadLength | null => {
    const value = raw(feature, field);
    if (value === null || (limits.zeroIsUnknown && isZero(value))) return null;
    const { unit, name } = column(field);
    const lengthM = parseLengthM(value, unit);
    const range =
      lengthM === null ? parseLengthRangeM(value, unit) : { valueM: lengthM, lowM: lengthM, highM: lengthM };
    if (range === null) {
      refused?.add(field);
      return unreadable(feature, field, value, "a length");
    }
    if (limits.zeroIsUnknown && range.valueM === 0) return null;
    if (range.valueM >= limits.leastM && range.valueM <= limits.mostM) return { ...range, isClass: lengthM === null };
    refused?.add(field);
    log.note(feature, {
      code: "implausible-value",
      severity: "warning",
      field,
      value,
      reason: `${limits.why}; the value is set aside and treated as unknown`,
      whatToDo: `Measure again, or check the unit of column ${name}`,
    });
    return null;
  };

  return {
    columnOf: (field) => column(field).name,
    text(feature, field) {
      const value = raw(feature, field);
      if (value === null) return null;
      if (typeof value === "string") return translated(field, value.slice(0, MAX_TEXT).trim());
      if (typeof value === "number" || typeof value === "boolean") return String(value);
      if (Array.isArray(value) && value.every((one) => typeof one === "string"))
        return translated(field, value.join("; ").slice(0, MAX_TEXT));
      return unreadable(feature, field, value, "a text or number");
    },
    lengthM: (feature, field, limits, refused) => lengthRangeM(feature, field, limits, refused)?.valueM ?? null,
    lengthRangeM,
    stemsM(feature, field) {
      const value = raw(feature, field);
      return value === null ? null : parseStemsM(value, column(field).unit);
    },
    isUnitNamed: (field) => column(field).isUnitNamed,
    share(feature, field) {
      const value = raw(feature, field);
      if (value === null) return null;
      return parseShare(value, column(field).unit) ?? unreadable(feature, field, value, "a share between 0 and 100 %");
    },
    count(feature, field) {
      const value = raw(feature, field);
      if (value === null || isZero(value)) return null;
      const count = typeof value === "string" ? wholeNumber(value) : value;
      if (typeof count === "number" && Number.isInteger(count) && count >= 1 && count <= MAX_STEMS) return count;
      return unreadable(feature, field, value, `a whole number from 1 to ${MAX_STEMS}`);
    },
    date(feature, field) {
      const value = raw(feature, field);
      if (value === null || isZero(value)) return null;
      const order = orders.get(field) ?? (isMonthFirst ? "month-first" : null);
      const parsed = parseDate(value, order);
      if (!("fault" in parsed) && orders.has(field) && "fault" in parseDate(value, null)) {
        log.tally({
          code: "date-order-inferred",
          severity: "info",
          field,
          what: `${field} can be read two ways; ${order === "day-first" ? "the day" : "the month"} is taken to come first, as in the column's other dates`,
          whatToDo: "Write dates as YYYY-MM-DD",
          example: String(value),
        });
      }
      if ("fault" in parsed) {
        if (parsed.fault === "not-a-date") return unreadable(feature, field, value, "a date");
        const isImpossible = parsed.fault === "impossible";
        log.note(feature, {
          code: isImpossible ? "impossible-date" : "ambiguous-date",
          severity: "warning",
          field,
          value,
          reason: isImpossible
            ? "The calendar has no such day; the date is not used"
            : "Day and month can be read either way round; the date is not used",
          whatToDo: "Write dates as YYYY-MM-DD",
        });
        return null;
      }
      if (parsed.filledIn !== "nothing") {
        log.tally({
          code: "date-filled-in",
          severity: "info",
          field,
          what: `${field} ${FILLED_IN_WORDS[parsed.filledIn]}`,
          whatToDo: "Give full dates where they are known",
        });
      }
      if (parsed.filledIn === "month-and-day") {
        return parsed.date.slice(0, 4) === options.asOf.slice(0, 4) && parsed.date > options.asOf
          ? options.asOf
          : parsed.date;
      }
      if (parsed.date <= options.asOf) return parsed.date;
      log.note(feature, {
        code: "future-date",
        severity: "warning",
        field,
        value,
        reason: `The date lies after ${options.asOf}, for which the plan is made; it is not used`,
        whatToDo: "Correct the date, or make the plan for a later date",
      });
      return null;
    },
    flag(feature, field) {
      const value = raw(feature, field);
      if (value === null) return null;
      if (typeof value === "boolean") return value;
      const word =
        typeof value === "number" ? String(value) : typeof value === "string" ? value.trim().toLowerCase() : null;
      if (word === null) return unreadable(feature, field, value, "yes or no");
      return YES.has(word) ? true : NO.has(word) ? false : unreadable(feature, field, value, "yes or no");
    },
  };
}

const isZero = (value: unknown): boolean =>
  value === 0 || (typeof value === "string" && value.length <= MAX_TEXT && Number(value.trim() || "x") === 0);

const wholeNumber = (text: string): number => (/^\d{1,6}$/.test(text.trim()) ? Number(text.trim()) : Number.NaN);
