import type { Tree } from "../../model/trees.ts";
import type { IsoDate } from "../../units/calendar.ts";

/** What two inventories are compared by. */
export type ComparedTree = Pick<
  Tree,
  "id" | "lonDeg" | "latDeg" | "species" | "commonName" | "form" | "dbhM" | "dbhBasis" | "height" | "planted" | "traits"
>;

/** A stem never shrinks, but tapes, heights of measuring and classes differ: below this share of the old one, less 2 cm, it is another stem. Common practice, no source. */
const LEAST_STEM_SHARE = 0.7;
const STEM_ERROR_M = 0.02;
/** A top lost to pruning or storm leaves more than this share of the height, less 1 m: below it stands another tree. Common practice, no source. */
const LEAST_HEIGHT_SHARE = 0.6;
const HEIGHT_ERROR_M = 1;
/** No stem grows past half as much again and 10 cm between two inventories: ten good years. Common practice, no source. */
const MOST_STEM_SHARE = 1.5;
const MOST_STEM_MORE_M = 0.1;

/** `same`: the same name. `genus`: one name says more, or another species of the genus. `unknown`: one has none. `other`: another genus. */
export type SpeciesLikeness = "same" | "genus" | "unknown" | "other";

/** How alike the species of two records are. A genus is known by the species table or, failing that, by the first word of the name. */
export function likeSpecies(one: ComparedTree, other: ComparedTree): SpeciesLikeness {
  const [a, b] = [nameOf(one), nameOf(other)];
  if (a === "" || b === "") return "unknown";
  if (a === b) return "same";
  return genusOf(one, a) === genusOf(other, b) ? "genus" : "other";
}

const nameOf = ({ species, commonName }: ComparedTree): string =>
  (species ?? commonName ?? "").trim().toLowerCase().replace(/\s+/g, " ");

const genusOf = ({ traits }: ComparedTree, name: string): string =>
  traits.genus === "" ? (name.split(" ")[0] ?? name) : traits.genus.toLowerCase();

/** What is planted new has a thinner stem than this and stays under this height for some years, meters. Common practice, no source. */
const YOUNG_STEM_M = 0.2;
const YOUNG_HEIGHT_M = 8;

/**
 * `smaller`: more than measuring and pruning explain, or planted since. `larger`: more than growth does. `corrected`: the stem says one of these and the
 * height, measured both times, says the same tree. `unknown`: not measured twice.
 */
export type SizeLikeness = "fits" | "smaller" | "larger" | "corrected" | "unknown";

/** Whether the later tree can be the earlier one by its size; only what was measured both times counts. `since` is the earlier plan's as-of date. */
export function likeSize(before: ComparedTree, after: ComparedTree, since: IsoDate): SizeLikeness {
  if (after.planted !== null && after.planted > since && before.planted !== after.planted) return "smaller";
  const height = likeHeight(before, after);
  const [stem, newStem] = [stemOf(before), stemOf(after)];
  if (stem === null || newStem === null) return height;
  const isSmaller = newStem < LEAST_STEM_SHARE * stem - STEM_ERROR_M;
  const isLarger = newStem > MOST_STEM_SHARE * stem + MOST_STEM_MORE_M;
  if (!isSmaller && !isLarger) return "fits";
  return height === "fits" ? "corrected" : isSmaller ? "smaller" : "larger";
}

function likeHeight({ height }: ComparedTree, { height: later }: ComparedTree): SizeLikeness {
  if (height.basis !== "measured" || later.basis !== "measured") return "unknown";
  return later.valueM < LEAST_HEIGHT_SHARE * height.valueM - HEIGHT_ERROR_M ? "smaller" : "fits";
}

/** Whether a tree is too large to have been planted between two inventories; false where nobody measured it. */
export const isGrown = (tree: ComparedTree): boolean =>
  (stemOf(tree) ?? 0) >= YOUNG_STEM_M || (tree.height.basis === "measured" && tree.height.valueM >= YOUNG_HEIGHT_M);

/** Diameter in meters of a stem that was measured; null for all others. */
export const stemOf = ({ dbhM, dbhBasis }: ComparedTree): number | null => (dbhBasis === "measured" ? dbhM : null);
