import type { Conflict } from "../model/conflict.ts";
import type { SightEnvelope } from "../surroundings/surroundings.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, FORECAST_DOUBT } from "./certainty.ts";
import { type CrownSize, lowerM, widestBetween, widestM } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { headroomPoints } from "./headroom-points.ts";
import { bandOf, hiddenParts, hidesAnything, type TrunkAt } from "./hidden/hidden-parts.ts";
import type { SightLine, SightScan } from "./hidden/sight-scan.ts";
import { nearestInCrown } from "./nearest-in-crown.ts";
import { overArea } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";

/** Higher than any tree, meters. */
const SKY_M = 200;

/**
 * The conflict of a crown with the view of a sign's or signal's face: foliage in a line of sight from the approach lane to any part of the face,
 * between its lower and upper edge, whose height varies along the line. A crown that clears all lines is none.
 *
 * Measured by the height of the lowest branches in the wedge. The minimum is the top of the lines of sight where they pass the tree, with what
 * the rule adds; clear-to the same with the rule's own. Both, and the region to be freed, take the lines over the whole of the crown, so that they
 * are never too low or too narrow. Heights count from the tree's own ground, taken for that of the road.
 */
export function faceConflict(context: SearchContext, envelope: SightEnvelope, scan: SightScan | null): Conflict | null {
  const { view, around, nearest, standard } = context;
  const { area } = envelope;
  const rule = standard.rules.find(({ id }) => id === area.ruleId) ?? context.ruleOf(area.kind);
  if (rule === null || scan === null || (!around.isInside && nearest.distanceM > view.farM)) return null;
  const band = bandOf(scan, "whole");
  const heights = heightsAtTree(scan, view, view.farM, [band.farLowM, band.farHighM]);
  if (heights === null || view.most.baseM >= heights[1] + 2 * standard.pruning.droopMPerYear * context.horizonYears) {
    return null;
  }
  const droopM = standard.pruning.droopMPerYear;
  const hides = (size: CrownSize, years: number): boolean =>
    hidesAnything(scan, view, { ...size, baseM: Math.max(0, size.baseM - droopM * years) }, band);
  const isBelow = view.estimate.heightM <= heights[0];
  const reachedOn = dateReached(context.asOfDay, context.horizonYears, (years) =>
    hides(isBelow ? view.grownTaller(years) : view.grown(years), years),
  );
  const isNow = hides(view.estimate, 0);
  const judged = certaintyWithForecast(view, (size) => hides(size, 0), area.doubt === null, reachedOn !== null);
  if (judged === null) return null;
  const [lowM, highM] =
    heightsAtTree(scan, view, isNow ? widestM(view.estimate) : view.farM, [band.farLowM, band.farHighM]) ?? heights;
  const limit = envelope.atMost ?? (area.doubt === null ? "confirmed" : "probable");
  const certainty = atMost(judged, limit);
  const begin = { xM: 0, yM: 0 };
  const share = nearestInCrown(around, 0, view.estimate, begin);
  const lowestM = lowerM(view.estimate, share);
  const minimumM = highM + rule.minimumM;
  const clearToM = highM + rule.clearToM;
  const region = overArea(around, view.axisM, view.farM, lowM, clearToM);
  const sizes = !isNow && certainty === "probable" ? FORECAST_DOUBT : doubtOfSizes(view, judged, context.options.units);
  const doubt = certainty !== judged || (certainty === limit && area.doubt !== null) ? (area.doubt ?? sizes) : sizes;
  return context.conflict(envelope, rule, {
    kind: area.kind,
    measuredM: isNow ? Math.min(lowestM, minimumM) : Math.max(minimumM, lowestM),
    minimumM,
    clearToM,
    distanceM: around.isInside ? 0 : nearest.distanceM,
    towardXM: around.isInside ? -nearest.xM : nearest.xM,
    towardYM: around.isInside ? -nearest.yM : nearest.yM,
    certainty,
    basis: worstBasis(view.basis, area.doubt === null ? "measured" : "assumed"),
    doubt,
    isNow,
    reachedOn,
    nearest: headroomPoints(begin, share, 0, lowestM),
    encroachment: isNow
      ? encroachmentOf(region, view.estimate, widestBetween(view.estimate, lowM, highM), view.plane, view.xM, view.yM)
      : null,
    region,
  });
}

/**
 * Least and greatest height of the lines of sight within a distance of a trunk; null when none comes so near. The lines run straight between the
 * driver's eye and the face, so their height goes with the share of the way, which is least and greatest at the ends of what the tree covers.
 */
function heightsAtTree(
  scan: SightScan,
  trunk: TrunkAt,
  reachM: number,
  faceM: readonly [number, number],
): readonly [lowM: number, highM: number] | null {
  const eyeM = scan.lines.laneEndM;
  const round = { northM: reachM, eastM: reachM, southM: reachM, westM: reachM };
  const disc: CrownSize = { ...round, heightM: SKY_M, baseM: 0, habit: "column" };
  const parts = hiddenParts(scan, trunk, disc, { nearLowM: eyeM, nearHighM: eyeM, farLowM: eyeM, farHighM: eyeM });
  if (parts.length === 0) return null;
  const line: SightLine = { ax: 0, ay: 0, bx: 0, by: 0 };
  let lowM = Number.POSITIVE_INFINITY;
  let highM = Number.NEGATIVE_INFINITY;
  for (const alongM of [parts[0]!, parts[parts.length - 1]!]) {
    scan.lineInto(line, alongM);
    const lengthM = Math.hypot(line.ax - line.bx, line.ay - line.by);
    const treeM = Math.hypot(trunk.xM - line.bx, trunk.yM - line.by);
    for (const fromFaceM of [treeM - reachM, treeM + reachM]) {
      const share = lengthM > 0 ? Math.min(1, Math.max(0, fromFaceM / lengthM)) : 1;
      lowM = Math.min(lowM, faceM[0] + share * (eyeM - faceM[0]));
      highM = Math.max(highM, faceM[1] + share * (eyeM - faceM[1]));
      lowM = Math.min(lowM, faceM[1] + share * (eyeM - faceM[1]));
      highM = Math.max(highM, faceM[0] + share * (eyeM - faceM[0]));
    }
  }
  return [lowM, highM];
}
