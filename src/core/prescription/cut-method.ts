import type { Task } from "../model/prescription.ts";

/** Limbs thinner than this are cut by hand: 2 cm (3/4 in, shears; second-hand). */
const HAND_M = 0.02;
/** Limbs thicker than this are taken off in three cuts: 1 in (second-hand). */
const THREE_CUT_M = 0.0254;

/** How a limb of a diameter in meters is cut so that the bark does not tear. */
export function methodFor(diameterM: number): Task["method"] {
  if (diameterM <= HAND_M) return "hand";
  return diameterM <= THREE_CUT_M ? "single-cut" : "three-cut";
}

const METHOD_WORDS: Readonly<Record<Task["method"], string>> = {
  hand: "By hand shears or loppers.",
  "single-cut": "One clean saw cut.",
  "three-cut": "Three cuts: undercut farther out, top cut beyond it, then the final cut.",
};

const CUT_WORDS: Readonly<Record<Task["cut"], string>> = {
  removal: "Cut at the branch collar, just outside it and the bark ridge: no flush cut, no stub.",
  reduction:
    "Cut back to a lateral at least a third as thick as the cut stem: no heading cut, no stub; where there is none, take the branch off at its collar.",
};

/** How to cut, in words, with what must not be done. */
export const howWords = (cut: Task["cut"], method: Task["method"]): string =>
  `${CUT_WORDS[cut]} ${METHOD_WORDS[method]} No paint on the wound, unless a disease rule in force asks for it.`;
