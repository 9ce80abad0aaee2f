import { html } from "lit";
import type { ConflictRecord } from "../../core/model/conflict.ts";
import type { Prescription } from "../../core/model/prescription.ts";
import { CERTAINTIES, type Urgency } from "../../core/model/terms.ts";
import type { Tree } from "../../core/model/trees.ts";
import { markShape } from "./mark-shape.ts";
import { symbolPicture } from "./symbol-picture.ts";

/** What of a tree decides its mark, with the tree itself for its name. */
export interface MarkedTree {
  readonly tree: Tree;
  readonly prescription: Prescription;
  readonly urgency: Urgency;
  readonly conflicts: readonly ConflictRecord[];
}

/** The mark a tree has on the map, for a line in a list. Decoration: the line's words say the same. */
export function treeMark(entry: MarkedTree) {
  const { remedy, bearingDeg } = entry.prescription;
  const { urgency } = entry;
  const shape = markShape(remedy);
  const certainty =
    CERTAINTIES.find((one) => entry.conflicts.some((conflict) => conflict.certainty === one)) ?? "confirmed";
  const tone = urgency === "clear" ? "var(--ground)" : `var(--urgency-${urgency})`;
  const colors = { tone, ink: "var(--ink)", ground: "var(--ground)" };
  return html`<span class="mark">${symbolPicture(shape, colors, certainty, shape.turns ? (bearingDeg ?? 0) : 0)}</span>`;
}
