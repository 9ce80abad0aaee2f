import type { Conflict } from "../model/conflict.ts";
import type { Certainty } from "../model/terms.ts";
import { Neighborhood } from "../plane/neighborhood.ts";
import { type PlaneShapes, SPAN_STRIDE } from "../plane/plane-shapes.ts";
import { nearestShare } from "../plane/segments.ts";
import { approachDistanceM } from "../standard/approach-distance.ts";
import type { ConductorEnvelope } from "../surroundings/surroundings.ts";
import { metersFromFeet } from "../units/length.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, type End } from "./certainty.ts";
import type { CrownSize } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { gapToSpan, type SpanGap } from "./gap-to-span.ts";
import { beyondOffset, overWidened } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { worstBasis } from "./tree-view.ts";

/** The class of lines the rule is for, volts: CPUC General Order 95, Table 1, case 13 (750 V; higher classes have larger distances). */
const LOW_VOLTAGE_V = 750;
const RULE_UP_TO_V = 50_000;
/** How much an assumed attachment height may be off, meters: distribution poles carry wires at about 22 to 40 ft. Common practice, no source. */
const ASSUMED_HEIGHT_M = { least: metersFromFeet(10), most: -metersFromFeet(8) };

/** The conductor of a line nearest to the crown, and to the trunk in plan. */
export interface NearestSpan extends SpanGap {
  /** Nearest point of the line to the trunk in plan, relative to it. */
  planXM: number;
  planYM: number;
  planM: number;
}

/** Where one line, given by some of its spans, comes nearest to a crown of a size; spans out of reach are passed over. */
export function nearestSpan(
  shapes: PlaneShapes,
  spans: Uint32Array,
  from: number,
  to: number,
  size: CrownSize,
  trunkXM: number,
  trunkYM: number,
  raiseM: number,
  reachM: number,
): NearestSpan {
  const best: NearestSpan = {
    gapM: Number.POSITIVE_INFINITY,
    wireM: 0,
    xM: 0,
    yM: 0,
    planXM: 0,
    planYM: 0,
    planM: Number.POSITIVE_INFINITY,
  };
  const one: SpanGap = { gapM: 0, wireM: 0, xM: 0, yM: 0 };
  for (let hit = from; hit < to; hit += 1) {
    const at = spans[hit]! * SPAN_STRIDE;
    const ax = shapes.spans[at]! - trunkXM;
    const ay = shapes.spans[at + 1]! - trunkYM;
    const bx = shapes.spans[at + 3]! - trunkXM;
    const by = shapes.spans[at + 4]! - trunkYM;
    const share = nearestShare(0, 0, ax, ay, bx, by);
    const planM = Math.hypot(ax + share * (bx - ax), ay + share * (by - ay));
    if (planM < best.planM) {
      best.planM = planM;
      best.planXM = ax + share * (bx - ax);
      best.planYM = ay + share * (by - ay);
    }
    gapToSpan(one, size, shapes.spans, at, trunkXM, trunkYM, raiseM, reachM);
    if (one.gapM >= best.gapM) continue;
    best.gapM = one.gapM;
    best.wireM = one.wireM;
    best.xM = one.xM;
    best.yM = one.yM;
  }
  return best;
}

/**
 * The conflict of a crown with an overhead conductor at rest: the shortest distance in space from the crown to the sagged wire against the
 * rule's minimum. Lines under 750 V have no clearance rule; above 50 kV the clear-to distance is taken as the minimum, and the doubt says so.
 *
 * Swing in the wind and sag at high temperature are not modeled. The region is what lies nearer to the line in plan than the clear-to
 * distance, or beyond it, from that distance below the wire up: a crown wholly under the wire cannot be cured by it, and is for the
 * prescription to refer.
 */
export function conductorConflict(
  context: SearchContext,
  envelope: ConductorEnvelope,
  shapes: PlaneShapes,
  from: number,
  to: number,
): Conflict | null {
  const { view, around, standard } = context;
  const rule = context.ruleOf("conductor");
  if (rule === null || (envelope.voltageV !== null && envelope.voltageV < LOW_VOLTAGE_V)) return null;
  const isAboveRule = envelope.voltageV !== null && envelope.voltageV > RULE_UP_TO_V;
  const minimumM = isAboveRule ? rule.clearToM : rule.minimumM;
  const clearToM = isAboveRule
    ? Math.max(rule.clearToM, approachDistanceM(standard, envelope.voltageV))
    : rule.clearToM;
  const reachM = view.farM + clearToM;
  const at = (size: CrownSize, raiseM: number): NearestSpan =>
    nearestSpan(shapes, around.spans, from, to, size, view.xM, view.yM, raiseM, reachM);
  const now = at(view.estimate, 0);
  if (now.planM - minimumM > view.farM) return null;

  const isHeightSure = envelope.attachmentBasis === "measured";
  const raise = (end: End): number => (isHeightSure || end === "typical" ? 0 : ASSUMED_HEIGHT_M[end]);
  const test = (size: CrownSize, end: End): boolean => at(size, raise(end)).gapM < minimumM;
  // Wider at the height of today, and wider and taller: a taller crown alone can draw back from a wire beside its base.
  const reachedOn = dateReached(
    context.asOfDay,
    context.horizonYears,
    (years) => at(view.grown(years), 0).gapM < minimumM || at(view.grownTaller(years), 0).gapM < minimumM,
  );
  const isNow = now.gapM < minimumM;
  const isSure =
    isHeightSure &&
    envelope.sagBasis === "measured" &&
    envelope.voltageV !== null &&
    envelope.insulation === null &&
    !isAboveRule;
  const judged = certaintyWithForecast(view, test, isSure, reachedOn !== null);
  if (judged === null) return null;
  const holdsEitherWay = isHeightSure || test(view.estimate, "least") || test(view.estimate, "most");
  const certainty = isSure ? judged : atMost(judged, holdsEitherWay ? "probable" : "possible");

  // The line in plan, loaded as segments, is what the region is built from.
  const line = new Neighborhood();
  line.segments = new Float64Array(4 * (to - from));
  for (let hit = from; hit < to; hit += 1) {
    const span = around.spans[hit]! * SPAN_STRIDE;
    const to4 = 4 * (hit - from);
    line.segments[to4] = shapes.spans[span]! - view.xM;
    line.segments[to4 + 1] = shapes.spans[span + 1]! - view.yM;
    line.segments[to4 + 2] = shapes.spans[span + 3]! - view.xM;
    line.segments[to4 + 3] = shapes.spans[span + 4]! - view.yM;
  }
  line.segmentCount = to - from;
  const topM = Math.max(view.most.heightM, view.tree.height.highM, view.grownTaller(context.horizonYears).heightM);
  const lowM = Math.max(0, now.wireM - clearToM);
  const strip = isNow ? overWidened(line, minimumM, view.axisM, view.farM, 0, topM) : null;
  return context.conflict(envelope, rule, {
    kind: "conductor",
    measuredM: now.gapM,
    minimumM,
    clearToM,
    distanceM: now.planM,
    towardXM: now.planXM,
    towardYM: now.planYM,
    certainty,
    basis: worstBasis(view.basis, envelope.attachmentBasis, envelope.sagBasis),
    doubt: doubtOf(context, envelope, certainty, isNow, isAboveRule),
    isNow,
    reachedOn,
    encroachment: strip === null ? null : encroachmentOf(strip, view.estimate, 1, view.plane, view.xM, view.yM),
    region: beyondOffset(line, clearToM, false, view.axisM, view.farM, lowM, Math.max(topM, lowM)),
  });
}

/** A line is never confirmed without this: the gap is measured to a wire in still air. */
const STILL_AIR = "Swing in wind and sag in heat are not counted.";

function doubtOf(
  context: SearchContext,
  envelope: ConductorEnvelope,
  certainty: Certainty,
  isNow: boolean,
  isAboveRule: boolean,
): string | null {
  if (certainty === "confirmed") return null;
  const causes: string[] = [];
  if (envelope.attachmentBasis !== "measured") causes.push("The height of the conductor is assumed.");
  if (envelope.sagBasis !== "measured") causes.push("Its sag is assumed.");
  if (envelope.voltageV === null) causes.push("Its voltage is not recorded; it is treated as a distribution line.");
  if (isAboveRule) causes.push("Above 50 kV larger distances apply than the standard's; the utility decides.");
  if (envelope.insulation !== null) causes.push(`It is recorded as ${envelope.insulation}; the utility decides.`);
  if (!isNow && certainty === "probable") causes.push("A forecast from the growth of the crown.");
  if (causes.length === 0) causes.push(doubtOfSizes(context.view, certainty, context.options.units) ?? "");
  return [...causes, STILL_AIR].filter(Boolean).join(" ");
}
