import type { Conflict } from "../model/conflict.ts";
import type { BuildingEnvelope } from "../surroundings/surroundings.ts";
import { formatLength } from "../units/format-length.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, FORECAST_DOUBT } from "./certainty.ts";
import { type CrownSize, emptyCrownSize, isRound, scaleInto, widestBetween, widestM } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { type Between, emptyBetween, gapToOutlineM } from "./gap-to-outline.ts";
import { behindOutline, beyondOffset } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";
import { widestHeightM } from "./widest-height.ts";

/**
 * The conflict of a crown with a wall: the horizontal gap between the wall and the crown's surface, over the heights from the ground to the
 * eaves, against the rule's minimum; negative where the crown's outline passes the wall.
 *
 * A trunk inside the footprint is a finding, not a conflict. A trunk inside the wall's minimum is a finding too: only limbs toward the wall
 * can be cleared.
 */
export function buildingSideConflict(context: SearchContext, envelope: BuildingEnvelope): Conflict | null {
  const { view, around, nearest, trunk } = context;
  const rule = context.ruleOf("building-side");
  if (rule === null) return null;
  const named = envelope.withName === null ? "a building" : `building ${envelope.withName}`;
  if (trunk.isInside) {
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
  // A building on the ground is met by foliage at any height below its eaves, even where the ground falls away.
  const bottomM = envelope.bottomM > 0 ? envelope.bottomM : Number.NEGATIVE_INFINITY;
  const { units } = context.options;
  if (trunk.distanceM < minimumM) {
    context.findOnTree(
      "trunk-inside-clearance",
      "info",
      envelope.withId,
      `The trunk stands ${formatLength(trunk.distanceM, units)} from ${named}, nearer than the ${formatLength(minimumM, units)} its wall is kept clear by.`,
      "Pruning clears the limbs toward the wall only; the rest is for an arborist to judge.",
    );
  }
  if (!around.isInside && nearest.distanceM - minimumM > view.farM) return null;
  // The axis of a leaning crown can stand over the building: the outline then passes the wall by all the more.
  const toWallM = around.isInside ? -nearest.distanceM : nearest.distanceM;

  const scaled = emptyCrownSize();
  const gapM = (size: CrownSize): number => {
    const widest = widestBetween(size, bottomM, envelope.heightM);
    if (widest < 0) return Number.POSITIVE_INFINITY;
    if (isRound(size) || around.isInside) return toWallM - widest * widestM(size);
    scaleInto(scaled, size, widest, 0);
    return gapToOutlineM(around, scaled);
  };
  const reachedOn = dateReached(context.asOfDay, context.horizonYears, (years) => gapM(view.grown(years)) < minimumM);
  const measuredM = gapM(view.estimate);
  const isNow = measuredM < minimumM;
  const wallBasis = worstBasis(envelope.heightBasis, envelope.bottomBasis);
  const isEavesSure = wallBasis === "measured";
  const judged = certaintyWithForecast(view, (size) => gapM(size) < minimumM, isEavesSure, reachedOn !== null);
  if (judged === null) return null;
  const certainty = isEavesSure ? judged : atMost(judged, "probable");

  const sizes = doubtOfSizes(view, certainty, units);
  const eaves = isEavesSure
    ? null
    : `The building's height ${envelope.bottomM > 0 ? "or underside " : ""}is ${wallBasis}.`;
  const eavesM = Math.min(envelope.heightM, view.tree.height.highM);
  const region = beyondOffset(around, rule.clearToM, true, view.axisM, view.farM, envelope.bottomM, envelope.heightM);
  const widest = widestBetween(view.estimate, bottomM, eavesM);
  const within = isNow ? beyondOffset(around, minimumM, true, view.axisM, view.farM, bottomM, eavesM) : null;
  const heightM = widestHeightM(view.estimate, bottomM, envelope.heightM);
  const between = betweenOutlines(context, Math.max(0, widestBetween(view.estimate, bottomM, envelope.heightM)));
  return context.conflict(envelope, rule, {
    kind: "building-side",
    // A crown wholly above the eaves has no gap to the wall; a forecast or a doubtful one is given that of its widest part.
    measuredM: Number.isFinite(measuredM) ? measuredM : Math.max(minimumM, toWallM - widestM(view.estimate)),
    distanceM: Math.max(0, toWallM),
    towardXM: around.isInside ? -nearest.xM : nearest.xM,
    towardYM: around.isInside ? -nearest.yM : nearest.yM,
    certainty,
    basis: worstBasis(view.basis, wallBasis),
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
    nearest: {
      thing: { xM: between.thingXM, yM: between.thingYM, heightM: Math.min(heightM, envelope.heightM) },
      crown: { xM: between.crownXM, yM: between.crownYM, heightM },
    },
    encroachment: within === null ? null : encroachmentOf(within, view.estimate, widest, view.plane, view.xM, view.yM),
    region,
    // A wall beyond the crown bounds nothing, but how far it is tells where tips are cut before it.
    solid: behindOutline(around, view.farM + rule.clearToM, envelope.bottomM, envelope.heightM),
  });
}

/** The nearest points of the wall and of the crown at a share of its radii, relative to the trunk. */
function betweenOutlines({ view, around, nearest }: SearchContext, share: number): Between {
  const between = emptyBetween();
  if (isRound(view.estimate)) {
    const scale = nearest.distanceM > 0 ? (share * widestM(view.estimate)) / nearest.distanceM : 0;
    between.thingXM = nearest.xM;
    between.thingYM = nearest.yM;
    between.crownXM = nearest.xM * scale;
    between.crownYM = nearest.yM * scale;
    return between;
  }
  const scaled = emptyCrownSize();
  scaleInto(scaled, view.estimate, share, 0);
  gapToOutlineM(around, scaled, between);
  return between;
}
