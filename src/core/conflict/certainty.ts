import type { Certainty } from "../model/terms.ts";
import { type DisplayUnits, formatLength } from "../units/format-length.ts";
import type { CrownSize } from "./crown-size.ts";
import { plausibleHabits } from "./plausible-habits.ts";
import type { TreeView } from "./tree-view.ts";

/** Which end of the other thing's own interval (a way's width, a wire's height) a test is made at. */
export type End = "least" | "typical" | "most";

/** Whether a crown of a size is in conflict now with the thing at an end of its own interval. */
export type Test = (size: CrownSize, end: End) => boolean;

/**
 * How sure it is that a crown is in conflict now, or null when it is not at any end of the 90 % intervals.
 *
 * `confirmed`: every size is measured and it holds with the smallest radius, at both ends of base and height, for every habit that a plant of its
 * form can have. `probable`: it holds at the estimate. `possible`: only with the largest radius at some end of base and height, of a
 * measured crown for some habit, or at the thing's own far end. Both ends of the base, as a crown whose base is lower is slimmer above its widest part.
 */
export function certaintyOf(view: TreeView, test: Test, isThingSure: boolean): Certainty | null {
  if (test(view.estimate, "typical")) {
    return isThingSure && view.basis === "measured" && holdsAtLeast(view, test) ? "confirmed" : "probable";
  }
  return holdsAtMost(view, test) ? "possible" : null;
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

function holdsAtLeast({ tree, least }: TreeView, test: Test): boolean {
  const habits = plausibleHabits(tree.form);
  for (const heightM of [tree.height.lowM, tree.height.highM]) {
    for (const baseM of [tree.crownBase.highM, tree.crownBase.lowM]) {
      const size = atEnds(least, heightM, baseM);
      for (const habit of habits) {
        size.habit = habit;
        if (!test(size, "least")) return false;
      }
    }
  }
  return true;
}

/**
 * Of a measured crown the profile is what nobody knows: every one that its form can have counts. Where sizes are estimated their intervals are
 * wide enough to hold other profiles too (docs/method.md, simulation).
 */
function holdsAtMost({ tree, most, basis }: TreeView, test: Test): boolean {
  const { lowM, valueM, highM } = tree.crownBase;
  const habits = basis === "measured" ? plausibleHabits(tree.form) : [tree.habit];
  // A column from the lowest base to the greatest height holds every other crown in itself.
  if (habits.includes("column")) {
    return test({ ...atEnds(most, tree.height.highM, lowM), habit: "column" }, "most");
  }
  for (const baseM of [lowM, valueM, highM]) {
    for (const heightM of [tree.height.lowM, tree.height.highM]) {
      for (const habit of habits) {
        if (test({ ...atEnds(most, heightM, baseM), habit }, "most")) return true;
      }
    }
  }
  return false;
}

/** A crown keeps at least this share of the tree's height, where intervals reach over the top. */
const LEAST_CROWN_SHARE = 0.1;

const atEnds = (size: CrownSize, heightM: number, baseM: number): CrownSize => ({
  ...size,
  heightM,
  baseM: Math.max(0, Math.min(baseM, heightM * (1 - LEAST_CROWN_SHARE))),
});

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
    const how = view.basis === "measured" ? "wider, lower or fuller than modeled" : "wider or lower than estimated";
    return `It holds only if the crown is ${how}: radius up to ${formatLength(radius.highM, units)}, base down to ${crownBase.lowM < TOUCH_M ? "the ground" : formatLength(crownBase.lowM, units)}.`;
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
