import type { VisitCompletion } from "../completion/completion.ts";

/** Whether two entries say the same of a visit; when it was written down, by whom and which photos were taken does not matter. */
export const saysTheSame = (one: VisitCompletion, other: VisitCompletion): boolean =>
  one.treeId === other.treeId &&
  one.outcome === other.outcome &&
  one.reason === other.reason &&
  one.date === other.date &&
  one.crownBaseM === other.crownBaseM &&
  one.headroomM === other.headroomM &&
  one.doseShare === other.doseShare &&
  one.notes === other.notes;

/** Whether an entry is word for word another: nothing new for the record. */
export const isSameEntry = (one: VisitCompletion, other: VisitCompletion): boolean =>
  saysTheSame(one, other) &&
  one.who === other.who &&
  one.photos.length === other.photos.length &&
  one.photos.every((photo, at) => photo === other.photos[at]);

/**
 * Whether two copies' entries about one visit can both be true: they say the same, or the earlier day's left the visit open. Work that was done on a
 * day cannot be partly done, done otherwise or not done on that day or a later one.
 */
export function canBothBe(one: VisitCompletion, other: VisitCompletion): boolean {
  if (saysTheSame(one, other)) return true;
  if (one.date === other.date) return false;
  const earlier = one.date < other.date ? one : other;
  return earlier.outcome !== "done" && earlier.reason !== "tree-gone";
}
