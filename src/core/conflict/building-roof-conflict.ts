import type { Conflict } from "../model/conflict.ts";
import type { BuildingEnvelope } from "../surroundings/surroundings.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, FORECAST_DOUBT } from "./certainty.ts";
import { type CrownSize, lowerM, widestBetween } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { headroomPoints } from "./headroom-points.ts";
import { nearestInCrown } from "./nearest-in-crown.ts";
import { overArea } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";

/**
 * The conflict of a crown with the roof below it: the height of the lowest branches over the footprint above the roof against the rule's
 * minimum; negative where the crown reaches below the roof's edge. Foliage wholly below the roof is the wall's matter. Roofs are flat, at
 * the building's height. A trunk inside the footprint gives no conflict: the wall's measuring reports it.
 */
export function buildingRoofConflict(context: SearchContext, envelope: BuildingEnvelope): Conflict | null {
  const { view, around, nearest, trunk, standard } = context;
  const rule = context.ruleOf("building-roof");
  if (rule === null || trunk.isInside || (!around.isInside && nearest.distanceM > view.farM)) return null;
  const roofM = envelope.heightM;
  const minimumM = rule.minimumM;
  const droopM = standard.pruning.droopMPerYear;
  const growthM = Math.max(0, view.tree.traits.heightGrowthMPerYear);
  // After some years the underside has drooped and the top grown: the same as a window opened by both.
  const isLow = (size: CrownSize, years: number): boolean =>
    nearestInCrown(around, 0, size) < widestBetween(size, roofM - growthM * years, roofM + minimumM + droopM * years);
  const reachedOn = dateReached(context.asOfDay, context.horizonYears, (years) => isLow(view.grown(years), years));
  const isNow = isLow(view.estimate, 0);
  const isRoofSure = envelope.heightBasis === "measured";
  const judged = certaintyWithForecast(view, (size) => isLow(size, 0), isRoofSure, reachedOn !== null);
  if (judged === null) return null;
  const certainty = isRoofSure ? judged : atMost(judged, "probable");

  const begin = { xM: 0, yM: 0 };
  const share = nearestInCrown(around, 0, view.estimate, begin);
  const aboveM = lowerM(view.estimate, share) - roofM;
  const region = overArea(around, view.axisM, view.farM, roofM, roofM + rule.clearToM);
  const reach = widestBetween(view.estimate, roofM, roofM + minimumM);
  const roof = isRoofSure ? null : `The building's height is ${envelope.heightBasis}.`;
  const sizes = doubtOfSizes(view, certainty, context.options.units);
  return context.conflict(envelope, rule, {
    kind: "building-roof",
    // A crown not over the roof yet leaves it free.
    measuredM: isNow ? aboveM : Math.max(minimumM, aboveM),
    // A leaning crown's own axis can stand over the roof.
    distanceM: around.isInside ? 0 : nearest.distanceM,
    towardXM: around.isInside ? -nearest.xM : nearest.xM,
    towardYM: around.isInside ? -nearest.yM : nearest.yM,
    certainty,
    basis: worstBasis(view.basis, envelope.heightBasis),
    doubt:
      certainty === "confirmed"
        ? null
        : !isNow && certainty === "probable"
          ? FORECAST_DOUBT
          : certainty === "probable"
            ? (roof ?? sizes)
            : sizes,
    isNow,
    reachedOn,
    datumM: roofM,
    nearest: headroomPoints(begin, share, roofM, lowerM(view.estimate, share)),
    encroachment: isNow ? encroachmentOf(region, view.estimate, reach, view.plane, view.xM, view.yM) : null,
    region,
  });
}
