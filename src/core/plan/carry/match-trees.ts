import type { IsoDate } from "../../units/calendar.ts";
import { assignPairs, type WeighedPair } from "./assign-pairs.ts";
import { commonShift } from "./common-shift.ts";
import {
  type ComparedTree,
  isGrown,
  likeSize,
  likeSpecies,
  type SizeLikeness,
  type SpeciesLikeness,
} from "./like-tree.ts";
import { distanceM, nearPairs, type Shift } from "./near-pairs.ts";
import { isUnitSlip, stemUnitFactor } from "./stem-unit.ts";
import { isSameTree, type TreeMatch, type TreeMatches } from "./tree-match.ts";

/** Two fixes of a receiver that is off by 3 m lie up to the root of two times that apart, rounded up; meters. Common practice, no source. */
const SAME_PLACE_M = 5;
/** Where neither species nor size tells, only this near is the same place, in meters: nobody plants two trees so near. Common practice, no source. */
const VERY_PLACE_M = 2;
/** A successor is planted beside the stump at most so far away, in meters. Common practice, no source. */
const BESIDE_STUMP_M = 3;
/** Farther than this a position was not corrected, in meters; the same id and species there is still taken, with doubt. Our policy. */
const CORRECTED_M = 100;
/** What a name that says less, and none at all, cost beside meters of distance; our policy. */
const GENUS_COST = 1;
const UNKNOWN_COST = 1.5;
/** Leaving a tree alone costs more than any pair, which is the most of distance and doubt together; our policy. */
const ALONE_COST = SAME_PLACE_M + UNKNOWN_COST + 0.5;
/** A second choice that costs less than this more makes a match doubtful; our policy. */
const CLOSE_CALL = 1;

const NO_SHIFT: Shift = { eastM: 0, northM: 0 };

/**
 * The trees of a new inventory beside those of the one before, each in one match at most, the same whatever the machine; ties go to the earlier tree.
 *
 * What fits by id and place is settled first; of the rest, trees at the same place of the same species and a size that growth and pruning explain are
 * matched so that no tree takes a neighbor's place ({@link assignPairs}); then the same id elsewhere, where species and size fit; then trees that
 * stand where another stood. So neither ids that were dealt anew nor positions that were corrected carry one tree's history to another.
 * `isNoId` tells ids that only say where a tree was in its file. `since` is the earlier plan's as-of date.
 */
export function matchTrees(
  old: readonly ComparedTree[],
  now: readonly ComparedTree[],
  since: IsoDate,
  isNoId: (id: string) => boolean = () => false,
): TreeMatches {
  const newRowOfId = new Map(now.flatMap(({ id }, row) => (isNoId(id) ? [] : [[id, row] as const])));
  const common = commonShift(old, now, newRowOfId);
  const shift = common ?? NO_SHIFT;
  const stemFactor = stemUnitFactor(old, now, newRowOfId);
  const inOldUnit = stemFactor === 1 ? now : now.map((tree) => withStem(tree, stemFactor));
  const desk = new Desk(old, inOldUnit, shift, since);
  const sameIds = old.flatMap((tree, oldRow) => {
    const newRow = isNoId(tree.id) ? undefined : newRowOfId.get(tree.id);
    return newRow === undefined ? [] : [{ oldRow, newRow, distanceM: distanceM(tree, now[newRow]!, shift) }];
  });
  for (const { oldRow, newRow, distanceM: apartM } of sameIds) {
    if (apartM <= SAME_PLACE_M && desk.fits(oldRow, newRow)) desk.take({ oldRow, newRow, identity: "matched" });
  }
  matchByPlace(desk);
  for (const { oldRow, newRow, distanceM: apartM } of sameIds) {
    if (!desk.isOpen(oldRow, newRow)) continue;
    const [species, size] = [desk.species(oldRow, newRow), desk.size(oldRow, newRow)];
    if (apartM > SAME_PLACE_M) {
      if (!desk.fits(oldRow, newRow)) continue;
      const isFar = apartM > CORRECTED_M;
      if (isFar && species === "unknown") continue;
      const doubt = isFar
        ? `The same id and species ${Math.round(apartM)} m away: a corrected position, or an id used anew`
        : null;
      desk.take({ oldRow, newRow, identity: "moved", doubt });
    } else
      desk.take({
        oldRow,
        newRow,
        ...inItsPlace(species, size, isGrown(inOldUnit[newRow]!), isUnitSlip(old[oldRow]!, inOldUnit[newRow]!)),
      });
  }
  const stumps = nearPairs(old, desk.openOld(), now, desk.openNew(), BESIDE_STUMP_M, shift);
  const successors = stumps.filter(({ oldRow, newRow }) => desk.isOther(oldRow, newRow));
  for (const { oldRow, newRow } of assignPairs(
    successors.map((pair) => ({ ...pair, cost: pair.distanceM })),
    ALONE_COST,
  )) {
    desk.take({ oldRow, newRow, identity: "replanted" });
  }
  return { ...desk.result(), stemFactor, shift: common };
}

const withStem = (tree: ComparedTree, factor: number): ComparedTree =>
  tree.dbhM === null ? tree : { ...tree, dbhM: tree.dbhM * factor };

/** What a tree with the same id at the same place is that species and size do not simply let be the same. */
function inItsPlace(
  species: SpeciesLikeness,
  size: SizeLikeness,
  isTooLarge: boolean,
  isOtherUnit: boolean,
): { identity: "matched" | "replanted"; doubt: string | null } {
  const same = (taken: string): { identity: "matched"; doubt: string } => ({
    identity: "matched",
    doubt: `The same id and place, ${taken}`,
  });
  if (size === "corrected") return same("and height, but another stem: taken for a corrected size");
  if (size === "larger") return same("but a stem that growth does not explain: taken for a corrected size");
  if (species === "other" && (size === "fits" || (size === "unknown" && isTooLarge))) {
    return same("under another genus and too large to be planted since: taken for a corrected name");
  }
  if (isOtherUnit && isTooLarge && species !== "other") {
    return same("a stem as it would be in another unit, and too large to be planted since: taken for a corrected unit");
  }
  const doubt =
    size === "unknown"
      ? "The same id and place under another genus, not measured twice: taken for replanted"
      : isTooLarge
        ? "The same id and place, smaller, and yet too large to be planted since: taken for replanted"
        : isOtherUnit && species !== "other"
          ? "The same id, place and species, and a stem as it would be in another unit: taken for replanted"
          : null;
  return { identity: "replanted", doubt };
}

/** Trees of other ids at the same place, of the same or unknown species and a size that fits. */
function matchByPlace(desk: Desk): void {
  const pairs = nearPairs(desk.old, desk.openOld(), desk.now, desk.openNew(), SAME_PLACE_M, desk.shift);
  const weighed = pairs.flatMap(({ oldRow, newRow, distanceM: apartM }): WeighedPair[] => {
    const cost = desk.cost(oldRow, newRow, apartM);
    return cost === null ? [] : [{ oldRow, newRow, cost }];
  });
  const choices = new Map<number, WeighedPair[]>();
  for (const pair of weighed) choices.set(pair.oldRow, [...(choices.get(pair.oldRow) ?? []), pair]);
  for (const { oldRow, newRow, cost } of assignPairs(weighed, ALONE_COST)) {
    const isSameId = desk.old[oldRow]!.id === desk.now[newRow]!.id;
    const rival = choices.get(oldRow)!.find((one) => one.newRow !== newRow && one.cost < cost + CLOSE_CALL);
    const doubt =
      rival === undefined || isSameId
        ? null
        : `Tree ${desk.now[rival.newRow]!.id} stands about as near and fits about as well`;
    desk.take({ oldRow, newRow, identity: isSameId ? "matched" : "renumbered", doubt });
  }
}

/** Which trees are matched so far. */
class Desk {
  readonly #newOf = new Map<number, TreeMatch>();
  readonly #oldDone = new Set<number>();

  constructor(
    readonly old: readonly ComparedTree[],
    readonly now: readonly ComparedTree[],
    readonly shift: Shift,
    private readonly since: IsoDate,
  ) {}

  take(match: { oldRow: number; newRow: number; identity: TreeMatch["identity"]; doubt?: string | null }): void {
    const apartM = distanceM(this.old[match.oldRow]!, this.now[match.newRow]!, this.shift);
    this.#newOf.set(match.newRow, { doubt: null, ...match, distanceM: apartM });
    this.#oldDone.add(match.oldRow);
  }

  isOpen = (oldRow: number, newRow: number): boolean => !this.#oldDone.has(oldRow) && !this.#newOf.has(newRow);
  openOld = (): number[] => [...this.old.keys()].filter((row) => !this.#oldDone.has(row));
  openNew = (): number[] => [...this.now.keys()].filter((row) => !this.#newOf.has(row));

  species = (oldRow: number, newRow: number): SpeciesLikeness => likeSpecies(this.old[oldRow]!, this.now[newRow]!);
  size = (oldRow: number, newRow: number): SizeLikeness => likeSize(this.old[oldRow]!, this.now[newRow]!, this.since);

  /** Whether species and size let the new tree be the old one. */
  fits(oldRow: number, newRow: number): boolean {
    const size = this.size(oldRow, newRow);
    return this.species(oldRow, newRow) !== "other" && (size === "fits" || size === "unknown");
  }

  /** Whether the new tree is certainly not the old one. */
  isOther = (oldRow: number, newRow: number): boolean =>
    this.species(oldRow, newRow) === "other" || this.size(oldRow, newRow) === "smaller";

  /** What speaks against two trees of other ids being one, in meters; null where they cannot be. */
  cost(oldRow: number, newRow: number, apartM: number): number | null {
    if (!this.fits(oldRow, newRow)) return null;
    const species = this.species(oldRow, newRow);
    if (species === "unknown" && this.size(oldRow, newRow) === "unknown" && apartM > VERY_PLACE_M) return null;
    return apartM + (species === "unknown" ? UNKNOWN_COST : species === "genus" ? GENUS_COST : 0);
  }

  result(): Pick<TreeMatches, "all" | "oldRowOf"> {
    const all = this.now.map(
      (_, newRow): TreeMatch =>
        this.#newOf.get(newRow) ?? { oldRow: null, newRow, identity: "new", distanceM: null, doubt: null },
    );
    for (const oldRow of this.openOld()) {
      all.push({ oldRow, newRow: null, identity: "removed", distanceM: null, doubt: null });
    }
    const same = all.filter(isSameTree);
    return { all, oldRowOf: new Map(same.map(({ oldRow, newRow }) => [newRow!, oldRow!])) };
  }
}
