import {
  CHANGE_ASPECTS,
  CHANGE_CAUSES,
  type ChangeTotals,
  IDENTITIES,
  type TreeChange,
} from "../../model/plan-change.ts";
import type { TreeMatches } from "./tree-match.ts";

/** What a plan's changes come to. `of` says which revisions they lie between. */
export function changeTotals(
  matches: TreeMatches,
  changes: readonly TreeChange[],
  of: Pick<ChangeTotals, "previousRevision" | "sinceRevision" | "sinceAsOf" | "inRevision">,
): ChangeTotals {
  const count = <K extends string>(keys: readonly K[], has: (key: K) => number): Record<K, number> =>
    Object.fromEntries(keys.map((key) => [key, has(key)])) as Record<K, number>;
  return {
    ...of,
    trees: count(IDENTITIES, (key) => matches.all.filter(({ identity }) => identity === key).length),
    byCause: count(CHANGE_CAUSES, (key) => changes.filter(({ cause }) => cause === key).length),
    byAspect: count(CHANGE_ASPECTS, (key) => changes.filter(({ aspects }) => aspects.includes(key)).length),
    changed: changes.filter(({ cause }) => cause !== null).length,
  };
}
