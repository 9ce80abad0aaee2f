import { type DictionaryField, field } from "./dictionary-field.ts";

/** Members of `conflicts.geojson`. */
export const CONFLICT_FIELDS: readonly DictionaryField[] = [
  field("conflict_id", "text", null, "Stable across runs: tree, kind and the other thing"),
  field("tree", "text", null, "Id of the tree"),
  field("kind", "text", null, "Kind of conflict, for example roadway or building-side"),
  field("with_layer", "text", null, "Layer of the other thing, or sight"),
  field("with_id", "text", null, "Id of the other thing"),
  field("with_name", "text?", null, "Name of the other thing"),
  field("rule", "text", null, "Rule of the standard that asks for the clearance"),
  field("measured_m", "number", "m", "Headroom, side gap or distance in space; negative when the crown passes it"),
  field("minimum_m", "number", "m", "Below it there is a conflict"),
  field("clear_to_m", "number", "m", "The least that pruning must reach"),
  field("encroachment_m", "number", "m", "By how much the minimum is missed; 0 for a conflict still to come"),
  field("distance_m", "number", "m", "Horizontal distance from the trunk to the nearest point of the thing"),
  field("bearing_deg", "number", "degrees", "Bearing from the trunk to that point, clockwise from north"),
  field("datum_m", "number", "m", "Height above the tree's ground from which clearance counts: a roof's, else 0"),
  field("admits", "words", null, "Remedies that can cure it"),
  field("certainty", "text", null, "confirmed, probable or possible"),
  field("basis", "text", null, "Worst basis of the sizes that decide it: measured, estimated or assumed"),
  field("doubt", "text?", null, "Why the certainty is no better"),
  field("reached_on", "date", null, "When growth reaches the minimum; the as-of date when it already has"),
  field("first_seen", "date", null, "As-of date of the first run that found it"),
  field("hazard", "text?", null, "Kind of hazard with a deadline of its own"),
];

/** Members of `surroundings.geojson`. */
export const SURROUNDING_FIELDS: readonly DictionaryField[] = [
  field("id", "text", null, "Unique in its layer"),
  field("layer", "text", null, "Layer it came from"),
  field("kind", "text?", null, "What trees can be in conflict with"),
  field("name", "text?", null, "Name"),
  field("width_min_m", "number?", "m", "Least width of the way"),
  field("width_m", "number?", "m", "Width of the way that the run used"),
  field("width_max_m", "number?", "m", "Greatest width of the way"),
  field("width_source", "text?", null, "Where the width comes from"),
  field("height_m", "number?", "m", "Height of the building, sign, signal or conductor"),
  field("height_source", "text?", null, "Where the height comes from"),
  field("class", "text?", null, "Road class"),
  field("speed_kmh", "number?", "km/h", "Speed that the run used"),
  field("speed_source", "text?", null, "Where the speed comes from"),
  field("lanes", "number?", null, "Lanes"),
  field("voltage_v", "number?", "V", "Line-to-line voltage; null when unknown or not a conductor"),
];

/** Members of `sight.geojson`. */
export const SIGHT_FIELDS: readonly DictionaryField[] = [
  field("id", "text", null, "Made of the intersection's position, the minor leg and the direction"),
  field("road", "text?", null, "Name of the major road"),
  field("direction", "text", null, "left or right, as the waiting driver looks"),
  field("control", "text", null, "Control of the minor road: stop"),
  field("control_source", "text", null, "How the control is known"),
  field("design_speed_kmh", "number", "km/h", "Design speed of the major road"),
  field("leg_m", "number", "m", "Intersection sight distance along the major road"),
  field("window_low_m", "number", "m", "Lower edge of the window that must be free, above ground"),
  field("window_high_m", "number", "m", "Upper edge of the window that must be free, above ground"),
  field("rule", "text", null, "Rule of the standard"),
];

/** Members of `zones.geojson`. */
export const ZONE_FIELDS: readonly DictionaryField[] = [
  field("zone", "text", null, "Stable id of the zone"),
  field("name", "text", null, "Name"),
  field("state", "text", null, "draft, issued, under-way or done"),
  field("crew", "text", null, "Who may do it: ground, aerial, line-clearance or utility"),
  field("trees", "integer", null, "Number of trees"),
  field("visit_ids", "texts", null, "Visits in order of work"),
  field("tree_ids", "texts", null, "Their trees in the same order"),
  field("hours", "number", "hours", "Crew-hours"),
  field("window", "interval", null, "Dates in which all its visits are allowed"),
  field("due", "date", null, "Earliest due date of its visits"),
  field("urgency", "text", null, "Most urgent of its visits"),
  field("walk_m", "number", "m", "Walk through the trees in order, straight from one to the next"),
  field("streets", "texts", null, "Streets it stands on"),
  field("hazards", "texts", null, "What a crew must know, one sentence each"),
  field("closure_kind", "text", null, "none, shoulder, lane, walk or lane-and-walk; a draft for the road authority"),
  field("closure_road", "text?", null, "Road that it concerns"),
  field("closure_speed_kmh", "number?", "km/h", "Speed that the figures are for"),
  field("closure_taper_m", "number?", "m", "Length of the taper"),
  field("closure_buffer_m", "number?", "m", "Length of the buffer space"),
  field("closure_sign_spacing_m", "numbers", "m", "Distances between the advance warning signs"),
  field("closure_note", "text", null, "What to confirm and with whom"),
];
