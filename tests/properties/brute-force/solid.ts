import type { Habit } from "../../../src/core/model/terms.ts";

/** A crown as the design describes it: an upright solid about its axis. */
export interface Solid {
  readonly habit: Habit;
  readonly heightM: number;
  readonly baseM: number;
  /** Radii toward north, east, south, west. */
  readonly radii: readonly [number, number, number, number];
}

/** Step in height of the samples, as a share of the crown's depth. */
export const HEIGHT_STEPS = 1000;

/** The design's profiles, u from 0 at the base to 1 at the top. */
const PROFILE: Readonly<Record<Habit, (u: number) => number>> = {
  ellipsoid: (u) => Math.sqrt(Math.max(0, 1 - (2 * u - 1) * (2 * u - 1))),
  dome: (u) => Math.sqrt(Math.max(0, 1 - u * u)),
  cone: (u) => 1 - u,
  paraboloid: (u) => Math.sqrt(1 - u),
  vase: (u) => Math.sqrt(u),
  column: () => 1,
};

/**
 * Share of the largest radius at which a point of the plan lies, x east and y north of the axis: 1 on the crown's outline, which is an ellipse in
 * each quadrant between its two radii.
 */
export function shareAt({ radii }: Solid, x: number, y: number): number {
  const [north, east, south, west] = radii;
  const a = x >= 0 ? east : west;
  const b = y >= 0 ? north : south;
  return Math.sqrt((x / a) ** 2 + (y / b) ** 2);
}

/** Point of the outline at its largest, east and north of the axis, by the angle of the circle that its ellipses are stretched from. */
export function outlineAt({ radii }: Solid, angle: number): [number, number] {
  const [north, east, south, west] = radii;
  const [x, y] = [Math.sin(angle), Math.cos(angle)];
  return [x * (x >= 0 ? east : west), y * (y >= 0 ? north : south)];
}

/** Width of the crown, as a share of its largest, at a height; -1 outside it. */
export function widthAt({ habit, heightM, baseM }: Solid, z: number): number {
  return z < baseM || z > heightM ? -1 : PROFILE[habit](Math.min(1, Math.max(0, (z - baseM) / (heightM - baseM))));
}

/** Heights from `low` to `high` in even steps, both ends included. */
export const heightsBetween = (low: number, high: number, steps: number): number[] =>
  high < low ? [] : Array.from({ length: steps + 1 }, (_, step) => Math.min(high, low + ((high - low) * step) / steps));

/** Widest share between two heights, by looking at a thousand of them; -1 where none of the crown is there. */
export function widestSampled(solid: Solid, low: number, high: number): number {
  const heights = heightsBetween(Math.max(low, solid.baseM), Math.min(high, solid.heightM), HEIGHT_STEPS);
  return heights.reduce((most, z) => Math.max(most, widthAt(solid, z)), -1);
}

/**
 * The lowest sampled heights at which the crown is at least so wide: a function of the share, never below the true lower surface and above it by
 * one step of the samples at most; infinite for a share over 1.
 */
export function lowestSampled(solid: Solid): (share: number) => number {
  const heights = heightsBetween(solid.baseM, solid.heightM, HEIGHT_STEPS);
  const widths = heights.map((z) => widthAt(solid, z));
  // Widest so far, from the base up: rises, so the first that is wide enough is found by halving.
  for (let at = 1; at < widths.length; at += 1) widths[at] = Math.max(widths[at]!, widths[at - 1]!);
  return (share) => {
    if (!(widths[HEIGHT_STEPS]! >= share)) return Number.POSITIVE_INFINITY;
    let low = 0;
    let high = HEIGHT_STEPS;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (widths[middle]! >= share) high = middle;
      else low = middle + 1;
    }
    return heights[low]!;
  };
}
