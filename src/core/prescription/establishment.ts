import { stemDiameterM } from "../crown/stem-diameter.ts";
import type { Place } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addMonths, type IsoDate } from "../units/calendar.ts";
import { METERS_PER_INCH, metersFromFeet } from "../units/length.ts";
import { isWoody } from "./kinds.ts";

/** Caliper in inches taken for a new planting of unknown size: our policy, a common street-tree stock size. */
const ASSUMED_CALIPER_IN = 2;
/** No nursery tree up to the standard's established diameter is taller: 22 ft for 4 in stock (ANSI Z60.1, from memory). */
const TALLEST_STOCK_M = metersFromFeet(22);
/** Nor has it a wider crown: 10 ft of spread, common practice, no source. */
const WIDEST_STOCK_RADIUS_M = metersFromFeet(5);

/**
 * Months from planting until a tree's roots are established, by caliper in inches and hardiness zone, never more than the standard's
 * maximum. Univ. of Florida: 3 months an inch in zones 9 and up, 6 in 7 and 8, 12 in 2 to 6; an unknown zone takes the longest.
 */
export function establishmentMonths(caliperIn: number, hardinessZone: number | null, standard: Standard): number {
  const { establishmentMonthsPerInch: perInch, establishmentMaxMonths } = standard.pruning;
  return Math.min(establishmentMaxMonths, caliperIn * perInch[zoneBand(hardinessZone)]);
}

/** Whole months that a tree of its stem takes, counted from planting. */
export function monthsToEstablish(tree: Tree, place: Place, standard: Standard): number {
  const caliperM =
    tree.caliperAtPlantingM ?? (tree.planted === null ? stemDiameterM(tree) : ASSUMED_CALIPER_IN * METERS_PER_INCH);
  // 0.0508 m over 0.0254 m is 2 only up to rounding, which must not cost a month.
  return Math.ceil(establishmentMonths(caliperM / METERS_PER_INCH, place.hardinessZone, standard) - 1e-9);
}

/**
 * The date from which a tree counts as established, rounded up to the whole month from planting; null when it does by now.
 *
 * Without a planting date a tree may be new only if it is of a size that is planted: a stem over the standard's diameter, a measured
 * height or crown larger than nursery stock's, or a shrub, whose stems stay thin, counts as established. Any other is given the months
 * its own stem would need from the day it is first known of: its last pruning, `knownSince` (when a conflict of it was first seen),
 * else the as-of date.
 */
export function establishedOn(
  tree: Tree,
  place: Place,
  standard: Standard,
  asOf: IsoDate,
  knownSince: IsoDate | null = null,
): IsoDate | null {
  if (tree.planted === null && !mayBeNew(tree, standard)) return null;
  const since = tree.planted ?? earlier(earlier(asOf, tree.lastPruned), knownSince);
  const date = addMonths(since, monthsToEstablish(tree, place, standard));
  return date > asOf ? date : null;
}

function mayBeNew(tree: Tree, standard: Standard): boolean {
  const { height, radius } = tree;
  // Of a class of diameters the thin end decides: the tree may be as young as that.
  const thinM = tree.dbhLowM ?? stemDiameterM(tree);
  if (!isWoody(tree) || thinM > standard.pruning.establishedDbhM) return false;
  if (height.basis === "measured" && height.valueM > TALLEST_STOCK_M) return false;
  return !(radius.basis === "measured" && radius.valueM > WIDEST_STOCK_RADIUS_M);
}

const earlier = (one: IsoDate, other: IsoDate | null): IsoDate => (other !== null && other < one ? other : one);

function zoneBand(zone: number | null): "2-6" | "7-8" | "9-13" | "unknown" {
  if (zone === null || !Number.isFinite(zone)) return "unknown";
  if (zone >= 9) return "9-13";
  return zone >= 7 ? "7-8" : "2-6";
}
