import { mustBePositive } from "../../crown/wire/parabola-sag.ts";

/**
 * Length in meters of wire in a span by its sag: chord + 8 D^2 cos^3(slope) / 3 L, on a level span L + 8 D^2 / 3 L. The second term of the
 * parabola's series; too long by 0.02 % of the span at a sag of 8 %.
 */
export function conductorLengthM(spanM: number, sagM: number, riseM = 0): number {
  mustBePositive("a span in m", spanM);
  const chordM = Math.hypot(spanM, riseM);
  return chordM + (8 * sagM * sagM * (spanM / chordM) ** 3) / (3 * spanM);
}

/** Length in meters of wire in a span hung as a catenary, by its parameter H / w: the hypotenuse of 2 a sinh(L / 2a) and the rise; exact. */
export function catenaryLengthM(spanM: number, parameterM: number, riseM = 0): number {
  mustBePositive("a span in m", spanM);
  mustBePositive("a catenary's parameter in m", parameterM);
  return Math.hypot(2 * parameterM * Math.sinh(spanM / (2 * parameterM)), riseM);
}
