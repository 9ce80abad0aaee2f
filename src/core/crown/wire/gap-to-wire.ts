import { nearestShare } from "../../plane/segments.ts";
import type { Crown } from "../crown.ts";
import { distanceToCrownM } from "./distance-to-crown.ts";
import { nearestOnWire, type WireGap } from "./nearest-on-wire.ts";
import { blowOutOf, type SweptWire, spanOf } from "./swept-wire.ts";

/**
 * Writes where a swept wire comes nearest to a crown: gap in meters, negative where the wire runs through it, and the wire's place in the wire's
 * own plane. The trunk stands at a place of that plane, its foot at `footM` in the heights of the wire. Only what can come within `reachM`
 * of the trunk in plan is searched; nothing there gives an infinite gap. With a limit, `into.gapM` tells only whether the gap is less than it.
 */
export function gapToWire(
  into: WireGap,
  crown: Crown,
  wire: SweptWire,
  trunkXM: number,
  trunkYM: number,
  footM: number,
  reachM: number,
  limitM?: number,
): void {
  const [from, to] = sharesWithin(wire, trunkXM, trunkYM, reachM);
  into.gapM = Number.POSITIVE_INFINITY;
  if (from > to) return;
  nearestOnWire(
    into,
    wire,
    from,
    to,
    (xM, yM, zM) => distanceToCrownM(crown, xM - trunkXM, yM - trunkYM, zM - footM),
    limitM,
  );
}

/** Writes where a swept wire comes nearest to a point; as {@link gapToWire}, the whole span searched. */
export function pointToWire(into: WireGap, wire: SweptWire, xM: number, yM: number, zM: number): void {
  nearestOnWire(into, wire, 0, 1, (atXM, atYM, atZM) => Math.hypot(atXM - xM, atYM - yM, atZM - zM));
}

/** Shares of the span whose wire can come within a distance in plan of a place; the first above the second when none can. */
export function sharesWithin(wire: SweptWire, xM: number, yM: number, reachM: number): readonly [number, number] {
  const dx = wire.bx - wire.ax;
  const dy = wire.by - wire.ay;
  const farM = reachM + blowOutOf(wire);
  const middle = nearestShare(xM, yM, wire.ax, wire.ay, wire.bx, wire.by);
  const asideM = Math.hypot(wire.ax + middle * dx - xM, wire.ay + middle * dy - yM);
  if (asideM > farM) return [1, 0];
  const spanM = spanOf(wire);
  const half = spanM > 0 ? Math.sqrt(farM * farM - asideM * asideM) / spanM : 0;
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}
