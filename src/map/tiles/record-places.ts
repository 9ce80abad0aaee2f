import type { PartSource } from "./tree-part.ts";

/** Where a tree's records are in the files of its revision, in bytes; conflicts of 0 bytes are none. */
export type RecordPlaces = {
  readonly row: number;
  /** In `prescriptions.jsonl`. */
  readonly at: number;
  readonly bytes: number;
  /** In `conflicts.geojson`: from the first of the tree's conflicts to the end of the last. */
  readonly conflictsAt: number;
  readonly conflictsBytes: number;
};

/** Where a tree's records are, by its input row. */
export function recordPlaces({ trees, ofTree }: Pick<PartSource, "trees" | "ofTree">, row: number): RecordPlaces {
  const [first, end] = [ofTree.first[row]!, ofTree.first[row + 1]!];
  const conflictsAt = end > first ? ofTree.offset[first]! : 0;
  const conflictsBytes = end > first ? ofTree.offset[end - 1]! + ofTree.length[end - 1]! - conflictsAt : 0;
  return { row, at: trees.offset[row]!, bytes: trees.length[row]!, conflictsAt, conflictsBytes };
}
