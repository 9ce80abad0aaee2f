import { html } from "lit";
import { CERTAINTIES } from "../../core/model/terms.ts";
import { markShape } from "../../map/symbols/mark-shape.ts";
import { symbolPicture } from "../../map/symbols/symbol-picture.ts";
import type { IndexedTree } from "../plan-index.ts";

/** The mark a tree has on the map, for a line in a list. Decoration: the line's words say the same. */
export function treeMark(entry: IndexedTree) {
  const { remedy, bearingDeg } = entry.prescription;
  const { urgency } = entry;
  const shape = markShape(remedy);
  const certainty =
    CERTAINTIES.find((one) => entry.conflicts.some((conflict) => conflict.certainty === one)) ?? "confirmed";
  const tone = urgency === "clear" ? "var(--ground)" : `var(--urgency-${urgency})`;
  const colors = { tone, ink: "var(--ink)", ground: "var(--ground)" };
  return html`<span class="mark">${symbolPicture(shape, colors, certainty, shape.turns ? (bearingDeg ?? 0) : 0)}</span>`;
}
