import { mustBePositive } from "../../crown/wire/parabola-sag.ts";

/**
 * Sag in meters of a span strung at the same tension as another whose sag is known: D2 = D1 (L2 / L1)^2
 * (CPUC General Order 95, Appendix C (c), unequal spans). Level spans of the same wire.
 */
export function sagByOtherSpanM(sagM: number, spanM: number, otherSpanM: number): number {
  mustBePositive("a span in m", spanM);
  return sagM * (otherSpanM / spanM) ** 2;
}

/**
 * The one span, in meters, whose tension changes as that of several strung through between two dead ends does: the root of the sum of cubes over
 * the sum. From memory; it follows from the change of state with one tension for all. Throws RangeError for no span.
 */
export function rulingSpanM(spansM: readonly number[]): number {
  let cubes = 0;
  let sum = 0;
  for (const spanM of spansM) {
    mustBePositive("a span in m", spanM);
    cubes += spanM ** 3;
    sum += spanM;
  }
  if (sum === 0) throw new RangeError("Expected at least one span, got none");
  return Math.sqrt(cubes / sum);
}
