import { pointToWire } from "../crown/wire/gap-to-wire.ts";
import { emptyWireGap } from "../crown/wire/nearest-on-wire.ts";
import { canStrike } from "../crown/wire/strike-reach.ts";
import { stillWire } from "../crown/wire/swept-wire.ts";
import { readWireInto, WIRE_STRIDE } from "../crown/wire/wire-columns.ts";
import type { SpanReach, TreeSetting } from "../model/conflict.ts";
import { LOAD_CASES } from "../model/load-cases.ts";
import { CONFLICT_KINDS, type ConflictKind } from "../model/terms.ts";
import { bearingDeg } from "../plane/bearing.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import { approachDistanceM, equipmentDistanceM } from "../standard/approach-distance.ts";
import { isBelowConductorRules } from "../standard/conductor-rule.ts";
import type { Surroundings, WayEnvelope } from "../surroundings/surroundings.ts";
import { withThousands } from "../units/with-thousands.ts";
import { widestM } from "./crown-size.ts";
import { crownOfSize, footOf, gapToSpan, noSpanGap } from "./gap-to-span.ts";
import type { LineNear, SpanNear } from "./line-near-tree.ts";
import type { SearchContext } from "./search-context.ts";

/** How far from the trunk a setting looks, meters (contract of `TreeSetting`). */
export const SETTING_REACH_M = 30;

type Road = NonNullable<TreeSetting["road"]>;
type Conductor = NonNullable<TreeSetting["conductor"]>;

/** Gathers one tree's setting while its surroundings are gone through. */
export class SettingCollector {
  #road: Road | null = null;
  /** The nearest road with a speed of its own, for a traveled way given as an area without one. */
  #named: Road | null = null;
  #walkM: number | null = null;
  #conductor: Conductor | null = null;
  #spans: SpanReach[] = [];
  #isLineUnruled = false;

  reset(): void {
    this.#conductor = null;
    this.#spans = [];
    this.#isLineUnruled = false;
    this.#road = null;
    this.#named = null;
    this.#walkM = null;
  }

  /** Takes the way loaded in the context into account. */
  addWay(context: SearchContext, envelope: WayEnvelope): void {
    const distanceM = context.around.isInside
      ? 0
      : Math.max(0, context.nearest.distanceM - envelope.halfWidth.typicalM);
    if (!(distanceM <= SETTING_REACH_M)) return;
    if (envelope.kind === "walkway" || envelope.kind === "bikeway") {
      if (this.#walkM === null || distanceM < this.#walkM) this.#walkM = distanceM;
      return;
    }
    const road: Road = { withId: envelope.withId, name: envelope.withName, distanceM, speedKmh: envelope.speedKmh };
    if (!envelope.isCovered && (this.#road === null || distanceM < this.#road.distanceM)) this.#road = road;
    if (envelope.speedKmh !== null && (this.#named === null || distanceM < this.#named.distanceM)) this.#named = road;
  }

  /** Takes a line near the tree into account; one that no rule of the standard holds leaves the tree unchecked, and is told. */
  addLine(context: SearchContext, shapes: PlaneShapes, line: LineNear): void {
    const { envelope, rule, inPlan } = line;
    for (const near of line.spans) {
      const reach = reachOf(context, shapes, line, near);
      if (reach !== null) this.#spans.push(reach);
    }
    const conductor = conductorOf(context, shapes, line, this.#conductor?.crownGapM ?? Number.POSITIVE_INFINITY);
    if (conductor !== null) this.#conductor = conductor;
    const { voltageV } = envelope;
    if (rule !== null || envelope.isCommunication || voltageV === null || inPlan.planM > SETTING_REACH_M) return;
    if (isBelowConductorRules(context.standard, voltageV)) return;
    this.#isLineUnruled = true;
    context.findOnTree(
      "conductor-without-rule",
      "warning",
      envelope.withId,
      `No rule of the standard holds for the line of ${withThousands(voltageV)} V ${inPlan.planM.toFixed(1)} m from the trunk; the tree is not checked against it.`,
      "Use a standard with rules for its voltage, such as transmission, and ask the line's owner before any work.",
    );
  }

  setting(context: SearchContext, surroundings: Surroundings, notChecked: readonly ConflictKind[]): TreeSetting {
    const road = this.#road;
    const isBare = road !== null && road.speedKmh === null && this.#named !== null;
    return {
      treeRow: context.view.tree.row,
      conductorsKnown: surroundings.given.has("conductors"),
      conductor: this.#conductor,
      ...(this.#spans.length === 0 ? {} : { spans: this.#spans }),
      road: isBare ? { ...road, name: road.name ?? this.#named!.name, speedKmh: this.#named!.speedKmh } : road,
      walkDistanceM: this.#walkM,
      notChecked:
        this.#isLineUnruled && !notChecked.includes("conductor")
          ? CONFLICT_KINDS.filter((kind) => kind === "conductor" || notChecked.includes(kind))
          : notChecked,
    };
  }
}

/** What a line is to people at work: nearest with the wire at rest, cold or hot, as nobody climbs in a storm. */
function conductorOf(context: SearchContext, shapes: PlaneShapes, line: LineNear, bestM: number): Conductor | null {
  const { view, standard } = context;
  const { envelope, inPlan } = line;
  if (inPlan.planM > SETTING_REACH_M || inPlan.planM - widestM(view.estimate) >= bestM) return null;
  const trunk = {
    xM: view.xM,
    yM: view.yM,
    groundM: view.tree.groundZM,
    raiseM: 0,
    reachM: SETTING_REACH_M,
  };
  const crown = crownOfSize(view.estimate);
  let best = noSpanGap();
  let spanId = inPlan.spanId;
  for (const near of line.spans) {
    if (near.planM > SETTING_REACH_M || near.planM - widestM(view.estimate) >= best.gapM) continue;
    const gap = isAtRest(line, near) ? near.gap : gapToSpan(shapes, near.span, crown, trunk, "at-rest");
    if (gap.gapM >= best.gapM) continue;
    best = gap;
    spanId = near.spanId;
  }
  const crownGapM = Math.max(0, best.gapM);
  if (crownGapM >= bestM) return null;
  return {
    withId: envelope.withId,
    spanId,
    crownGapM,
    trunkDistanceM: inPlan.planM,
    bearingDeg: bearingDeg(inPlan.planXM, inPlan.planYM),
    heightM: best.wireM,
    voltageV: envelope.voltageV,
    approachM: approachDistanceM(standard, envelope.voltageV),
    equipmentM: equipmentDistanceM(standard, envelope.voltageV),
  };
}

/** Whether the gap over all cases is that of the wire at rest: nearest without wind, and no farther than what was searched. */
const isAtRest = ({ rule }: LineNear, { gap }: SpanNear): boolean =>
  rule !== null && gap.gapM <= rule.clearToM && LOAD_CASES[gap.loadCase].windPa === 0;

/** What a span is to the tree; null where it is out of reach of its crown and of its fall. */
function reachOf(context: SearchContext, shapes: PlaneShapes, line: LineNear, near: SpanNear): SpanReach | null {
  const { envelope } = line;
  const isNear = Number.isFinite(near.gap.gapM);
  const strikes = !envelope.isCommunication && canStrikeSpan(context, shapes, near);
  if (!isNear && !strikes) return null;
  return {
    spanId: near.spanId,
    withId: envelope.withId,
    gapM: isNear ? near.gap.gapM : null,
    loadCase: isNear ? near.gap.loadCase : null,
    trunkDistanceM: near.trunkM,
    canStrike: strikes,
  };
}

/** Whether the tree, falling whole about its foot, touches the wire in still air at 60 F: the nearest place of the wire within its height. */
function canStrikeSpan(context: SearchContext, shapes: PlaneShapes, near: SpanNear): boolean {
  const { view } = context;
  const heightM = view.tree.height.valueM;
  if (near.trunkM > heightM) return false;
  const wire = stillWire(0, 0, 0, 0, 0, 0, 0);
  readWireInto(wire, shapes.wires, shapes.spanWire[near.span]! * WIRE_STRIDE);
  const { footXM, footYM } = view;
  const footM = footOf(shapes, near.span, { xM: footXM, yM: footYM, groundM: view.tree.groundZM });
  const gap = emptyWireGap();
  pointToWire(gap, wire, footXM, footYM, footM);
  return canStrike(heightM, Math.hypot(gap.xM - footXM, gap.yM - footYM), gap.zM - footM);
}
