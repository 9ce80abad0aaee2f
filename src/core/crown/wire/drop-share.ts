import { catenaryDropM, catenarySagM } from "./catenary-sag.ts";

/**
 * Drop of a wire below its chord at a share of the span in plan, 0 to 1, as a share of its sag at mid-span: 4 x (1 - x) of a parabola, level or
 * sloping. 0 at the ends, 1 in the middle; GO 95 Appendix C chart 9 agrees.
 */
export const parabolaDropShare = (share: number): number => 4 * share * (1 - share);

/** As {@link parabolaDropShare}, of the catenary with a parameter H / w in meters; on a slope it is deepest toward the lower end. */
export function catenaryDropShare(spanM: number, parameterM: number, riseM: number, share: number): number {
  return catenaryDropM(spanM, parameterM, riseM, share) / catenarySagM(spanM, parameterM, riseM);
}
