import type { ConflictRecord } from "../../model/conflict.ts";
import type { IsoDate } from "../../units/calendar.ts";
import { renamedConflict } from "./rename-ids.ts";

/** What is known of the conflicts of an earlier revision, by the ids that they have in the next one. */
export type EarlierConflicts = ReadonlyMap<string, Pick<ConflictRecord, "firstSeen" | "hazard">>;

/**
 * The conflicts of trees that stand in both inventories under their new ids. `idOf` gives a tree's new id, null for one that is no more; `things` are those
 * around the trees that have another id now, by the new one.
 */
export function earlierConflicts(
  conflicts: readonly ConflictRecord[],
  idOf: (treeId: string) => string | null,
  things: ReadonlyMap<string, string> = new Map(),
): EarlierConflicts {
  const nowOf = new Map([...things].map(([now, was]) => [was, now]));
  // An id that another thing has now says nothing of the one that had it.
  const taken = new Set([...things.keys()].filter((now) => !nowOf.has(now)));
  const known = new Map<string, Pick<ConflictRecord, "firstSeen" | "hazard">>();
  for (const { conflictId, treeId, withLayer, withId, firstSeen, hazard } of conflicts) {
    const to = idOf(treeId);
    const key = `${withLayer}/${withId}`;
    const now = nowOf.get(key) ?? (taken.has(key) ? null : key);
    if (to === null || now === null) continue;
    const ofTree = renamedConflict(conflictId, treeId, to);
    known.set(now === key ? ofTree : ofTree.slice(0, ofTree.length - key.length) + now, { firstSeen, hazard });
  }
  return known;
}

/** Since when a conflict is known. One that has become a hazard since counts from now on: its deadline cannot have passed before anybody knew. */
export const firstSeenOf = (
  { conflictId, hazard }: Pick<ConflictRecord, "conflictId" | "hazard">,
  earlier: EarlierConflicts,
  asOf: IsoDate,
): IsoDate => {
  const before = earlier.get(conflictId);
  return before === undefined || (hazard !== null && before.hazard === null) ? asOf : before.firstSeen;
};
