import type { Conflict } from "../model/conflict.ts";
import type { Certainty, ConflictKind } from "../model/terms.ts";
import type { WayEnvelope } from "../surroundings/surroundings.ts";
import { formatLength } from "../units/format-length.ts";
import { metersFromInches } from "../units/length.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, type End, FORECAST_DOUBT } from "./certainty.ts";
import { type CrownSize, lowerM, widestBetween, widestM } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { headroomPoints } from "./headroom-points.ts";
import { nearestInCrown } from "./nearest-in-crown.ts";
import { overArea, overWidened } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";

/** A trunk stands at least this far behind the edge of a traveled way: lateral offset of 18 in behind a curb (Green Book, from memory). */
const TRUNK_OFFSET_M = metersFromInches(18);
/** Error of a headroom measured in the field, meters, for certainty. Our policy: a staff is read to a decimeter. */
const HEADROOM_ERROR_M = 0.1;

/** Whether vehicles use a way: a headroom measured over the road can belong to it. */
export const isRoadKind = (kind: WayEnvelope["kind"]): boolean => kind !== "walkway" && kind !== "bikeway";

const NAMES: Readonly<Record<WayEnvelope["kind"], string>> = {
  roadway: "roadway",
  "bus-route": "bus route",
  "fire-lane": "fire lane",
  walkway: "walkway",
  bikeway: "bikeway",
};

/**
 * The conflict of a crown with a way below it: headroom under the lowest branches over the way against the rule's minimum.
 *
 * Growth in radius carries the crown farther over the way and branches droop; height growth, which would raise a rounded crown's underside,
 * is left out. `isFieldMeasured` says that the tree's own headroom over the road was measured at this way: it outranks the model.
 */
export function wayConflict(context: SearchContext, envelope: WayEnvelope, isFieldMeasured: boolean): Conflict | null {
  const { view, around, nearest, trunk, standard } = context;
  const kind: ConflictKind = envelope.kind;
  const rule = context.ruleOf(kind);
  const width = halfWidths(envelope, trunk.distanceM);
  if (rule === null || envelope.isCovered) return null;
  if (!around.isInside && nearest.distanceM - width.most > view.farM) return null;
  const isTrunkInside = trunk.isInside || (envelope.shape === "line" && trunk.distanceM < envelope.halfWidth.typicalM);
  // Of a walkway whose place is assumed, a trunk in it says nothing new.
  if (isTrunkInside && envelope.beside === undefined) findTrunk(context, envelope);

  const minimumM = rule.minimumM;
  const halfAt = (end: End): number => (end === "least" ? width.least : end === "most" ? width.most : width.typical);
  const shareAt = (size: CrownSize, end: End): number => nearestInCrown(around, halfAt(end), size);
  const isLow = (size: CrownSize, end: End, belowM: number): boolean =>
    shareAt(size, end) < widestBetween(size, Number.NEGATIVE_INFINITY, belowM);

  const begin = { xM: 0, yM: 0 };
  const share = nearestInCrown(around, width.typical, view.estimate, begin);
  const fieldM = isFieldMeasured ? view.tree.headroomOverRoadM : null;
  const droopM = standard.pruning.droopMPerYear;
  const holdsIn = (years: number): boolean =>
    fieldM !== null
      ? fieldM - droopM * years < minimumM
      : isLow(view.grown(years), "typical", minimumM + droopM * years);
  const reachedOn = dateReached(context.asOfDay, context.horizonYears, holdsIn);
  const isNow = holdsIn(0);

  const judged =
    fieldM === null
      ? certaintyWithForecast(view, (size, end) => isLow(size, end, minimumM), true, reachedOn !== null)
      : certaintyOfHeadroom(fieldM, minimumM, reachedOn !== null);
  if (judged === null) return null;
  const limited = envelope.beside === undefined ? judged : atMost(judged, envelope.beside.certainty);
  const certainty = isTrunkInside ? atMost(limited, "possible") : limited;

  const isOver = share <= 1;
  // A crown that is not over the way yet leaves it free up to the height at which its edge will come in.
  const modelM = isOver ? lowerM(view.estimate, share) : Math.max(minimumM, lowerM(view.estimate, 1));
  const halfM = width.typical;
  const region =
    envelope.shape === "area"
      ? overArea(around, view.axisM, view.farM, 0, rule.clearToM)
      : overWidened(around, certainty === "possible" ? width.most : halfM, view.axisM, view.farM, 0, rule.clearToM);
  const reach = widestBetween(view.estimate, Number.NEGATIVE_INFINITY, minimumM);
  const toward = around.isInside && envelope.shape === "area" ? -1 : 1;
  return context.conflict(envelope, rule, {
    kind,
    measuredM: fieldM ?? modelM,
    distanceM: around.isInside || (isTrunkInside && !view.isBesideTrunk) ? 0 : Math.max(0, nearest.distanceM - halfM),
    trunkDistanceM: isTrunkInside ? 0 : trunk.distanceM - halfM,
    towardXM: toward * nearest.xM,
    towardYM: toward * nearest.yM,
    certainty,
    basis: fieldM !== null ? "measured" : worstBasis(view.basis, envelope.widthBasis),
    doubt: doubtOf(
      context,
      envelope,
      certainty,
      isTrunkInside,
      isNow,
      isLow(view.estimate, "most", minimumM),
      fieldM !== null,
    ),
    isNow,
    reachedOn,
    nearest: headroomPoints(begin, share, 0, isOver && fieldM !== null ? fieldM : lowerM(view.estimate, share)),
    encroachment:
      isNow && reach > 0 ? encroachmentOf(region, view.estimate, reach, view.plane, view.xM, view.yM) : null,
    region,
  });
}

/**
 * Share of the crown radius at which a way begins, for finding the way a field measurement belongs to; Infinity out of reach.
 */
export function shareOfWay(context: SearchContext, envelope: WayEnvelope): number {
  const { typical } = halfWidths(envelope, context.nearest.distanceM);
  const { view, around, nearest } = context;
  if (!around.isInside && nearest.distanceM - typical > 2 * widestM(view.estimate)) return Number.POSITIVE_INFINITY;
  return nearestInCrown(around, typical, view.estimate);
}

/**
 * Half widths to measure with. The trunk itself is evidence: where an unmeasured width would put it on the way, the edge is taken to run
 * in front of it, but never nearer to the center than the least width.
 */
function halfWidths(envelope: WayEnvelope, distanceM: number): { least: number; typical: number; most: number } {
  const { minM, typicalM, maxM } = envelope.halfWidth;
  if (envelope.shape === "area" || envelope.widthBasis === "measured")
    return { least: minM, typical: typicalM, most: maxM };
  const beforeM = Math.max(minM, distanceM - TRUNK_OFFSET_M);
  return { least: minM, typical: Math.min(typicalM, beforeM), most: Math.min(maxM, beforeM) };
}

/** Certainty of a headroom measured in the field; null when it is not below the minimum within the horizon. */
function certaintyOfHeadroom(fieldM: number, minimumM: number, isReached: boolean): Certainty | null {
  if (fieldM + HEADROOM_ERROR_M < minimumM) return "confirmed";
  return isReached ? "probable" : null;
}

function findTrunk(context: SearchContext, envelope: WayEnvelope): void {
  const name = NAMES[envelope.kind];
  const isRoad = isRoadKind(envelope.kind);
  const named = envelope.withName === null ? `a ${name}` : `the ${name} ${envelope.withName}`;
  context.findOnTree(
    isRoad ? "trunk-in-roadway" : "trunk-in-walkway",
    isRoad && envelope.widthBasis === "measured" ? "warning" : "info",
    envelope.withId,
    `The trunk stands inside ${named} as mapped; its width is doubtful.`,
    "Survey the edge or correct the position; conflicts with this way are only possible until then.",
  );
}

function doubtOf(
  context: SearchContext,
  envelope: WayEnvelope,
  certainty: Certainty,
  isTrunkInside: boolean,
  isNow: boolean,
  holdsAtWidest: boolean,
  isFieldMeasured: boolean,
): string | null {
  if (certainty === "confirmed") return null;
  if (envelope.beside !== undefined) return envelope.beside.doubt;
  const { units } = context.options;
  if (isTrunkInside) return `The trunk stands inside the ${NAMES[envelope.kind]} as mapped: its width is doubtful.`;
  if (isFieldMeasured) {
    return isNow
      ? `The measured headroom is within ${formatLength(HEADROOM_ERROR_M, units)} of the minimum, as near as it is read.`
      : "A forecast: branches droop as they grow.";
  }
  if (context.view.isByPosition) return doubtOfSizes(context.view, certainty, units);
  const { minM, maxM } = envelope.halfWidth;
  if (certainty === "possible" && envelope.widthBasis !== "measured" && holdsAtWidest) {
    const what = envelope.kind === "walkway" || envelope.kind === "bikeway" ? "Path" : "Road";
    return `${what} width is ${envelope.widthBasis}: ${formatLength(2 * minM, units)} to ${formatLength(2 * maxM, units)}; needs an edge survey.`;
  }
  if (!isNow && certainty === "probable") return FORECAST_DOUBT;
  return doubtOfSizes(context.view, certainty, units);
}
