import type { Conflict } from "../model/conflict.ts";
import type { ClearanceRemedy } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { isHeadroom } from "./kinds.ts";

/** How far a cure must reach: to the clear-to at least, or only so far that the minimum holds for its years. */
export type Reach = "clear-to" | "short";

/** Of a limb less than this share of its length cannot stay: a lateral of a third to take over is not to be expected. Our policy. */
export const LEAST_LEFT_SHARE = 1 / 3;

/**
 * Nobody is sent for a cure that holds shorter than this, unless a hazard asks for it: a growing season, so that every window of the year comes
 * round once before the minimum is reached again. Our policy.
 */
export const LEAST_YEARS = 1;

/** The longest shoots of the first year after line pruning, three species in Montreal, meters (Follett and others 2016, read). */
const FIRST_YEAR_SHOOT_M = 1.5;

/** Meters a year by which a cut loses clearance: regrowth by kind of cut (standard, policy), and droop where headroom counts. */
export function lossMPerYear(conflict: Conflict, remedy: ClearanceRemedy, standard: Standard): number {
  const { regrowthShortenMPerYear, regrowthRemoveMPerYear, droopMPerYear } = standard.pruning;
  const regrowth = remedy === "shorten" ? regrowthShortenMPerYear : regrowthRemoveMPerYear;
  return regrowth + (isHeadroom(conflict.kind) ? droopMPerYear : 0);
}

/**
 * Whether the trunk stands so near to a wall that of a limb cut back to the clear-to less than a third would stay: within one and a half
 * times the clear-to. Such a tree is cleared as far as its limits allow, to the minimum at least, or it would lose every limb on that side.
 */
export const standsNearWall = (conflict: Conflict): boolean =>
  conflict.kind === "building-side" &&
  conflict.solid !== undefined &&
  conflict.distanceM * (1 - LEAST_LEFT_SHARE) < conflict.clearToM;

/**
 * Whether pruning may stop short of the clear-to: beside every wall that {@link standsNearWall}; at other walls, over roofs and at lines where
 * nothing that reaches it is allowed. Over ways and in views minimum and clear-to lie too near together for a cure between them to last.
 */
export const mayStopShort = (conflict: Conflict, reach: Reach): boolean =>
  standsNearWall(conflict) || (reach === "short" && isCleared(conflict));

const isCleared = ({ kind, solid }: Conflict): boolean =>
  kind === "conductor" || kind === "building-roof" || (kind === "building-side" && solid !== undefined);

/** What must stay free in meters even when branches hang at their lowest of the year: the minimum and the droop allowance above it. */
const leastFreeM = ({ minimumM, droopAllowanceM }: Conflict): number => minimumM + (droopAllowanceM ?? 0);

/** What must be free in meters on the day of the work so that the minimum holds for some years, whatever the clear-to. */
export function neededM(
  conflict: Conflict,
  remedy: ClearanceRemedy,
  years: number,
  reach: Reach,
  standard: Standard,
): number {
  const lossM = lossMPerYear(conflict, remedy, standard);
  // With less than the clear-to at a line there is nothing to spare for a first year of long shoots.
  const firstM = conflict.kind === "conductor" && reach === "short" ? Math.max(lossM, FIRST_YEAR_SHOOT_M) : lossM;
  return leastFreeM(conflict) + (years < 1 ? firstM * years : firstM + lossM * (years - 1));
}

/** Years until the least cut that is allowed is back at the minimum: one that just reaches the clear-to, or a year's where it may stop short. */
export const yearsAtClearTo = (
  conflict: Conflict,
  remedy: ClearanceRemedy,
  standard: Standard,
  reach: Reach = "clear-to",
): number =>
  mayStopShort(conflict, reach)
    ? LEAST_YEARS
    : Math.max(0, conflict.clearToM - leastFreeM(conflict)) / lossMPerYear(conflict, remedy, standard);
