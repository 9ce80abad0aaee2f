import { zoneFinding } from "./zone-finding.ts";

/** The refusal of an edit that names no tree. */
export const NOTHING_CHOSEN = zoneFinding({
  code: "nothing-chosen",
  severity: "error",
  reason: "There is no tree with work in what was chosen.",
  whatToDo: "Choose trees, or draw around some.",
});
