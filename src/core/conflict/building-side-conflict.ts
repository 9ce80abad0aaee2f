import type { Conflict } from "../model/conflict.ts";
import type { BuildingEnvelope } from "../surroundings/surroundings.ts";
import { formatLength } from "../units/format-length.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, FORECAST_DOUBT } from "./certainty.ts";
import { type CrownSize, emptyCrownSize, isRound, scaleInto, widestBetween, widestM } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { gapToOutlineM } from "./gap-to-outline.ts";
import { behindOutline, beyondOffset } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";

/**
 * The conflict of a crown with a wall: the horizontal gap between the wall and the crown's surface, over the heights from the ground to the
 * eaves, against the rule's minimum; negative where the crown's outline passes the wall.
 *
 * A trunk inside the footprint is a finding, not a conflict. A trunk inside the wall's minimum is a finding too: only limbs toward the wall
 * can be cleared.
 */
export function buildingSideConflict(context: SearchContext, envelope: BuildingEnvelope): Conflict | null {
  const { view, around, nearest } = context;
  const rule = context.ruleOf("building-side");
  if (rule === null) return null;
  const named = envelope.withName === null ? "a building" : `building ${envelope.withName}`;
  if (around.isInside) {
    context.findOnTree(
      "trunk-in-footprint",
      "warning",
      envelope.withId,
      `The trunk stands inside the footprint of ${named}; the tree is not measured against it.`,
      "Correct the tree's position or the footprint.",
    );
    return null;
  }
  const minimumM = rule.minimumM;
  const { units } = context.options;
  if (nearest.distanceM < minimumM) {
    context.findOnTree(
      "trunk-inside-clearance",
      "info",
      envelope.withId,
      `The trunk stands ${formatLength(nearest.distanceM, units)} from ${named}, nearer than the ${formatLength(minimumM, units)} its wall is kept clear by.`,
      "Pruning clears the limbs toward the wall only; the rest is for an arborist to judge.",
    );
  }
  if (nearest.distanceM - minimumM > view.farM) return null;

  const scaled = emptyCrownSize();
  const gapM = (size: CrownSize): number => {
    const widest = widestBetween(size, Number.NEGATIVE_INFINITY, envelope.heightM);
    if (widest < 0) return Number.POSITIVE_INFINITY;
    if (isRound(size)) return nearest.distanceM - widest * widestM(size);
    scaleInto(scaled, size, widest, 0);
    return gapToOutlineM(around, scaled);
  };
  const reachedOn = dateReached(context.asOfDay, context.horizonYears, (years) => gapM(view.grown(years)) < minimumM);
  const measuredM = gapM(view.estimate);
  const isNow = measuredM < minimumM;
  const isEavesSure = envelope.heightBasis === "measured";
  const judged = certaintyWithForecast(view, (size) => gapM(size) < minimumM, isEavesSure, reachedOn !== null);
  if (judged === null) return null;
  const certainty = isEavesSure ? judged : atMost(judged, "probable");

  const sizes = doubtOfSizes(view, certainty, units);
  const eaves = isEavesSure ? null : `The building's height is ${envelope.heightBasis}.`;
  const eavesM = Math.min(envelope.heightM, view.tree.height.highM);
  const region = beyondOffset(around, rule.clearToM, true, view.axisM, view.farM, 0, envelope.heightM);
  const widest = widestBetween(view.estimate, Number.NEGATIVE_INFINITY, eavesM);
  const within = isNow ? beyondOffset(around, minimumM, true, view.axisM, view.farM, 0, envelope.heightM) : null;
  return context.conflict(envelope, rule, {
    kind: "building-side",
    // A crown wholly above the eaves has no gap to the wall; a forecast or a doubtful one is given that of its widest part.
    measuredM: Number.isFinite(measuredM) ? measuredM : Math.max(minimumM, nearest.distanceM - widestM(view.estimate)),
    distanceM: nearest.distanceM,
    towardXM: nearest.xM,
    towardYM: nearest.yM,
    certainty,
    basis: worstBasis(view.basis, envelope.heightBasis),
    doubt:
      certainty === "confirmed"
        ? null
        : !isNow && certainty === "probable"
          ? FORECAST_DOUBT
          : certainty === "probable"
            ? (eaves ?? sizes)
            : sizes,
    isNow,
    reachedOn,
    encroachment: within === null ? null : encroachmentOf(within, view.estimate, widest, view.plane, view.xM, view.yM),
    region,
    // A wall beyond the crown bounds nothing, but how far it is tells where tips are cut before it.
    solid: behindOutline(around, view.farM + rule.clearToM, envelope.heightM),
  });
}
