import type { TreeSetting } from "../model/conflict.ts";
import type { ConflictKind } from "../model/terms.ts";
import { bearingDeg } from "../plane/bearing.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import { approachDistanceM } from "../standard/approach-distance.ts";
import type { ConductorEnvelope, Surroundings, WayEnvelope } from "../surroundings/surroundings.ts";
import { nearestSpan } from "./conductor-conflict.ts";
import type { SearchContext } from "./search-context.ts";

/** How far from the trunk a setting looks, meters (contract of `TreeSetting`). */
export const SETTING_REACH_M = 30;

type Road = NonNullable<TreeSetting["road"]>;

/** Gathers one tree's setting while its surroundings are gone through. */
export class SettingCollector {
  #road: Road | null = null;
  /** The nearest road with a speed of its own, for a traveled way given as an area without one. */
  #named: Road | null = null;
  #walkM: number | null = null;

  reset(): void {
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

  setting(
    context: SearchContext,
    surroundings: Surroundings,
    shapes: PlaneShapes | null,
    notChecked: readonly ConflictKind[],
  ): TreeSetting {
    const road = this.#road;
    const isBare = road !== null && road.speedKmh === null && this.#named !== null;
    return {
      treeRow: context.view.row,
      conductorsKnown: surroundings.given.has("conductors"),
      conductor: shapes === null ? null : nearestConductor(context, surroundings, shapes),
      road: isBare ? { ...road, name: road.name ?? this.#named!.name, speedKmh: this.#named!.speedKmh } : road,
      walkDistanceM: this.#walkM,
      notChecked,
    };
  }
}

function nearestConductor(
  context: SearchContext,
  surroundings: Surroundings,
  shapes: PlaneShapes,
): TreeSetting["conductor"] {
  const { around, view, standard } = context;
  let best: TreeSetting["conductor"] = null;
  for (let from = 0; from < around.spanCount; ) {
    const owner = shapes.spanOwner[around.spans[from]!]!;
    let to = from + 1;
    while (to < around.spanCount && shapes.spanOwner[around.spans[to]!] === owner) to += 1;
    const envelope = surroundings.envelopes[owner] as ConductorEnvelope;
    const span = nearestSpan(shapes, around.spans, from, to, view.estimate, view.xM, view.yM, 0, SETTING_REACH_M);
    from = to;
    const crownGapM = Math.max(0, span.gapM);
    if (span.planM > SETTING_REACH_M || (best !== null && crownGapM >= best.crownGapM)) continue;
    best = {
      withId: envelope.withId,
      crownGapM,
      trunkDistanceM: span.planM,
      bearingDeg: bearingDeg(span.planXM, span.planYM),
      heightM: span.wireM,
      voltageV: envelope.voltageV,
      approachM: approachDistanceM(standard, envelope.voltageV),
    };
  }
  return best;
}
