import { catenaryParameterM, catenarySagM } from "../../crown/wire/catenary-sag.ts";
import { parabolaSagM, parabolaTensionN } from "../../crown/wire/parabola-sag.ts";

/**
 * Share of the span above which a sag is computed as a catenary's. Below it the parabola is too small by at most 0.12 % of the sag, 4 mm on a
 * span of 100 m, which is less than any sag is known. Our policy.
 */
export const CATENARY_ABOVE_SHARE = 0.03;

/** Sag in meters at a horizontal tension: parabola up to {@link CATENARY_ABOVE_SHARE} of the span, catenary above it. */
export function spanSagM(spanM: number, loadNPerM: number, tensionN: number, riseM = 0): number {
  const sagM = parabolaSagM(spanM, loadNPerM, tensionN, riseM);
  return sagM > CATENARY_ABOVE_SHARE * spanM ? catenarySagM(spanM, tensionN / loadNPerM, riseM) : sagM;
}

/**
 * Horizontal tension in newtons that gives a sag; the inverse of {@link spanSagM}. A sag within 0.12 % above the change of curve belongs to both
 * and is taken as the catenary's.
 */
export function spanTensionN(spanM: number, loadNPerM: number, sagM: number, riseM = 0): number {
  return sagM > CATENARY_ABOVE_SHARE * spanM
    ? loadNPerM * catenaryParameterM(spanM, sagM, riseM)
    : parabolaTensionN(spanM, loadNPerM, sagM, riseM);
}
