import { type DictionaryField, field } from "./dictionary-field.ts";

/** Members added to each tree of `trees.geojson`, in the order they are written. */
export const TREE_FIELDS: readonly DictionaryField[] = [
  field("bough_conflicts", "words", null, "Kinds of conflict; empty when none was found"),
  field("bough_not_checked", "words", null, "Kinds that could not be checked for this tree"),
  field("bough_urgency", "text", null, "now, next-window, this-cycle, watch or clear"),
  field("bough_overdue", "boolean", null, "Whether the due date is before the as-of date"),
  field("bough_certainty", "text?", null, "Surest of its conflicts: confirmed, probable or possible"),
  field("bough_remedy", "text", null, "shorten, remove-limb, lift, remedial, structural, refer or none"),
  field("bough_bearing_deg", "number?", "degrees", "Bearing of the work from the trunk, clockwise from north"),
  field("bough_lift_m", "number?", "m", "By how much the lowest branches are raised there"),
  field("bough_lift_to_m", "number?", "m", "Height that the lowest branches reach afterwards"),
  field("bough_shorten_m", "number?", "m", "Longest length taken off a branch"),
  field("bough_dose_pct", "number?", "percent", "Share of the live crown that the next visit takes"),
  field("bough_dose_total_pct", "number?", "percent", "Share of the live crown that all visits take"),
  field("bough_visits", "integer", null, "Visits planned"),
  field("bough_due", "date?", null, "Due date of the next visit"),
  field("bough_window", "interval?", null, "Dates in which the next visit is allowed"),
  field("bough_crew", "text?", null, "Who may do it: ground, aerial, line-clearance or utility"),
  field("bough_refer", "text?", null, "Why the tree is referred to a licensed arborist"),
  field("bough_zone", "text?", null, "Work zone of the next visit"),
  field(
    "bough_recorded",
    "text?",
    null,
    "What a crew reported last of it: done, partly, not-done or gone, and the date",
  ),
  field(
    "bough_strike",
    "text?",
    null,
    "Nearest span that the tree is long enough to strike if it fell whole; no forecast",
  ),
  field("bough_height_m", "number", "m", "Tree height that the run used"),
  field("bough_crown_base_m", "number", "m", "Height of the lowest live foliage that the run used"),
  field("bough_crown_radius_m", "number", "m", "Mean crown radius that the run used"),
  field("bough_basis", "text", null, "Worst basis among the three sizes: measured, estimated or assumed"),
  field("bough_why", "text", null, "One plain sentence"),
  field(
    "bough_word",
    "words?",
    null,
    "What arborists said of it that is in force: do-not-prune, option, dates, referral-resolved, measurement, inspected, note",
  ),
];

/** Members that only the table files (GeoPackage, FlatGeobuf, GeoParquet, CSV, database) have beside those of `trees.geojson`. */
export const TREE_TABLE_FIELDS: readonly DictionaryField[] = [
  field("bough_tree", "text", null, "Id of the tree in the plan, unique; conflicts, visits and zones name it"),
  field("bough_feature_id", "text?", null, "The feature's own id in the input, where features have one"),
];
