import type { ExpressionSpecification } from "maplibre-gl";
import { URGENCIES, type Urgency } from "../../core/model/terms.ts";
import type { Theme } from "../tokens.ts";

/** Width in pixels of a way at its true size on the ground, from `px0`; at least `leastPx` below zoom 13, where ways are symbols. */
export function trueWidth(leastPx: number, besidePx = 0): ExpressionSpecification {
  // Doubling per zoom makes this interpolation exact, not only at its stops.
  return [
    "interpolate",
    ["exponential", 2],
    ["zoom"],
    9,
    leastPx * 0.4 + besidePx,
    13,
    ["+", ["max", leastPx, ["*", ["get", "px0"], 2 ** 13]], besidePx],
    24,
    ["+", ["*", ["get", "px0"], 2 ** 24], besidePx],
  ];
}

/** The tone of a feature's urgency, which `member` names; a quiet tone for `clear`. */
export function urgencyTone(theme: Theme, member = "urgency"): ExpressionSpecification {
  const tones = Object.entries(theme.urgency).flat();
  return ["match", ["get", member], ...tones, theme.vegetation.dot] as unknown as ExpressionSpecification;
}

/** A value by a feature's urgency, which `member` names. */
export function byUrgency(values: Readonly<Record<Urgency, number>>, member = "urgency"): ExpressionSpecification {
  const pairs = URGENCIES.flatMap((urgency) => [urgency, values[urgency]]);
  return ["match", ["get", member], ...pairs, values.clear] as unknown as ExpressionSpecification;
}

/**
 * Opacity that rises from 0 to `full` within one zoom, from where the tree's crown is `px * 2^later` wide on the screen, `px` being the
 * width at which crowns begin to be drawn.
 */
export function fadeIn(later: number, full: number | ExpressionSpecification = 1): ExpressionSpecification {
  return fade((zoom) => ["*", full, ["max", 0, ["min", 1, ["-", zoom - later, ["get", "shows"]]]]]);
}

/** The reverse of {@link fadeIn}. */
export function fadeOut(later: number): ExpressionSpecification {
  return fade((zoom) => ["-", 1, ["max", 0, ["min", 1, ["-", zoom - later, ["get", "shows"]]]]]);
}

/**
 * 0 until the tree's crown is `px * 2^later` wide, then `full`, without a fade: what takes the place of a mark or gives way to it would
 * look like dirt half seen through.
 */
export function appear(later: number): ExpressionSpecification {
  return steps((zoom) => ["case", ["<=", ["+", ["get", "shows"], later], zoom], 1, 0]);
}

/** The reverse of {@link appear}; features for which `stays` holds never go. */
export function disappear(later: number, stays: ExpressionSpecification): ExpressionSpecification {
  return steps((zoom) => ["case", ["any", stays, [">", ["+", ["get", "shows"], later], zoom]], 1, 0]);
}

// `zoom` may only be the input of an outermost step, so the comparison is made at every quarter zoom.
function steps(at: (zoom: number) => ExpressionSpecification): ExpressionSpecification {
  const stops: (number | ExpressionSpecification)[] = [];
  for (let zoom = 14.25; zoom <= 22; zoom += 0.25) stops.push(zoom, at(zoom));
  return ["step", ["zoom"], at(14), ...stops] as unknown as ExpressionSpecification;
}

// `zoom` may only be the input of an outermost interpolation, so the comparison with a tree's own zoom is made at every half zoom.
function fade(at: (zoom: number) => ExpressionSpecification): ExpressionSpecification {
  const stops: (number | ExpressionSpecification)[] = [];
  for (let zoom = 12; zoom <= 24; zoom += 0.5) stops.push(zoom, at(zoom));
  return ["interpolate", ["linear"], ["zoom"], ...stops] as unknown as ExpressionSpecification;
}

/** A value by state, as {@link byState}, that fades out as {@link fadeOut} does. */
export function byStateFadingOut(later: number, selected: number, hovered: number): ExpressionSpecification {
  return fade((zoom) => [
    "*",
    byState(selected, hovered, 0),
    ["-", 1, ["max", 0, ["min", 1, ["-", zoom - later, ["get", "shows"]]]]],
  ]);
}

/** One value while a feature is selected, another while it is pointed at, else a third. */
export function byState<T extends number | string | ExpressionSpecification>(
  selected: T,
  hovered: T,
  otherwise: T,
): ExpressionSpecification {
  return [
    "case",
    ["boolean", ["feature-state", "selected"], false],
    selected,
    ["boolean", ["feature-state", "hover"], false],
    hovered,
    otherwise,
  ] as unknown as ExpressionSpecification;
}
