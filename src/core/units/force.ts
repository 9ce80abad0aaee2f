import { METERS_PER_FOOT, METERS_PER_INCH } from "./length.ts";

/** Standard gravity in m/s2; exact (3rd General Conference on Weights and Measures, 1901). */
export const STANDARD_GRAVITY_M_S2 = 9.80665;
/** Kilograms in one avoirdupois pound; exact (Federal Register 24 FR 5348, 1 July 1959). */
export const KILOGRAMS_PER_POUND = 0.45359237;
/** Newtons in one pound-force; exact, the weight of a pound at standard gravity. */
export const NEWTONS_PER_POUND_FORCE = KILOGRAMS_PER_POUND * STANDARD_GRAVITY_M_S2;
/** Newtons a meter in one pound-force a foot; exact but for the rounding of the division. */
export const NEWTONS_PER_METER_PER_POUND_FOOT = NEWTONS_PER_POUND_FORCE / METERS_PER_FOOT;
/** Pascals in one pound-force a square foot; as the above. */
export const PASCALS_PER_POUND_SQUARE_FOOT = NEWTONS_PER_POUND_FORCE / METERS_PER_FOOT ** 2;
/** Pascals in one pound-force a square inch; as the above. */
export const PASCALS_PER_POUND_SQUARE_INCH = NEWTONS_PER_POUND_FORCE / METERS_PER_INCH ** 2;
/** Newtons a cubic meter in one pound-force a cubic foot; as the above. */
export const NEWTONS_PER_CUBIC_METER_PER_POUND_CUBIC_FOOT = NEWTONS_PER_POUND_FORCE / METERS_PER_FOOT ** 3;

export const newtonsFromPounds = (pounds: number): number => pounds * NEWTONS_PER_POUND_FORCE;
export const newtonsPerMeter = (poundsPerFoot: number): number => poundsPerFoot * NEWTONS_PER_METER_PER_POUND_FOOT;
export const pascalsFromPsf = (poundsPerSquareFoot: number): number =>
  poundsPerSquareFoot * PASCALS_PER_POUND_SQUARE_FOOT;
export const pascalsFromPsi = (poundsPerSquareInch: number): number =>
  poundsPerSquareInch * PASCALS_PER_POUND_SQUARE_INCH;
