import type { RecordedName } from "../record/work-record.ts";
import { isSameTree, type TreeMatches } from "./tree-match.ts";

interface Named {
  readonly id: string;
}

/**
 * The ids that change with a new inventory: those of trees that were renumbered, and those of trees that are no more whose id another tree bears now.
 * The record then calls such a tree `A-17 (until revision 3)`, so that nothing recorded of it falls to the other. In the order of the old trees.
 */
export function treeNames(
  matches: TreeMatches,
  old: readonly Named[],
  now: readonly Named[],
  untilRevision: number,
): RecordedName[] {
  const ids = new Set(now.map(({ id }) => id));
  const newIdOf = new Map<number, string>();
  for (const match of matches.all) {
    if (match.oldRow !== null && match.newRow !== null && isSameTree(match))
      newIdOf.set(match.oldRow, now[match.newRow]!.id);
  }
  return old.flatMap(({ id: from }, row): RecordedName[] => {
    const to = newIdOf.get(row) ?? (ids.has(from) ? `${from} (until revision ${untilRevision})` : from);
    return to === from ? [] : [{ from, to, untilRevision }];
  });
}

/** The id that a tree has now which had `id` in a revision. */
export function presentName(names: readonly RecordedName[], revision: number): (id: string) => string {
  // Names of one inventory change all at once: two trees may have exchanged theirs.
  const steps = [...new Set(names.map(({ untilRevision }) => untilRevision))]
    .filter((until) => until >= revision)
    .sort((a, b) => a - b)
    .map(
      (until) => new Map(names.flatMap((one) => (one.untilRevision === until ? [[one.from, one.to] as const] : []))),
    );
  return (id) => steps.reduce((name, step) => step.get(name) ?? name, id);
}
