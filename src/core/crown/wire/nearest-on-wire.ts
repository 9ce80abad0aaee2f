import { GOLDEN_SHARE, leastByGoldenSection } from "../../plane/golden-section.ts";
import { STEEPEST } from "./swept-polylines.ts";
import { type SweptWire, spanOf, type WirePoint, wirePointInto } from "./swept-wire.ts";

/** Where a wire comes nearest to something: gap in meters (negative inside it), the wire's place then, and share and angle of that place. */
export interface WireGap extends WirePoint {
  gapM: number;
  share: number;
  angleRad: number;
}

export const emptyWireGap = (): WireGap => ({
  gapM: Number.POSITIVE_INFINITY,
  xM: 0,
  yM: 0,
  zM: 0,
  share: 0,
  angleRad: 0,
});

/** Distance in meters between first samples, along and across, and the last step of the search from the best of them. */
const SAMPLE_M = 1;
const LAST_STEP_M = 0.003;
/** Neighbors of a sample: along, across and between. */
const AROUND: readonly (readonly [number, number])[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [1, 1],
  [-1, -1],
  [1, -1],
  [-1, 1],
];

/**
 * Writes where a part of a swept wire, given by two shares of its span, comes nearest to something. `gapAt` is the signed distance of a point to
 * it, in meters: a function that changes by no more than the way between two points.
 *
 * Samples a meter apart, then a search about every sample that is no more than its neighbors and could still win. Right to 1 cm, outside a
 * crown and in its depth, on a thousand seeded scenes against an exhaustive search (tests); not proven for every scene. With a limit it looks
 * only as far as it takes to tell whether the gap is less: what it writes is then right in that alone.
 */
export function nearestOnWire(
  into: WireGap,
  wire: SweptWire,
  fromShare: number,
  toShare: number,
  gapAt: (xM: number, yM: number, zM: number) => number,
  limitM = Number.NEGATIVE_INFINITY,
): void {
  const deepestM = wire.stringM + Math.max(wire.stillSagM, wire.swungSagM);
  const alongM = (Math.hypot(spanOf(wire), wire.bz - wire.az) + STEEPEST * deepestM) * (toShare - fromShare);
  const acrossM = wire.swingRad > 0 ? 2 * wire.swingRad * deepestM + Math.abs(wire.swungSagM - wire.stillSagM) : 0;
  const shares = Math.max(2, Math.ceil(alongM / SAMPLE_M));
  const turns = wire.swingRad > 0 ? Math.max(2, 2 * Math.ceil(acrossM / SAMPLE_M / 2)) : 0;
  const shareStep = (toShare - fromShare) / shares;
  const angleStep = turns > 0 ? (2 * wire.swingRad) / turns : 0;
  const stepM = alongM / shares;
  const cellM = stepM + (turns > 0 ? acrossM / turns : 0);

  const at: WirePoint = { xM: 0, yM: 0, zM: 0 };
  const gap = (share: number, angleRad: number): number => {
    wirePointInto(at, wire, share, angleRad);
    return gapAt(at.xM, at.yM, at.zM);
  };
  const isLimited = limitM > Number.NEGATIVE_INFINITY;
  const width = shares + 1;
  const gaps = new Float64Array(width * (turns + 1)).fill(Number.POSITIVE_INFINITY);
  let least = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn <= turns; turn += 1) {
    const angleRad = turn * angleStep - wire.swingRad;
    let step = 0;
    while (step <= shares) {
      const gapM = gap(fromShare + step * shareStep, angleRad);
      gaps[turn * width + step] = gapM;
      if (gapM < least) least = gapM;
      if (gapM < limitM) {
        into.gapM = gapM;
        return;
      }
      // A sample this far off tells that the next ones cannot win either.
      step += stepM > 0 ? Math.max(1, Math.floor((gapM - (isLimited ? limitM : least) - cellM) / stepM)) : 1;
    }
  }
  into.gapM = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn <= turns; turn += 1) {
    for (let step = 0; step <= shares; step += 1) {
      const gapM = gaps[turn * width + step]!;
      if (gapM - cellM >= into.gapM || gapM - cellM > least || !isLowest(gaps, width, turns, turn, step)) continue;
      if (isLimited && gapM - cellM >= limitM) continue;
      descend(into, gap, fromShare, toShare, wire.swingRad, {
        share: fromShare + step * shareStep,
        angleRad: turn * angleStep - wire.swingRad,
        shareStep,
        angleStep,
        turns: Math.ceil(Math.log(LAST_STEP_M / (2 * cellM)) / Math.log(GOLDEN_SHARE)),
      });
      if (into.gapM < limitM) return;
    }
  }
  wirePointInto(at, wire, into.share, into.angleRad);
  into.xM = at.xM;
  into.yM = at.yM;
  into.zM = at.zM;
}

/** Whether a sample is no more than those around it; equal ones before it take its place. */
function isLowest(gaps: Float64Array, width: number, turns: number, turn: number, step: number): boolean {
  const gapM = gaps[turn * width + step]!;
  for (const [along, across] of AROUND) {
    const atTurn = turn + across;
    const atStep = step + along;
    if (atTurn < 0 || atTurn > turns || atStep < 0 || atStep >= width) continue;
    const other = gaps[atTurn * width + atStep]!;
    if (other < gapM || (other === gapM && (across < 0 || (across === 0 && along < 0)))) return false;
  }
  return true;
}

interface Around {
  readonly share: number;
  readonly angleRad: number;
  readonly shareStep: number;
  readonly angleStep: number;
  /** Steps of the search that leave less than the last step. */
  readonly turns: number;
}

/**
 * Looks for the least gap within a sample's cell, by the golden section over the share, of the least over the angle; keeps it if it is the
 * least so far. Holds at the edges of a crown as well, where a search by slopes or by steps would stall: near enough the gap is convex.
 */
function descend(
  into: WireGap,
  gap: (share: number, angleRad: number) => number,
  fromShare: number,
  toShare: number,
  swingRad: number,
  around: Around,
): void {
  const { share, angleRad, shareStep, angleStep, turns } = around;
  const keep = (atShare: number, atRad: number): number => {
    const gapM = gap(atShare, atRad);
    if (gapM < into.gapM) {
      into.gapM = gapM;
      into.share = atShare;
      into.angleRad = atRad;
    }
    return gapM;
  };
  keep(share, angleRad);
  const lowRad = Math.max(-swingRad, angleRad - angleStep);
  const highRad = Math.min(swingRad, angleRad + angleStep);
  const leastAcross = (atShare: number): number =>
    leastByGoldenSection(lowRad, highRad, turns, (atRad) => keep(atShare, atRad));
  leastByGoldenSection(
    Math.max(fromShare, share - shareStep),
    Math.min(toShare, share + shareStep),
    turns,
    leastAcross,
  );
}
