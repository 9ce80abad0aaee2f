import type { ConflictRecord } from "../model/conflict.ts";
import { type ConflictKind, unreachable } from "../model/terms.ts";
import { formatDate } from "../units/format-date.ts";
import { type DisplayUnits, formatLength } from "../units/format-length.ts";

/** Longest name of a thing that is put into a sentence. */
const LONGEST_NAME = 60;

/** What is in the tree's way, in a resident's words: `Main Street`, `the walk`, `the wall of 12 Elm`. */
export function thingWords(conflict: ConflictRecord): string {
  const name = conflict.withName === null ? null : conflict.withName.slice(0, LONGEST_NAME);
  switch (conflict.kind) {
    case "roadway":
      return name ?? "the lane";
    case "bus-route":
      return name === null ? "the bus route" : `the bus route on ${name}`;
    case "fire-lane":
      return name ?? "the fire lane";
    case "walkway":
      return name ?? "the walk";
    case "bikeway":
      return name ?? "the bikeway";
    case "sight-triangle":
      return name === null ? "the view at the intersection" : `the view at the intersection with ${name}`;
    case "curve":
      return "the view around the curve";
    case "sign":
      return "the view of the sign";
    case "signal":
      return "the view of the signal";
    case "building-side":
      return name === null ? "the wall" : `the wall of ${name}`;
    case "building-roof":
      return name === null ? "the roof" : `the roof of ${name}`;
    case "conductor":
      return "the overhead line";
    default:
      return unreachable(conflict.kind);
  }
}

/** The side of the tree that faces the thing, in a resident's words. */
export function sideWords(kind: ConflictKind): string {
  switch (kind) {
    case "roadway":
    case "bus-route":
    case "fire-lane":
    case "curve":
      return "on the street side";
    case "walkway":
    case "bikeway":
      return "over the walk";
    case "sight-triangle":
      return "on the side of the intersection";
    case "sign":
    case "signal":
      return "on the side of the approaching traffic";
    case "building-side":
    case "building-roof":
      return "toward the building";
    case "conductor":
      return "toward the line";
    default:
      return unreachable(kind);
  }
}

/** One plain sentence: which thing, what was measured and what is needed; for a conflict still to come, when. */
export function causeWords(conflict: ConflictRecord, units: DisplayUnits): string {
  const thing = thingWords(conflict);
  const measured = formatLength(Math.abs(conflict.measuredM), units);
  const needed = formatLength(conflict.minimumM, units);
  const isOpen = conflict.measuredM < conflict.minimumM;
  const need = isOpen
    ? `${needed} is needed`
    : `it will be less than the ${needed} needed by ${formatDate(conflict.reachedOn)}`;
  switch (conflict.kind) {
    case "building-side":
    case "conductor":
      return conflict.measuredM < 0
        ? `Branches reach ${measured} past ${thing}; ${needed} of free space is needed.`
        : `Branches come within ${measured} of ${thing}; ${need}.`;
    case "building-roof":
      return conflict.measuredM < 0
        ? `Branches reach ${measured} below the edge of ${thing}; ${needed} above it is needed.`
        : `Branches are ${measured} above ${thing}; ${need}.`;
    case "sight-triangle":
    case "curve":
    case "sign":
    case "signal":
      return isOpen
        ? `Leaves hang down to ${conflict.measuredM < 0.05 ? "the ground" : measured}, in ${thing}; it must be clear up to ${needed}.`
        : `Leaves hang down to ${measured}, in ${thing}; ${need}.`;
    default:
      return `Branches hang ${measured} above ${thing}; ${need}.`;
  }
}

const KIND_WORDS: Readonly<Record<ConflictKind, string>> = {
  conductor: "overhead lines",
  roadway: "roadways",
  "bus-route": "bus routes",
  "fire-lane": "fire lanes",
  "sight-triangle": "sight triangles",
  curve: "curves",
  sign: "signs",
  signal: "signals",
  walkway: "walkways",
  bikeway: "bikeways",
  "building-side": "walls",
  "building-roof": "roofs",
};

/** Kinds of things in words, for example `overhead lines, signs and signals`. */
export const kindsWords = (kinds: readonly ConflictKind[]): string => listWords(kinds.map((kind) => KIND_WORDS[kind]));

/** `a`, `a and b`, `a, b and c`. */
export function listWords(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)!}`;
}
