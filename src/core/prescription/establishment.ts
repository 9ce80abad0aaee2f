import type { Place } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addMonths, type IsoDate } from "../units/calendar.ts";
import { METERS_PER_INCH } from "../units/length.ts";
import { stemDiameterM } from "./limb.ts";

/** Caliper in inches taken for a new planting of unknown size: our policy, a common street-tree stock size. */
const ASSUMED_CALIPER_IN = 2;

/**
 * Months from planting until a tree's roots are established, by caliper in inches and hardiness zone, never more than the standard's
 * maximum. Univ. of Florida: 3 months an inch in zones 9 and up, 6 in 7 and 8, 12 in 2 to 6; an unknown zone takes the longest.
 */
export function establishmentMonths(caliperIn: number, hardinessZone: number | null, standard: Standard): number {
  const { establishmentMonthsPerInch: perInch, establishmentMaxMonths } = standard.pruning;
  return Math.min(establishmentMaxMonths, caliperIn * perInch[zoneBand(hardinessZone)]);
}

/**
 * The date from which a tree counts as established, rounded up to the whole month from planting; null when it does by now.
 *
 * Without a planting date a stem over the standard's diameter counts as established. A thinner one may be new: it is given the
 * months its own diameter would need from the as-of date, and enters the list again once it is thicker or dated.
 */
export function establishedOn(tree: Tree, place: Place, standard: Standard, asOf: IsoDate): IsoDate | null {
  const stemM = stemDiameterM(tree);
  if (tree.planted === null && stemM > standard.pruning.establishedDbhM) return null;
  const caliperM = tree.caliperAtPlantingM ?? (tree.planted === null ? stemM : ASSUMED_CALIPER_IN * METERS_PER_INCH);
  // 0.0508 m over 0.0254 m is 2 only up to rounding, which must not cost a month.
  const months = Math.ceil(establishmentMonths(caliperM / METERS_PER_INCH, place.hardinessZone, standard) - 1e-9);
  const date = addMonths(tree.planted ?? asOf, months);
  return date > asOf ? date : null;
}

function zoneBand(zone: number | null): "2-6" | "7-8" | "9-13" | "unknown" {
  if (zone === null || !Number.isFinite(zone)) return "unknown";
  if (zone >= 9) return "9-13";
  return zone >= 7 ? "7-8" : "2-6";
}
