import { WIRE_STRIDE } from "../crown/wire/wire-columns.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import { nearestShare, squaredToSegment } from "../plane/segments.ts";
import { conductorRuleOf } from "../standard/conductor-rule.ts";
import type { ClearanceRule } from "../standard/standard.ts";
import type { ConductorEnvelope } from "../surroundings/surroundings.ts";
import { crownOfSize, gapToSpan, noSpanGap, type SpanGap } from "./gap-to-span.ts";
import type { SearchContext } from "./search-context.ts";

/** One span near a tree. */
export interface SpanNear {
  /** Place in the plane's spans. */
  readonly span: number;
  readonly spanId: string;
  /** Nearest point of the line between the supports to the crown's axis in plan, relative to it. */
  readonly planXM: number;
  readonly planYM: number;
  readonly planM: number;
  /** Distance in plan from the trunk's foot to that line. */
  readonly trunkM: number;
  /** Over the cases of its rule, for the crown as estimated; an infinite gap out of reach, and where there is no rule. */
  readonly gap: SpanGap;
}

/** One line with its spans near a tree. */
export interface LineNear {
  readonly envelope: ConductorEnvelope;
  readonly rule: ClearanceRule | null;
  readonly spans: readonly SpanNear[];
  /** The span nearest in plan. */
  readonly inPlan: SpanNear;
}

/** The line whose spans stand at `from` up to `to` of those found around the tree at hand, measured against its crown. */
export function lineNearTree(
  context: SearchContext,
  envelope: ConductorEnvelope,
  shapes: PlaneShapes,
  from: number,
  to: number,
): LineNear {
  const { view, around, standard } = context;
  const rule = envelope.isCommunication ? null : conductorRuleOf(standard, envelope.voltageV);
  const crown = crownOfSize(view.estimate);
  const spans: SpanNear[] = [];
  let inPlan: SpanNear | null = null;
  for (let hit = from; hit < to; hit += 1) {
    const span = around.spans[hit]!;
    const at = shapes.spanWire[span]! * WIRE_STRIDE;
    const ax = shapes.wires[at]! - view.xM;
    const ay = shapes.wires[at + 1]! - view.yM;
    const bx = shapes.wires[at + 3]! - view.xM;
    const by = shapes.wires[at + 4]! - view.yM;
    const share = nearestShare(0, 0, ax, ay, bx, by);
    const planXM = ax + share * (bx - ax);
    const planYM = ay + share * (by - ay);
    const reachM = view.farM + (rule?.clearToM ?? 0);
    const trunk = { xM: view.xM, yM: view.yM, groundM: view.tree.groundZM, raiseM: 0, reachM };
    const near: SpanNear = {
      span,
      spanId: envelope.spanIds[shapes.spanNumber[span]!]!,
      planXM,
      planYM,
      planM: Math.hypot(planXM, planYM),
      trunkM: Math.sqrt(squaredToSegment(view.footXM - view.xM, view.footYM - view.yM, ax, ay, bx, by)),
      gap: rule === null ? noSpanGap() : gapToSpan(shapes, span, crown, trunk, "every-case"),
    };
    spans.push(near);
    if (inPlan === null || near.planM < inPlan.planM) inPlan = near;
  }
  return { envelope, rule, spans, inPlan: inPlan! };
}
