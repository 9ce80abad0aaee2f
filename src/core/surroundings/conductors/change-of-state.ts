import { mustBePositive } from "../../crown/wire/parabola-sag.ts";

/** What a wire gives way by: stiffness E A in newtons, and its expansion a kelvin. */
export interface WireStretch {
  readonly stiffnessN: number;
  readonly expansionPerK: number;
}

/** A state of a span: load along it in N/m (the resultant) and temperature of the wire. */
export interface SpanState {
  readonly loadNPerM: number;
  readonly temperatureC: number;
}

const MAX_TURNS = 100;

/**
 * Horizontal tension in newtons of a span after its load or temperature has changed:
 * H2^2 [H2 - H1 + w1^2 L^2 k^3 EA / (24 H1^2) + EA k alpha (t2 - t1)] = w2^2 L^2 k^3 EA / 24, k the cosine of the slope.
 *
 * The one positive root, by Newton's method kept within a bracket. Parabola's length, mean tension H / k; no creep, and a steel core takes
 * its share of the load at every temperature. For several spans strung through, use their ruling span. Throws RangeError for a length, load,
 * tension or stiffness not above 0.
 */
export function changedTensionN(
  spanM: number,
  wire: WireStretch,
  tensionN: number,
  from: SpanState,
  to: SpanState,
  riseM = 0,
): number {
  mustBePositive("a span in m", spanM);
  mustBePositive("a tension in N", tensionN);
  mustBePositive("a stiffness in N", wire.stiffnessN);
  mustBePositive("a load in N/m", from.loadNPerM);
  mustBePositive("a load in N/m", to.loadNPerM);
  const slope = spanM / Math.hypot(spanM, riseM);
  const sagging = (spanM * spanM * slope ** 3 * wire.stiffnessN) / 24;
  const heating = wire.stiffnessN * slope * wire.expansionPerK * (to.temperatureC - from.temperatureC);
  return cubicRoot((from.loadNPerM / tensionN) ** 2 * sagging - tensionN + heating, to.loadNPerM ** 2 * sagging);
}

/**
 * The positive root of x^3 + b x^2 = c for c above 0. There is exactly one: the signs of the coefficients change once. It lies between 0 and
 * the cube root of c, plus -b where b is negative.
 */
export function cubicRoot(b: number, c: number): number {
  mustBePositive("a right-hand side", c);
  let low = 0;
  let high = Math.cbrt(c) + Math.max(0, -b);
  let x = high;
  for (let turn = 0; turn < MAX_TURNS; turn += 1) {
    const value = x * x * (x + b) - c;
    if (value === 0) return x;
    if (value > 0) high = x;
    else low = x;
    const step = value / (x * (3 * x + 2 * b));
    const next = x - step;
    const kept = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(kept - x) <= 2 * Number.EPSILON * x) return kept;
    x = kept;
  }
  return x;
}
