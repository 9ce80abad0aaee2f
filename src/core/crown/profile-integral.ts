import { type Habit, unreachable } from "../model/terms.ts";

/**
 * Antiderivative of the squared profile share f(u)^2 over relative height, zero at u = 0; `u` is clamped to [0, 1].
 *
 * Exact: every profile of `profile.ts` has a squared share that is a polynomial in u. Times pi R^2 times the crown's depth it is the
 * volume below that height (geometry, derivable by hand: ellipsoid 2u^2 - 4u^3/3, dome u - u^3/3, cone (1-(1-u)^3)/3,
 * paraboloid u - u^2/2, vase u^2/2, column u).
 */
export function squaredShareBelow(habit: Habit, u: number): number {
  const at = Math.max(0, Math.min(1, u));
  switch (habit) {
    case "ellipsoid":
      return at * at * (2 - (4 * at) / 3);
    case "dome":
      return at * (1 - (at * at) / 3);
    case "cone":
      return (1 - (1 - at) ** 3) / 3;
    case "paraboloid":
      return at * (1 - at / 2);
    case "vase":
      return (at * at) / 2;
    case "column":
      return at;
    default:
      return unreachable(habit);
  }
}

/**
 * Integral of 1 / f(u)^2 from one relative height to a higher one, both where the profile is wider than 0; +Infinity where it
 * reaches a tip or a pointed base.
 *
 * Geometry, derivable by hand: ellipsoid ln(u/(1-u))/4, dome atanh u, cone 1/(1-u), paraboloid -ln(1-u), vase ln u, column u.
 */
export function inverseSquaredShareBetween(habit: Habit, fromU: number, toU: number): number {
  switch (habit) {
    case "ellipsoid":
      return Math.log((toU * (1 - fromU)) / ((1 - toU) * fromU)) / 4;
    case "dome":
      return Math.atanh(toU) - Math.atanh(fromU);
    case "cone":
      return 1 / (1 - toU) - 1 / (1 - fromU);
    case "paraboloid":
      return Math.log((1 - fromU) / (1 - toU));
    case "vase":
      return Math.log(toU / fromU);
    case "column":
      return toU - fromU;
    default:
      return unreachable(habit);
  }
}
