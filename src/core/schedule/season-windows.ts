import type { Tree } from "../model/trees.ts";
import type { SeasonRule } from "../standard/standard.ts";
import { dateOfDay, dayNumber, type IsoDate } from "../units/calendar.ts";
import { halfYearOn } from "../units/month-day.ts";

/** A run of allowed days, as day numbers, both inclusive. */
export interface DayWindow {
  readonly startDay: number;
  readonly endDay: number;
}

/** When the rules let a tree be pruned. */
export interface SeasonWindows {
  /** Ascending, apart from one another; empty when no rule binds the tree. */
  readonly windows: readonly DayWindow[];
  readonly isAnyTime: boolean;
  /** Rules that shape the windows. */
  readonly rules: readonly SeasonRule[];
  /** Preferences that were set aside because too few days would be left. */
  readonly setAside: readonly SeasonRule[];
}

/** Latitude within which there is no dormancy to time work by: the tropics of Cancer and Capricorn, rounded. */
const TROPIC_DEG = 23.5;
/** With fewer allowed days in a year than this, preferences give way; our policy, about a winter's two months of work. */
const LEAST_DAYS = 60;
/** Day 0 of a leap year, so that 29 February has a place of its own. */
const LEAP_YEAR = 2024;
const LEAP_DAYS = 366;
/** Place of 29 February. */
const LEAP_DAY = 59;

/**
 * Season rules that bind a tree: by genus or species, by kind of tree and by region (a country's code covers its parts). Generic rules do not
 * hold in the tropics; regional ones hold wherever the region is the place's, and nowhere while it is unknown.
 */
export function rulesFor(tree: Tree, seasons: readonly SeasonRule[], region: string | null): SeasonRule[] {
  const isTropical = Math.abs(tree.latDeg) < TROPIC_DEG;
  return seasons.filter(
    (rule) =>
      (rule.genera.length === 0 || rule.genera.includes(tree.traits.genus)) &&
      isOfSpecies(tree, rule.species) &&
      isKind(tree, rule.appliesTo) &&
      (rule.regions.length === 0 || rule.regions.some((code) => covers(code, region))) &&
      !(isTropical && rule.shiftsSouth),
  );
}

/** Windows in which none of the rules is broken, from a year before a date to `years` after it. */
export function seasonWindows(
  rules: readonly SeasonRule[],
  isSouth: boolean,
  asOf: IsoDate,
  years: number,
): SeasonWindows {
  let kept = rules;
  let blocked = blockedDays(kept, isSouth);
  let setAside: readonly SeasonRule[] = [];
  if (countFree(blocked) < LEAST_DAYS) {
    setAside = rules.filter((rule) => rule.rank === "preference");
    kept = rules.filter((rule) => rule.rank !== "preference");
    blocked = blockedDays(kept, isSouth);
  }
  const isAnyTime = countFree(blocked) === LEAP_DAYS;
  const windows: DayWindow[] = [];
  if (!isAnyTime) {
    const first = dayNumber(asOf) - LEAP_DAYS;
    const last = dayNumber(asOf) + Math.ceil(years * 365.25);
    let startDay: number | null = null;
    let at = leapIndex(dateOfDay(first).slice(5));
    for (let day = first; day <= last + 1; day += 1) {
      const isFree = day <= last && blocked[at] === 0;
      if (isFree) startDay ??= day;
      else if (startDay !== null) {
        windows.push({ startDay, endDay: day - 1 });
        startDay = null;
      }
      at = (at + 1) % LEAP_DAYS;
      if (at === LEAP_DAY && dateOfDay(day + 1).slice(5) !== "02-29") at += 1;
    }
  }
  return { windows, isAnyTime, rules: kept, setAside };
}

/** The rules that forbid a day. */
export const rulesAgainst = (rules: readonly SeasonRule[], isSouth: boolean, date: IsoDate): SeasonRule[] =>
  rules.filter((rule) => isBlocked(rule, isSouth, leapIndex(date.slice(5))));

/** First and last month-day of a rule where it is applied: six months on in the south if it moves. */
export function ruleSpan(rule: SeasonRule, isSouth: boolean): readonly [string, string] {
  const moves = isSouth && rule.shiftsSouth;
  return moves ? [halfYearOn(rule.avoidFrom), halfYearOn(rule.avoidTo)] : [rule.avoidFrom, rule.avoidTo];
}

function blockedDays(rules: readonly SeasonRule[], isSouth: boolean): Uint8Array {
  return Uint8Array.from({ length: LEAP_DAYS }, (_, at) =>
    rules.some((rule) => isBlocked(rule, isSouth, at)) ? 1 : 0,
  );
}

/** Whether a rule forbids the day at a place of the leap year; one such as 1 December to 31 March runs over the end of the year. */
function isBlocked(rule: SeasonRule, isSouth: boolean, at: number): boolean {
  const [from, to] = ruleSpan(rule, isSouth).map(leapIndex) as [number, number];
  return from <= to ? at >= from && at <= to : at >= from || at <= to;
}

const countFree = (blocked: Uint8Array): number => blocked.reduce((free, one) => free + (one === 0 ? 1 : 0), 0);

/** Place of a month-day in a leap year, from 0. */
const leapIndex = (monthDay: string): number =>
  dayNumber(`${LEAP_YEAR}-${monthDay}` as IsoDate) - dayNumber(`${LEAP_YEAR}-01-01` as IsoDate);

/** Whether the tree is of one of some species, as a whole name or the beginning of a longer one (varieties, cultivars). */
function isOfSpecies({ species }: Tree, names: readonly string[]): boolean {
  if (names.length === 0) return true;
  const own = `${species ?? ""} `.toLowerCase();
  return names.some((name) => own.startsWith(`${name.toLowerCase()} `));
}

function isKind(tree: Tree, kind: SeasonRule["appliesTo"]): boolean {
  const { isEvergreen, isConifer, springBlooming, bleeds } = tree.traits;
  switch (kind) {
    case "all":
      return true;
    case "deciduous":
      return !isEvergreen && tree.form !== "palm";
    case "evergreen":
      return isEvergreen || tree.form === "palm";
    case "conifer":
      return isConifer || tree.form === "conifer";
    case "spring-blooming":
      return springBlooming;
    case "bleeding":
      return bleeds;
  }
}

const covers = (code: string, region: string | null): boolean =>
  region !== null && (region === code || region.startsWith(`${code}-`));
