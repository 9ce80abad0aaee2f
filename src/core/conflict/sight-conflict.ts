import type { Conflict } from "../model/conflict.ts";
import type { SightEnvelope } from "../surroundings/surroundings.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, FORECAST_DOUBT } from "./certainty.ts";
import { type CrownSize, lowerM, widestBetween } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { nearestInCrown } from "./nearest-in-crown.ts";
import { overArea } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";

/**
 * The conflict of a crown with a sight triangle: foliage over the triangle inside its vertical window, measured by the height of the lowest
 * branches over it. A trunk inside the triangle is noted, but only foliage is pruned. How much of the road the tree hides is not measured.
 */
export function sightConflict(context: SearchContext, envelope: SightEnvelope): Conflict | null {
  const { view, around, nearest, standard } = context;
  const { area } = envelope;
  const rule = standard.rules.find(({ id }) => id === area.ruleId) ?? context.ruleOf("sight-triangle");
  if (rule === null || (!around.isInside && nearest.distanceM > view.farM)) return null;
  const { windowLowM, windowHighM } = area;
  const droopM = standard.pruning.droopMPerYear;
  const hides = (size: CrownSize, years: number): boolean =>
    nearestInCrown(around, 0, size) < widestBetween(size, windowLowM, windowHighM + droopM * years);
  const reachedOn = dateReached(context.asOfDay, context.horizonYears, (years) => hides(view.grown(years), years));
  const isNow = hides(view.estimate, 0);
  const judged = certaintyWithForecast(view, (size) => hides(size, 0), area.doubt === null, reachedOn !== null);
  if (judged === null) return null;
  const certainty = area.doubt === null ? judged : atMost(judged, "probable");
  if (around.isInside) {
    context.findOnTree(
      "trunk-in-sight-triangle",
      "info",
      area.id,
      `The trunk stands inside a sight triangle of ${area.roadName ?? "an intersection"}.`,
      "Raising the crown clears the foliage; whether the trunk hides too much is for the traffic engineer.",
    );
  }
  const lowM = lowerM(view.estimate, nearestInCrown(around, 0, view.estimate));
  const clearToM = Math.max(standard.sight.clearToM, windowHighM);
  const region = overArea(around, view.axisM, view.farM, windowLowM, clearToM);
  const reach = widestBetween(view.estimate, windowLowM, windowHighM);
  const trunk = around.isInside ? " The trunk itself stands in the triangle." : "";
  const sizes =
    !isNow && certainty === "probable" ? FORECAST_DOUBT : doubtOfSizes(view, certainty, context.options.units);
  const doubt = certainty === "probable" ? (area.doubt ?? sizes) : sizes;
  return context.conflict(envelope, rule, {
    kind: "sight-triangle",
    measuredM: isNow ? lowM : Math.max(windowHighM, lowM),
    minimumM: windowHighM,
    clearToM,
    distanceM: around.isInside ? 0 : nearest.distanceM,
    towardXM: around.isInside ? -nearest.xM : nearest.xM,
    towardYM: around.isInside ? -nearest.yM : nearest.yM,
    certainty,
    basis: worstBasis(view.basis, area.doubt === null ? "measured" : "assumed"),
    doubt: doubt === null ? null : doubt + trunk,
    isNow,
    reachedOn,
    encroachment: isNow ? encroachmentOf(region, view.estimate, reach, view.plane, view.xM, view.yM) : null,
    region,
  });
}
