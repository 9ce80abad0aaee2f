import type { Conflict } from "../model/conflict.ts";
import type { SightEnvelope } from "../surroundings/surroundings.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, FORECAST_DOUBT } from "./certainty.ts";
import { type CrownSize, lowerM, widestBetween } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { headroomPoints } from "./headroom-points.ts";
import { nearestInCrown } from "./nearest-in-crown.ts";
import { overArea } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";
import { noteTrunk } from "./trunk-in-sight.ts";

/**
 * The conflict of a crown with an area of sight: foliage over the area inside its vertical window, measured by the height of the lowest
 * branches over it. A crown wholly above the window is none, and neither is a plant that stays below it. A trunk inside the area is noted as the
 * standard says, but only foliage is pruned. Heights count from the tree's own ground, taken for the rule's datum.
 *
 * Where the area itself is in doubt the conflict is `probable` at most; where its control is only assumed, `possible`.
 */
export function sightConflict(context: SearchContext, envelope: SightEnvelope): Conflict | null {
  const { view, around, nearest, trunk, standard } = context;
  const { area } = envelope;
  const rule = standard.rules.find(({ id }) => id === area.ruleId) ?? context.ruleOf(area.kind);
  if (rule === null || (!around.isInside && nearest.distanceM > view.farM)) return null;
  if (trunk.isInside) noteTrunk(context, area);
  const { windowLowM, windowHighM } = area;
  const droopM = standard.pruning.droopMPerYear;
  const hides = (size: CrownSize, years: number): boolean =>
    nearestInCrown(around, 0, size) < widestBetween(size, windowLowM, windowHighM + droopM * years);
  // What stands below the window grows up into it; what is taller only widens there, for growth in height lifts its widest part.
  const isBelow = view.estimate.heightM <= windowLowM;
  const reachedOn = dateReached(context.asOfDay, context.horizonYears, (years) =>
    hides(isBelow ? view.grownTaller(years) : view.grown(years), years),
  );
  const isNow = hides(view.estimate, 0);
  const judged = certaintyWithForecast(view, (size) => hides(size, 0), area.doubt === null, reachedOn !== null);
  if (judged === null) return null;
  const limit = envelope.atMost ?? (area.doubt === null ? "confirmed" : "probable");
  const certainty = atMost(judged, limit);
  const begin = { xM: 0, yM: 0 };
  const share = nearestInCrown(around, 0, view.estimate, begin);
  const lowM = lowerM(view.estimate, share);
  const clearToM = Math.max(rule.clearToM, windowHighM);
  const region = overArea(around, view.axisM, view.farM, windowLowM, clearToM);
  const reach = widestBetween(view.estimate, windowLowM, windowHighM);
  const inIt = trunk.isInside ? " The trunk itself stands in the view." : "";
  const sizes = !isNow && certainty === "probable" ? FORECAST_DOUBT : doubtOfSizes(view, judged, context.options.units);
  // What limits the certainty most is what is told.
  const doubt = certainty !== judged || (certainty === limit && area.doubt !== null) ? (area.doubt ?? sizes) : sizes;
  return context.conflict(envelope, rule, {
    kind: area.kind,
    measuredM: isNow ? lowM : Math.max(windowHighM, lowM),
    minimumM: windowHighM,
    clearToM,
    distanceM: around.isInside ? 0 : nearest.distanceM,
    towardXM: around.isInside ? -nearest.xM : nearest.xM,
    towardYM: around.isInside ? -nearest.yM : nearest.yM,
    certainty,
    basis: worstBasis(view.basis, area.doubt === null ? "measured" : "assumed"),
    doubt: doubt === null ? null : doubt + inIt,
    isNow,
    reachedOn,
    nearest: headroomPoints(begin, share, 0, lowM),
    encroachment: isNow ? encroachmentOf(region, view.estimate, reach, view.plane, view.xM, view.yM) : null,
    region,
  });
}
