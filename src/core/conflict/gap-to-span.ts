import type { Crown } from "../crown/crown.ts";
import { gapToWire } from "../crown/wire/gap-to-wire.ts";
import { emptyWireGap } from "../crown/wire/nearest-on-wire.ts";
import { stillWire } from "../crown/wire/swept-wire.ts";
import { readWireInto, WIRE_STRIDE } from "../crown/wire/wire-columns.ts";
import { LOAD_CASE_IDS, type LoadCaseId } from "../model/load-cases.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import { nearestShare } from "../plane/segments.ts";
import type { CrownSize } from "./crown-size.ts";

/** Where a crown comes nearest to a span: gap in meters (negative inside the crown), height of the wire above the trunk's foot, place from the trunk. */
export interface SpanGap {
  gapM: number;
  wireM: number;
  xM: number;
  yM: number;
  loadCase: LoadCaseId;
}

export const noSpanGap = (): SpanGap => ({
  gapM: Number.POSITIVE_INFINITY,
  wireM: 0,
  xM: 0,
  yM: 0,
  loadCase: "still",
});

/** Which of a span's wires are looked at: all that its rule names, those without wind, or the one in still air at 60 F. */
export type WirePick = "every-case" | "at-rest" | "still";

/** Where the tree stands, and how far from it the wire is looked for. */
export interface TrunkPlace {
  readonly xM: number;
  readonly yM: number;
  /** Elevation of the ground at the trunk; null takes the line's own ground there, or level ground. */
  readonly groundM: number | null;
  /** By how much the wire is taken to hang higher than it is given. */
  readonly raiseM: number;
  readonly reachM: number;
}

export const crownOfSize = (size: CrownSize): Crown => ({
  heightM: size.heightM,
  crownBaseM: size.baseM,
  radii: { northM: size.northM, eastM: size.eastM, southM: size.southM, westM: size.westM },
  habit: size.habit,
});

/**
 * The least gap between a crown and a span over its load cases, each looked at by itself. With a limit only whether it is less counts: the search
 * ends as soon as that is known.
 */
export function gapToSpan(
  shapes: PlaneShapes,
  span: number,
  crown: Crown,
  trunk: TrunkPlace,
  pick: WirePick,
  limitM?: number,
): SpanGap {
  const best = noSpanGap();
  const gap = emptyWireGap();
  const wire = stillWire(0, 0, 0, 0, 0, 0, 0);
  const footM = footOf(shapes, span, trunk);
  for (let at = shapes.spanWire[span]!; at < shapes.spanWire[span + 1]!; at += 1) {
    if (pick === "still" && at > shapes.spanWire[span]!) break;
    readWireInto(wire, shapes.wires, at * WIRE_STRIDE);
    if (pick === "at-rest" && wire.swingRad > 0) continue;
    gapToWire(gap, crown, wire, trunk.xM, trunk.yM, footM - trunk.raiseM, trunk.reachM, limitM);
    if (!(gap.gapM < best.gapM)) continue;
    best.gapM = gap.gapM;
    best.wireM = gap.zM - footM + trunk.raiseM;
    best.xM = gap.xM - trunk.xM;
    best.yM = gap.yM - trunk.yM;
    best.loadCase = LOAD_CASE_IDS[shapes.wireCase[at]!]!;
    if (limitM !== undefined && gap.gapM < limitM) break;
  }
  return best;
}

/** Height of the trunk's foot in the heights of a span's wires. */
export function footOf(shapes: PlaneShapes, span: number, trunk: Pick<TrunkPlace, "xM" | "yM" | "groundM">): number {
  const groundA = shapes.spanGroundM[2 * span]!;
  const groundB = shapes.spanGroundM[2 * span + 1]!;
  if (Number.isNaN(groundA) || Number.isNaN(groundB)) return 0;
  if (trunk.groundM !== null) return trunk.groundM;
  const at = shapes.spanWire[span]! * WIRE_STRIDE;
  const { wires } = shapes;
  const share = nearestShare(trunk.xM, trunk.yM, wires[at]!, wires[at + 1]!, wires[at + 3]!, wires[at + 4]!);
  return groundA + share * (groundB - groundA);
}
