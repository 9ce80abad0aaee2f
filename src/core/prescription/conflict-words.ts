import type { ConflictRecord } from "../model/conflict.ts";
import { type ConflictKind, unreachable } from "../model/terms.ts";

/** Longest name of a thing that is put into a sentence. */
const LONGEST_NAME = 60;

/** Last words of names that say themselves what they name. */
const WAY_WORDS = new Set(["bikeway", "greenway", "path", "promenade", "trail", "walk", "walkway"]);

/** What is in the tree's way, in a resident's words: `Main Street`, `the walk along Elm Street`, `the wall of 12 Elm`. */
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
      return wayWords("the walk", name);
    case "bikeway":
      return wayWords("the bikeway", name);
    case "sight-triangle":
      return name === null ? "the view at the intersection" : `the view at the intersection with ${name}`;
    case "curve":
      return name === null ? "the view around the curve" : `the view around the curve of ${name}`;
    case "sign":
      return `the view of the ${name ?? "sign"}`;
    case "signal":
      return `the view of the ${name ?? "signal"}`;
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

/** A walk often bears the street's name, which alone would mean the street. */
function wayWords(kind: string, name: string | null): string {
  if (name === null) return kind;
  const last = name.trim().split(" ").at(-1)!.toLowerCase();
  return WAY_WORDS.has(last) ? name : `${kind} along ${name}`;
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
      return "over the walk";
    case "bikeway":
      return "over the bikeway";
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

/** The things of some conflicts, each named once. */
export const thingsWords = (conflicts: readonly ConflictRecord[]): string =>
  listWords([...new Set(conflicts.map(thingWords))]);

/** `a`, `a and b`, `a, b and c`. */
export function listWords(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)!}`;
}
