import type { Conflict } from "../model/conflict.ts";
import type { SightArea } from "../model/surroundings.ts";
import type { Standard } from "../standard/standard.ts";
import type { Surroundings } from "../surroundings/surroundings.ts";
import { hiddenShares } from "./hidden/with-hidden-shares.ts";
import { PolesAround } from "./poles-around.ts";

/** What the search of a part of the trees takes from the whole: what all of them hide of areas of sight. */
export interface KnownViews {
  readonly sight: readonly SightArea[];
  /** Trunks inside areas of sight, by area id, of the trees before the part in input order. */
  readonly trunksBefore: ReadonlyMap<string, number>;
  readonly withHiddenShare: (conflict: Conflict) => Conflict;
  readonly poles: PolesAround;
}

/** {@link KnownViews} of each part by its trunks, worked out once for all parts. */
export function knownViews(
  sight: readonly SightArea[],
  surroundings: Surroundings,
  standard: Standard,
): (trunksBefore: ReadonlyMap<string, number>) => KnownViews {
  const withHiddenShare = hiddenShares(sight, surroundings, standard);
  const poles = new PolesAround(standard, surroundings.poles);
  return (trunksBefore) => ({ sight, trunksBefore, withHiddenShare, poles });
}
