import type { Tree } from "../model/trees.ts";
import type { NestingDates, Standard } from "../standard/standard.ts";
import { formatMonthDay, halfYearOn } from "../units/month-day.ts";

/** Within this latitude birds nest all year round: the tropics of Cancer and Capricorn, rounded. */
const TROPIC_DEG = 23.5;

/**
 * The caution about nests with the dates of the standard: those read for the region where there are some, else the general ones, six months
 * on in the south; no dates within the tropics. Never a window: whether a nest is active is seen on site.
 */
export function nestingWords(tree: Tree, { nesting }: Standard, region: string | null): string {
  const stops = "an active nest stops the work";
  const own = nesting.byRegion.filter(({ regions }) => regions.some((code) => covers(code, region)));
  if (own.length > 0) {
    const dates = own.map((one) => `${one.birds} ${spanWords(one, false)}`).join("; ");
    return `Look for nests before cutting, above all in their season here (${dates}; confirm with the wildlife authority); ${stops}.`;
  }
  if (Math.abs(tree.latDeg) < TROPIC_DEG) {
    return `Look for nests before cutting, at any time of year (ask the wildlife authority for local seasons); ${stops}.`;
  }
  return `Look for nests before cutting, above all from ${spanWords(nesting, tree.latDeg < 0)} (dates differ by region; ask the wildlife authority); ${stops}.`;
}

function spanWords({ from, to }: NestingDates, isSouth: boolean): string {
  const at = (monthDay: string) => formatMonthDay(isSouth ? halfYearOn(monthDay) : monthDay);
  return `${at(from)} to ${at(to)}`;
}

const covers = (code: string, region: string | null): boolean =>
  region !== null && (region === code || region.startsWith(`${code}-`));
