import type { ArboristWord } from "../../model/word.ts";
import type { RecordedName } from "../record/work-record.ts";
import { type Rename, renamedConflict, renamedPart } from "./rename-ids.ts";

/**
 * What arborists said, of trees under the ids that they bear from now on; in the order it was said, and nothing left out. A word keeps the ids it was
 * said under as `formerly`.
 */
export function renamedWords(words: readonly ArboristWord[], names: readonly RecordedName[]): ArboristWord[] {
  const toOf = new Map(names.map(({ from, to }) => [from, to]));
  const rename: Rename = (id) => toOf.get(id) ?? id;
  return words.map((word) => {
    const { treeId: from, visitId } = word;
    const to = toOf.get(from);
    if (to === undefined) return word;
    const renamed = {
      formerly: { treeId: from, visitId },
      ...word,
      treeId: to,
      visitId: visitId === null ? null : renamedPart(visitId, rename),
    };
    if (renamed.kind !== "inspected") return renamed;
    const conflictIds = renamed.value.conflictIds.map((id) => renamedConflict(id, from, to));
    return { ...renamed, value: { ...renamed.value, conflictIds } };
  });
}
