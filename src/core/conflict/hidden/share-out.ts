import type { HiddenShare } from "../../model/surroundings.ts";
import { difference, type IntervalSet, measure, overlaps, union } from "./interval-set.ts";

/** What one tree hides of an area's positions: by its crown, which can be opened, and by its trunk, which cannot. */
export interface HiddenByTree {
  readonly treeId: string;
  readonly crown: IntervalSet;
  readonly trunk: IntervalSet;
}

/**
 * What some trees hide of a length, net of what buildings hide: the share together, each tree's alone, and what opening one tree, or all of a
 * group that stands in line, would open. Opened means that its crown is out of the lines of sight; its trunk stays. A group are the trees whose
 * crowns hide common positions, one joined to the next. The tree or group that would open most is named, the smaller of two that open the same.
 */
export function shareOut(
  trees: readonly HiddenByTree[],
  byWalls: IntervalSet,
  lengthM: number,
): Omit<HiddenShare, "blind"> {
  const net = trees.map(({ treeId, crown, trunk }) => ({
    treeId,
    crown: difference(crown, byWalls),
    trunk: difference(trunk, byWalls),
  }));
  const all = union(...net.flatMap(({ crown, trunk }) => [crown, trunk]));
  const hiding = net.filter(({ crown, trunk }) => crown.length + trunk.length > 0);
  const opensM = (opened: ReadonlySet<string>): number => {
    const left = union(
      ...hiding.flatMap(({ treeId, crown, trunk }) => (opened.has(treeId) ? [trunk] : [crown, trunk])),
    );
    return measure(all) - measure(left);
  };
  const shares = hiding.map(({ treeId, crown, trunk }) => ({
    treeId,
    aloneShare: measure(union(crown, trunk)) / lengthM,
    marginalShare: opensM(new Set([treeId])) / lengthM,
  }));
  let most: { treeIds: readonly string[]; share: number } | null = null;
  for (const treeIds of [...shares.map(({ treeId }) => [treeId]), ...groupsOf(hiding)]) {
    const share = opensM(new Set(treeIds)) / lengthM;
    if (share > (most?.share ?? 0) + SAME_SHARE) most = { treeIds, share };
  }
  return {
    share: measure(all) / lengthM,
    lookedAtM: lengthM,
    partsM: pairsOf(all),
    trees: shares,
    opensMost: most,
  };
}

/** Shares nearer than this are the same. */
const SAME_SHARE = 1e-9;

/** Groups of two trees or more, in the order of their first trees. */
function groupsOf(hiding: readonly HiddenByTree[]): string[][] {
  const groups: { ids: string[]; crown: number[] }[] = [];
  for (const { treeId, crown } of hiding) {
    const joined = groups.filter((group) => overlaps(group.crown, crown));
    const first = joined[0];
    if (first === undefined) {
      groups.push({ ids: [treeId], crown: [...crown] });
      continue;
    }
    for (const other of joined.slice(1)) {
      first.ids.push(...other.ids);
      first.crown = union(first.crown, other.crown);
      groups.splice(groups.indexOf(other), 1);
    }
    first.ids.push(treeId);
    first.crown = union(first.crown, crown);
  }
  const order = new Map(hiding.map(({ treeId }, at) => [treeId, at]));
  return groups
    .filter(({ ids }) => ids.length > 1)
    .map(({ ids }) => ids.sort((one, other) => order.get(one)! - order.get(other)!));
}

function pairsOf(set: IntervalSet): [number, number][] {
  const pairs: [number, number][] = [];
  for (let at = 0; at < set.length; at += 2) pairs.push([set[at]!, set[at + 1]!]);
  return pairs;
}
