import { mustBePositive, parabolaSagM } from "./parabola-sag.ts";

/** Halvings of the bracket in which a catenary's parameter is sought; 60 leave less than a rounding error. */
const HALVINGS = 60;

/**
 * Sag in meters of a catenary, measured vertically from the middle of its chord, by its parameter a = H / w (horizontal tension over load):
 * a (cosh(L / 2a) - 1) on a level span. Where one end is `riseM` higher it is that times cosh(m / a), m the distance of mid-span from the
 * lowest point: sinh(m / a) = rise / (2 a sinh(L / 2a)). Throws RangeError for a span or parameter not above 0.
 */
export function catenarySagM(spanM: number, parameterM: number, riseM = 0): number {
  mustBePositive("a span in m", spanM);
  mustBePositive("a catenary's parameter in m", parameterM);
  const half = spanM / (2 * parameterM);
  // 2 sinh(x/2)^2 is cosh(x) - 1 without its cancellation on tight wires.
  const levelM = 2 * parameterM * Math.sinh(half / 2) ** 2;
  return levelM * Math.hypot(1, riseM / (2 * parameterM * Math.sinh(half)));
}

/**
 * Parameter H / w in meters of the catenary that has a sag; the inverse of {@link catenarySagM}, to its last digits. Throws RangeError for a
 * sag of more than the span, where a wire is no conductor any more.
 */
export function catenaryParameterM(spanM: number, sagM: number, riseM = 0): number {
  mustBePositive("a span in m", spanM);
  mustBePositive("a sag in m", sagM);
  if (sagM > spanM) throw new RangeError(`Expected a sag of at most the span of ${spanM} m, got ${sagM} m`);
  // A parabola's sag at equal tension is too small, so the parameter is at least the parabola's.
  const leastM = parabolaSagM(spanM, 1, sagM, riseM);
  let low = leastM;
  let high = 2 * leastM;
  while (catenarySagM(spanM, high, riseM) > sagM) high *= 2;
  for (let turn = 0; turn < HALVINGS; turn += 1) {
    const middle = (low + high) / 2;
    if (catenarySagM(spanM, middle, riseM) > sagM) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Drop in meters of a catenary below its chord at a share of the span in plan, from 0 to 1, the first end lower by `riseM`. 0 at both ends.
 */
export function catenaryDropM(spanM: number, parameterM: number, riseM: number, share: number): number {
  const half = spanM / (2 * parameterM);
  const middle = Math.asinh(riseM / (2 * parameterM * Math.sinh(half)));
  const at = middle + half * (2 * share - 1);
  const first = Math.cosh(middle - half);
  const last = Math.cosh(middle + half);
  return parameterM * (first + (last - first) * share - Math.cosh(at));
}
