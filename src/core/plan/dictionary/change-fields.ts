import { type DictionaryField, field } from "./dictionary-field.ts";

/** Columns of `changes.csv`, and members of `changes.geojson`. */
export const CHANGE_FIELDS: readonly DictionaryField[] = [
  field("tree", "text", null, "Id of the tree; of a removed tree the one it had"),
  field("formerly", "text?", null, "Id in the revision compared with, where it is another"),
  field("identity", "text", null, "matched, moved, renumbered, replanted, new or removed"),
  field("moved_m", "number?", "m", "Distance between its positions then and now"),
  field(
    "cause",
    "text?",
    null,
    "work, word, data, surroundings, rule, growth or model; empty where it is planned as before",
  ),
  field("what", "words", null, "What differs, the weightiest first: urgency, conflicts, prescription, dates"),
  field("detail", "text", null, "What exactly brought it about"),
  field("urgency_before", "text?", null, "Urgency before; empty for a tree that was not there"),
  field("urgency_now", "text?", null, "Urgency now; empty for a tree that was removed"),
  field("refer_before", "text?", null, "Code of its referral before"),
  field("refer_now", "text?", null, "Code of its referral now"),
  field("conflicts_before", "integer?", null, "Conflicts before, those still to come included"),
  field("conflicts_now", "integer?", null, "Conflicts now"),
  field("conflicts_new", "text?", null, "Ids of conflicts that it did not have before"),
  field("conflicts_ended", "text?", null, "Ids of conflicts that it has no more"),
  field("remedy_before", "text?", null, "Remedy before"),
  field("remedy_now", "text?", null, "Remedy now"),
  field("dose_pct_before", "number?", "percent", "Share of the live crown that the next visit took before"),
  field("dose_pct_now", "number?", "percent", "Share of the live crown that the next visit takes now"),
  field("due_before", "date?", null, "Due date of the next visit before"),
  field("due_now", "date?", null, "Due date of the next visit now"),
  field("overdue_now", "boolean?", null, "Whether it is overdue now"),
];
