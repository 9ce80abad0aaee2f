import { reachesOver } from "../crown/reaches-over.ts";
import type { Conflict } from "../model/conflict.ts";
import type { Tree } from "../model/trees.ts";
import { formatDate } from "../units/format-date.ts";
import { type DisplayUnits, formatLength } from "../units/format-length.ts";
import { thingWords } from "./conflict-words.ts";
import { isWoody } from "./kinds.ts";

/** Less than this reads as touching: half of what is said to the decimeter. */
const TOUCH_M = 0.05;

/**
 * One plain sentence: which thing, what was measured and what is needed; for a conflict still to come, by when; for one that is only
 * possible, what is estimated, without a date.
 *
 * Says no figure that was not measured: a crown that does not reach the thing yet has no headroom over it, and one that touches a wall or
 * roof has no distance from it. Where rounding makes what there is and what is needed read the same, it says so in words.
 */
export function causeWords(conflict: Conflict, tree: Tree, units: DisplayUnits): string {
  const say = sayingOf(conflict, tree, units);
  switch (conflict.kind) {
    case "building-side":
    case "conductor":
      return besideWords(say);
    case "building-roof":
      return roofWords(say);
    case "sight-triangle":
    case "curve":
    case "sign":
    case "signal":
      return isWoody(tree) ? viewWords(say) : shrubInViewWords(say);
    default:
      return overWords(say);
  }
}

/** What the sentences are made of. */
interface Saying {
  readonly conflict: Conflict;
  readonly thing: string;
  readonly measured: string;
  readonly needed: string;
  readonly low: string;
  readonly height: string;
  readonly date: string;
  readonly isOpen: boolean;
  readonly isPossible: boolean;
  readonly isTouching: boolean;
  /** Whether what was measured reads the same as what is needed. */
  readonly isJust: boolean;
  readonly isReaching: boolean;
}

function sayingOf(conflict: Conflict, tree: Tree, units: DisplayUnits): Saying {
  const { measuredM, minimumM } = conflict;
  const measured = formatLength(Math.max(0, measuredM), units);
  const needed = formatLength(minimumM, units);
  return {
    conflict,
    thing: thingWords(conflict),
    measured,
    needed,
    low: formatLength(Math.max(0, conflict.region.lowM), units),
    height: formatLength(tree.height.valueM, units),
    date: formatDate(conflict.reachedOn),
    isOpen: measuredM < minimumM,
    isPossible: conflict.certainty === "possible",
    isTouching: measuredM < TOUCH_M,
    isJust: measured === needed,
    isReaching: reachesOver(tree, conflict),
  };
}

function overWords(say: Saying): string {
  const { thing, measured, needed } = say;
  if (say.isPossible) {
    const now = say.isReaching
      ? say.isTouching
        ? "they reach down to the ground there"
        : `they hang ${measured} above it`
      : "they do not reach over it yet";
    return `Branches may hang lower than the ${needed} needed above ${thing}; by estimate ${now}.`;
  }
  if (say.isOpen) {
    if (say.isTouching) return `Branches reach down to the ground over ${thing}; ${needed} is needed.`;
    return say.isJust
      ? `Branches hang just less than the ${needed} needed above ${thing}.`
      : `Branches hang ${measured} above ${thing}; ${needed} is needed.`;
  }
  if (!say.isReaching) {
    return `Branches do not reach over ${thing} yet; by ${say.date} they are expected to, below the ${needed} needed.`;
  }
  return say.isJust
    ? `Branches hang just over the ${needed} needed above ${thing}; it will be less by ${say.date}.`
    : `Branches hang ${measured} above ${thing}; it will be less than the ${needed} needed by ${say.date}.`;
}

function besideWords(say: Saying): string {
  const { thing, measured, needed } = say;
  const isLine = say.conflict.kind === "conductor";
  const touch = isLine ? "the line runs through the crown" : "they touch it";
  if (say.isPossible) {
    return `Branches may come nearer to ${thing} than the ${needed} needed; by estimate ${say.isTouching ? touch : `they come within ${measured} of it`}.`;
  }
  if (say.isOpen) {
    if (say.isTouching) {
      return isLine
        ? `The overhead line runs through the crown or touches it; ${needed} of free space is needed.`
        : `Branches touch ${thing}; ${needed} of free space is needed.`;
    }
    return say.isJust
      ? `Branches come just nearer to ${thing} than the ${needed} needed.`
      : `Branches come within ${measured} of ${thing}; ${needed} is needed.`;
  }
  return say.isJust
    ? `Branches keep just over the ${needed} needed from ${thing}; it will be less by ${say.date}.`
    : `Branches come within ${measured} of ${thing}; it will be less than the ${needed} needed by ${say.date}.`;
}

function roofWords(say: Saying): string {
  const { thing, measured, needed } = say;
  if (say.isPossible) {
    const now = say.isReaching
      ? say.isTouching
        ? "they touch or overhang its edge"
        : `they are ${measured} above it`
      : "they do not reach over it yet";
    return `Branches may be nearer above ${thing} than the ${needed} needed; by estimate ${now}.`;
  }
  if (say.isOpen) {
    if (say.isTouching) return `Branches touch or overhang the edge of ${thing}; ${needed} above it must be free.`;
    return say.isJust
      ? `Branches are just less than the ${needed} needed above ${thing}.`
      : `Branches are ${measured} above ${thing}; ${needed} is needed.`;
  }
  if (!say.isReaching) {
    return `Branches do not reach over ${thing} yet; by ${say.date} they are expected to, nearer than the ${needed} needed above it.`;
  }
  return say.isJust
    ? `Branches are just over the ${needed} needed above ${thing}; it will be less by ${say.date}.`
    : `Branches are ${measured} above ${thing}; it will be less than the ${needed} needed by ${say.date}.`;
}

function viewWords(say: Saying): string {
  const { thing, measured, needed } = say;
  if (say.isPossible) {
    const now = say.isReaching
      ? `they hang down to ${say.isTouching ? "the ground" : measured}`
      : "they do not reach into it yet";
    return `Leaves may hang lower than the ${needed} needed in ${thing}; by estimate ${now}.`;
  }
  if (say.isOpen) {
    if (say.isTouching) return `Leaves hang down to the ground, in ${thing}; it must be clear up to ${needed}.`;
    return say.isJust
      ? `Leaves hang just lower than the ${needed} that must be clear in ${thing}.`
      : `Leaves hang down to ${measured}, in ${thing}; it must be clear up to ${needed}.`;
  }
  if (!say.isReaching) {
    return `Leaves do not reach into ${thing} yet; by ${say.date} they are expected to, below the ${needed} needed.`;
  }
  return say.isJust
    ? `Leaves hang just over the ${needed} needed in ${thing}; it will be less by ${say.date}.`
    : `Leaves hang down to ${measured} over ${thing}; it will be less than the ${needed} needed by ${say.date}.`;
}

/** Of a shrub or hedge it is the height that hides the view, not how low its leaves hang. */
function shrubInViewWords(say: Saying): string {
  const { thing, height, low } = say;
  if (say.isPossible) return `It may grow in ${thing}, ${height} high; what stands there is to be kept below ${low}.`;
  if (say.isOpen) return `It grows in ${thing}, ${height} high; it is to be kept below ${low}.`;
  return `It does not grow into ${thing} yet; by ${say.date} it is expected to, higher than the ${low} it is to be kept below.`;
}
