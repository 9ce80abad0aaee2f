import { type DictionaryField, field } from "./dictionary-field.ts";

/** Columns of `visits.csv`. */
export const VISIT_FIELDS: readonly DictionaryField[] = [
  field("visit", "text", null, "Id of the visit"),
  field("tree", "text", null, "Id of the tree"),
  field("species", "text?", null, "Species as the inventory names it"),
  field("street", "text?", null, "Street"),
  field("address", "text?", null, "Address"),
  field("number", "integer", null, "1 for the next visit"),
  field("due", "date", null, "Due date"),
  field("window_start", "date", null, "First allowed date"),
  field("window_end", "date", null, "Last allowed date"),
  field("urgency", "text", null, "now, next-window, this-cycle or watch"),
  field("overdue", "boolean", null, "Whether the due date is before the as-of date"),
  field("crew", "text", null, "Who may do it: ground, aerial, line-clearance or utility"),
  field("hours", "number", "hours", "Crew-hours"),
  field("dose_pct", "number", "percent", "Share of the live crown that it takes"),
  field("zone", "text?", null, "Work zone"),
  field("tasks", "words", null, "Remedies of its tasks in order"),
  field("where", "text", null, "Where on the tree, one phrase a task"),
  field("open_after", "text?", null, "Conflicts still open afterwards; empty when cured"),
];

/** Columns of `findings.csv`. */
export const FINDING_FIELDS: readonly DictionaryField[] = [
  field("code", "text", null, "Stable code of the finding"),
  field("severity", "text", null, "info, warning or error"),
  field("layer", "text", null, "Layer, or plan, standard, columns"),
  field("file", "text?", null, "File it is about"),
  field("feature", "text?", null, "The feature's own id, or # and its place in the file from 0"),
  field("field", "text?", null, "Column or member it is about"),
  field("value", "text?", null, "The offending value, at most 256 characters"),
  field("reason", "text", null, "What is wrong"),
  field("what_to_do", "text", null, "What the reader can do about it"),
];
