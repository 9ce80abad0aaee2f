import { nearestCrownPoint } from "../crown/wire/nearest-crown-point.ts";
import type { Conflict } from "../model/conflict.ts";
import type { Certainty } from "../model/terms.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import { assumedAttachmentM } from "../standard/assumed-attachment.ts";
import { minimumAtM } from "../standard/conductor-rule.ts";
import type { Standard } from "../standard/standard.ts";
import type { ConductorEnvelope } from "../surroundings/surroundings.ts";
import { atMost, certaintyWithForecast, doubtOfSizes, type End } from "./certainty.ts";
import { type CrownSize, widestM } from "./crown-size.ts";
import { encroachmentOf } from "./encroachment.ts";
import { dateReached } from "./forecast.ts";
import { crownOfSize, gapToSpan } from "./gap-to-span.ts";
import type { LineNear, SpanNear } from "./line-near-tree.ts";
import { beyondOffset, overWidened } from "./removal-region.ts";
import type { SearchContext } from "./search-context.ts";
import { sweptOutline } from "./swept-outline.ts";
import { worstBasis } from "./tree-view.ts";

/** How far an assumed attachment height may be off, as shares of it: 30 ft stands for about 22 to 40 ft. Common practice, no source. */
const ASSUMED_HEIGHT_SHARE = { least: 1 / 3, most: -4 / 15 };
/** How far one may be off that is taken from a pole's height or from other poles of the line, meters. Our policy. */
const ESTIMATED_HEIGHT_M = { least: 1, most: -1 };

/**
 * The conflict of a crown with an overhead conductor: the shortest distance in space from the crown to the wire in any of the load cases that the
 * rule for its voltage names, against the rule's minimum at the place's altitude. Null without such a rule.
 *
 * The region is what lies nearer to the swept wire in plan than the clear-to distance, or beyond it, from that distance below its lowest place up:
 * a crown wholly under the wire cannot be cured by it, and is for the prescription to refer.
 */
export function conductorConflict(context: SearchContext, shapes: PlaneShapes, line: LineNear): Conflict | null {
  const { view, standard } = context;
  const { envelope, rule, inPlan } = line;
  if (rule === null) return null;
  const near = line.spans.reduce((best, one) => (one.gap.gapM < best.gap.gapM ? one : best));
  if (!Number.isFinite(near.gap.gapM)) return null;
  const atAltitudeM = minimumAtM(rule, standard.conductor.altitudeM);
  const minimumM = atAltitudeM ?? rule.minimumM;
  const { clearToM } = rule;
  const isTypeSure = envelope.conductorBasis === "measured";
  const within = (size: CrownSize, end: End): boolean => {
    const trunk = {
      xM: view.xM,
      yM: view.yM,
      groundM: view.tree.groundZM,
      raiseM: raiseM(standard, envelope, end),
      reachM: widestM(size) + minimumM,
    };
    const crown = crownOfSize(size);
    // What heat and wind do to a wire of unknown type is no ground to be sure.
    const pick = end === "least" && !isTypeSure ? "still" : "every-case";
    return line.spans.some(({ span }) => gapToSpan(shapes, span, crown, trunk, pick, minimumM).gapM < minimumM);
  };
  // Wider at the height of today, and wider and taller: a taller crown alone can draw back from a wire beside its base.
  const reachedOn = dateReached(
    context.asOfDay,
    context.horizonYears,
    (years) => within(view.grown(years), "typical") || within(view.grownTaller(years), "typical"),
  );
  const isNow = near.gap.gapM < minimumM;
  const isHeightSure = envelope.attachmentBasis === "measured";
  const isSure =
    isHeightSure &&
    envelope.sagBasis === "measured" &&
    envelope.voltageV !== null &&
    envelope.insulation === null &&
    atAltitudeM !== null;
  const judged = certaintyWithForecast(view, within, isSure, reachedOn !== null);
  if (judged === null) return null;
  const holdsEitherWay = isHeightSure || within(view.estimate, "least") || within(view.estimate, "most");
  const certainty = isSure ? judged : atMost(judged, holdsEitherWay ? "probable" : "possible");

  const trunk = {
    xM: view.xM,
    yM: view.yM,
    groundM: view.tree.groundZM,
    raiseM: 0,
    reachM: view.farM + clearToM,
  };
  const swept = sweptOutline(
    shapes,
    line.spans.map(({ span }) => span),
    trunk,
  );
  const topM = Math.max(view.most.heightM, view.tree.height.highM, view.grownTaller(context.horizonYears).heightM);
  const lowM = Math.max(0, Math.min(swept.lowM, near.gap.wireM) - clearToM);
  const onCrown = nearestCrownPoint(crownOfSize(view.estimate), near.gap.xM, near.gap.yM, near.gap.wireM);
  const strip = isNow ? overWidened(swept.line, minimumM, view.axisM, view.farM, 0, topM) : null;
  return context.conflict(envelope, rule, {
    kind: "conductor",
    measuredM: near.gap.gapM,
    minimumM,
    distanceM: inPlan.planM,
    trunkDistanceM: Math.min(...line.spans.map(({ trunkM }) => trunkM)),
    towardXM: inPlan.planXM,
    towardYM: inPlan.planYM,
    certainty,
    basis: worstBasis(view.basis, envelope.attachmentBasis, envelope.sagBasis),
    doubt: doubtOf(context, envelope, near, certainty, isNow, atAltitudeM !== null),
    isNow,
    reachedOn,
    spanId: near.spanId,
    loadCase: near.gap.loadCase,
    nearest: {
      thing: { xM: near.gap.xM, yM: near.gap.yM, heightM: near.gap.wireM },
      crown: { xM: onCrown.xM, yM: onCrown.yM, heightM: onCrown.zM },
    },
    encroachment: strip === null ? null : encroachmentOf(strip, view.estimate, 1, view.plane, view.xM, view.yM),
    region: beyondOffset(swept.line, clearToM, false, view.axisM, view.farM, lowM, Math.max(topM, lowM)),
  });
}

/** By how much a wire is taken to hang higher at an end of its own interval. */
function raiseM(standard: Standard, { attachmentBasis, voltageV }: ConductorEnvelope, end: End): number {
  if (attachmentBasis === "measured" || end === "typical") return 0;
  if (attachmentBasis === "estimated") return ESTIMATED_HEIGHT_M[end];
  return ASSUMED_HEIGHT_SHARE[end] * assumedAttachmentM(standard, voltageV);
}

function doubtOf(
  context: SearchContext,
  envelope: ConductorEnvelope,
  near: SpanNear,
  certainty: Certainty,
  isNow: boolean,
  isAltitudeKnown: boolean,
): string | null {
  if (certainty === "confirmed") return null;
  const causes: string[] = [];
  if (envelope.attachmentBasis !== "measured")
    causes.push(`The height of the conductor is ${envelope.attachmentBasis}.`);
  if (envelope.sagBasis !== "measured") causes.push("Its sag is assumed.");
  if (envelope.voltageV === null) causes.push("Its voltage is not recorded; it is treated as a distribution line.");
  if (!isAltitudeKnown) causes.push("The rule's table ends below the place's altitude; the utility decides.");
  if (envelope.insulation !== null) causes.push(insulationWords(envelope.insulation));
  if (!isNow && certainty === "probable") causes.push("A forecast from the growth of the crown.");
  if (causes.length === 0) causes.push(doubtOfSizes(context.view, certainty, context.options.units) ?? "");
  if (near.gap.loadCase !== "still" && envelope.conductorBasis !== "measured")
    causes.push("The type of wire is assumed, and with it what heat and wind do to it.");
  return causes.filter(Boolean).join(" ");
}

function insulationWords(insulation: string): string {
  if (insulation === "tree wire")
    return "It is tree wire, which some rules exempt while its covering is whole; the utility decides.";
  if (insulation === "aerial cable")
    return "It is aerial cable, which rules for bare wire mostly exempt, though branches must not rub it; the utility decides.";
  return `It is recorded as ${insulation}; the utility decides.`;
}
