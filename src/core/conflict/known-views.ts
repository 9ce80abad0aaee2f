import type { Conflict } from "../model/conflict.ts";
import type { SightArea } from "../model/surroundings.ts";
import type { Standard } from "../standard/standard.ts";
import type { Surroundings } from "../surroundings/surroundings.ts";
import { hiddenShares } from "./hidden/with-hidden-shares.ts";
import { PolesAround } from "./poles-around.ts";

/** What the search of a part of the trees takes from the whole: what all of them hide of areas of sight. */
export interface KnownViews {
  /** Number of each of the part's trunks among all in its area, in input order, by `trunkKey`. */
  readonly trunkNumbers: ReadonlyMap<string, number>;
  readonly withHiddenShare: (conflict: Conflict) => Conflict;
  readonly poles: PolesAround;
}

/** What is known of an area of sight. */
export type HiddenArea = Pick<SightArea, "id" | "kind" | "hidden">;

/** {@link KnownViews} of each part by its trunks, worked out once for all parts. */
export function knownViews(
  sight: readonly HiddenArea[],
  surroundings: Surroundings,
  standard: Standard,
): (trunkNumbers: ReadonlyMap<string, number>) => KnownViews {
  const withHiddenShare = hiddenShares(sight, surroundings, standard);
  const poles = new PolesAround(standard, surroundings.poles);
  return (trunkNumbers) => ({ trunkNumbers, withHiddenShare, poles });
}
