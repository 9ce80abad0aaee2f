import { type Habit, unreachable } from "../model/terms.ts";

/**
 * Radius of a crown as a share of its largest, at relative height `u` in the crown (0 at the base, 1 at the top); 0 outside [0, 1].
 *
 * ellipsoid sqrt(1-(2u-1)^2), dome sqrt(1-u^2), cone 1-u, paraboloid sqrt(1-u), vase sqrt(u), column 1. Solids of revolution
 * commonly used for tree crowns; the choice per species is this project's (species traits).
 */
export function profileShare(habit: Habit, u: number): number {
  if (!(u >= 0 && u <= 1)) return 0;
  switch (habit) {
    case "ellipsoid":
      return Math.sqrt(Math.max(0, 1 - (2 * u - 1) ** 2));
    case "dome":
      return Math.sqrt(1 - u * u);
    case "cone":
      return 1 - u;
    case "paraboloid":
      return Math.sqrt(1 - u);
    case "vase":
      return Math.sqrt(u);
    case "column":
      return 1;
    default:
      return unreachable(habit);
  }
}

/**
 * Lowest relative height at which the profile is at least `share` wide (0 to 1): the lower surface. NaN when no height is.
 * Dome, cone, paraboloid and column are widest at their base, so their lower surface is flat at 0.
 */
export function lowestAt(habit: Habit, share: number): number {
  if (!(share >= 0 && share <= 1)) return Number.NaN;
  switch (habit) {
    case "ellipsoid":
      return (1 - Math.sqrt(1 - share * share)) / 2;
    case "vase":
      return share * share;
    case "dome":
    case "cone":
    case "paraboloid":
    case "column":
      return 0;
    default:
      return unreachable(habit);
  }
}

/** Highest relative height at which the profile is at least `share` wide (0 to 1): the upper surface. NaN when no height is. */
export function highestAt(habit: Habit, share: number): number {
  if (!(share >= 0 && share <= 1)) return Number.NaN;
  switch (habit) {
    case "ellipsoid":
      return (1 + Math.sqrt(1 - share * share)) / 2;
    case "dome":
      return Math.sqrt(1 - share * share);
    case "cone":
      return 1 - share;
    case "paraboloid":
      return 1 - share * share;
    case "vase":
    case "column":
      return 1;
    default:
      return unreachable(habit);
  }
}

/** Relative height at which the profile is widest. */
export function widestAt(habit: Habit): number {
  switch (habit) {
    case "ellipsoid":
      return 0.5;
    case "vase":
      return 1;
    case "dome":
    case "cone":
    case "paraboloid":
    case "column":
      return 0;
    default:
      return unreachable(habit);
  }
}
