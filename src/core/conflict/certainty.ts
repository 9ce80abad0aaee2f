import { type Certainty, HABITS } from "../model/terms.ts";
import { type DisplayUnits, formatLength } from "../units/format-length.ts";
import type { CrownSize } from "./crown-size.ts";
import type { TreeView } from "./tree-view.ts";

/** Which end of the other thing's own interval (a way's width, a wire's height) a test is made at. */
export type End = "least" | "typical" | "most";

/** Whether a crown of a size is in conflict now with the thing at an end of its own interval. */
export type Test = (size: CrownSize, end: End) => boolean;

/**
 * How sure it is that a crown is in conflict now, or null when it is not at any end of the 90 % intervals.
 *
 * `confirmed`: every size is measured and it holds with the smallest radius on the highest base, at both ends of the height, for every habit.
 * `probable`: it holds at the estimate. `possible`: only with the largest radius on the lowest base, or at the thing's own far end.
 */
export function certaintyOf(view: TreeView, test: Test, isThingSure: boolean): Certainty | null {
  if (test(view.estimate, "typical")) {
    return isThingSure && view.basis === "measured" && holdsAtLeast(view, test) ? "confirmed" : "probable";
  }
  return test(view.most, "most") || test(withHeight(view.most, view.tree.height.highM), "most") ? "possible" : null;
}

/**
 * The certainty of a conflict now or by the date its minimum is reached at the estimate: a forecast is `probable`, and a tree known by its
 * position alone is `possible` at most. Null when it is neither.
 */
export function certaintyWithForecast(
  view: TreeView,
  test: Test,
  isThingSure: boolean,
  isReached: boolean,
): Certainty | null {
  const now = certaintyOf(view, test, isThingSure);
  const certainty = isReached && (now === null || now === "possible") ? "probable" : now;
  return certainty !== null && view.isByPosition ? "possible" : certainty;
}

function holdsAtLeast(view: TreeView, test: Test): boolean {
  for (const heightM of [view.tree.height.lowM, view.tree.height.highM]) {
    if (!(heightM > view.least.baseM)) return false;
    for (const habit of HABITS) {
      if (!test({ ...view.least, heightM, habit }, "least")) return false;
    }
  }
  return true;
}

const withHeight = (size: CrownSize, heightM: number): CrownSize => ({ ...size, heightM });

const ORDER: readonly Certainty[] = ["confirmed", "probable", "possible"];

/** The less sure of two. */
export const atMost = (certainty: Certainty, limit: Certainty): Certainty =>
  ORDER[Math.max(ORDER.indexOf(certainty), ORDER.indexOf(limit))]!;

/** Said of a conflict that is still to come. */
export const FORECAST_DOUBT = "A forecast from the growth of the crown's radius and the droop of its branches.";

/** Less than this reads as nothing. */
const TOUCH_M = 0.05;

/** Why a certainty is no better, as far as the tree's own sizes go; one sentence, lengths in the reader's units. */
export function doubtOfSizes(view: TreeView, certainty: Certainty, units: DisplayUnits): string | null {
  const { height, crownBase, radius } = view.tree;
  if (certainty === "confirmed") return null;
  if (view.isByPosition) return "Only the tree's position is known: its sizes are assumed.";
  if (certainty === "possible") {
    return `It holds only if the crown is wider or lower than estimated: radius up to ${formatLength(radius.highM, units)}, base down to ${crownBase.lowM < TOUCH_M ? "the ground" : formatLength(crownBase.lowM, units)}.`;
  }
  const unsure = [
    { name: "height", basis: height.basis },
    { name: "crown base", basis: crownBase.basis },
    { name: "crown radius", basis: radius.basis },
  ].filter(({ basis }) => basis !== "measured");
  if (unsure.length === 0) return "It does not hold for every crown shape within the error of measurement.";
  const names = unsure.map(({ name }) => name);
  const list = names.length === 1 ? names[0]! : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]!}`;
  return `The ${list} ${names.length === 1 ? "is" : "are"} not measured.`;
}
