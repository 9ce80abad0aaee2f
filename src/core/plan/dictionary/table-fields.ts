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
  field("side", "text?", null, "Side of the street"),
  field("owner", "text?", null, "Owner or jurisdiction as the inventory names it"),
  field("protected", "boolean?", null, "Whether the tree is protected"),
];

/** Columns of `spans.csv`. */
export const SPAN_FIELDS: readonly DictionaryField[] = [
  field("circuit", "text?", null, "Circuit, or the line's name or number"),
  field("line", "text", null, "Id of the line"),
  field("span", "text", null, "Id of the span, a piece between two supports"),
  field("length_m", "number", "m", "Length in plan"),
  field("voltage_v", "number?", "V", "Line-to-line voltage; empty when unknown"),
  field("rule", "text?", null, "Rule of the standard for the voltage; empty where there is none"),
  field("minimum_m", "number?", "m", "Below it there is a conflict"),
  field("clear_to_m", "number?", "m", "The least that pruning must reach"),
  field("insulation", "text?", null, "tree wire, aerial cable or as recorded; empty when bare or not recorded"),
  field("trees_in_reach", "integer", null, "Trees whose crown may come nearer than the clear-to within two cycles"),
  field("confirmed", "integer", null, "Conflicts at this span that are confirmed, those still to come included"),
  field("probable", "integer", null, "Conflicts that are probable"),
  field("possible", "integer", null, "Conflicts that are only possible"),
  field(
    "least_gap_m",
    "number?",
    "m",
    "Least gap of a crown to the wire over the load cases; negative inside the crown",
  ),
  field("nearest_tree", "text?", null, "Tree of that gap"),
  field("load_case", "text?", null, "Load case of that gap"),
  field("crew", "text?", null, "Most restricted crew that a tree with a conflict here needs next"),
  field("referred_trees", "integer", null, "Trees with a conflict here that are referred"),
  field("strike_trees", "integer", null, "Trees long enough to strike the wire if they fell whole; no forecast"),
];

/** Columns of `workload.csv`. */
export const WORKLOAD_FIELDS: readonly DictionaryField[] = [
  field("month", "text", null, "Calendar month of the due date, YYYY-MM, for ten years from the as-of date"),
  field("crew", "text", null, "Who may do it: ground, aerial, line-clearance or utility"),
  field("visits", "integer", null, "Visits expected"),
  field("crew_hours", "number", "hours", "Hours of the crews"),
  field(
    "person_hours",
    "number",
    "hours",
    "Hours of all people in them: crew-hours times the people in a crew (standard)",
  ),
  field("planned_hours", "number", "hours", "Crew-hours for visits of this plan"),
  field("return_hours", "number", "hours", "Crew-hours for returns before a cure wears off"),
  field("growth_hours", "number", "hours", "Crew-hours where a crown reaches a minimum later than the plan works"),
  field("training_hours", "number", "hours", "Crew-hours for structural pruning of young trees that comes round again"),
];

/** Columns of `findings.csv`. */
export const FINDING_FIELDS: readonly DictionaryField[] = [
  field("code", "text", null, "Stable code of the finding"),
  field("severity", "text", null, "info, warning or error"),
  field("layer", "text", null, "Layer, or plan, standard, columns"),
  field("file", "text?", null, "File it is about"),
  field(
    "feature",
    "text?",
    null,
    "Of a tree its id in the plan, else the mapped id, else the feature's own id, else # and its place in the file from 0",
  ),
  field("field", "text?", null, "Column or member it is about"),
  field("value", "text?", null, "The offending value, at most 256 characters"),
  field("reason", "text", null, "What is wrong"),
  field("what_to_do", "text", null, "What the reader can do about it"),
];
