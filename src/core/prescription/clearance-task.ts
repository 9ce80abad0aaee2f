import type { Task } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import { compassPoint } from "../units/compass.ts";
import { type DisplayUnits, formatLength } from "../units/format-length.ts";
import { causeWords } from "./conflict-words.ts";
import { type Cut, isHeadroom, isWoody } from "./cut.ts";
import { howWords, methodFor } from "./cut-method.ts";

/** The task that one cut of a visit amounts to. */
export function clearanceTask(tree: Tree, taskId: string, cut: Cut, doseShare: number, units: DisplayUnits): Task {
  const kind = cut.shortenM > 0 ? "reduction" : "removal";
  const method = methodFor(cut.limbDiameterM[1]);
  return {
    taskId,
    cause: causeWords(cut.conflict, units),
    conflictIds: [cut.conflict.conflictId],
    objective: cut.conflict.hazard === null ? "clearance" : "risk-reduction",
    remedy: cut.remedy,
    where: whereWords(tree, cut, units),
    bearingDeg: cut.remedy === "lift" ? null : cut.bearingDeg,
    belowM: Number.isFinite(cut.belowM) ? cut.belowM : null,
    how: isWoody(tree)
      ? howWords(kind, method)
      : "Trim along the line with shears, keeping the base wider than the top.",
    cut: kind,
    method,
    timing: "window",
    doseShare,
    limbDiameterM: cut.limbDiameterM,
  };
}

/** Where on the tree: the side, the height below which, and at walls and wires the distance to reach. */
export function whereWords(tree: Tree, cut: Cut, units: DisplayUnits): string {
  const side =
    cut.remedy === "lift" || cut.bearingDeg === null ? "all round" : `on the ${compassPoint(cut.bearingDeg)} side`;
  if (!isWoody(tree) && cut.conflict.kind === "sight-triangle") {
    return `${side}, down to ${formatLength(Math.max(0, cut.region.lowM), units)}`;
  }
  const below = cut.belowM < tree.height.valueM ? `, below ${formatLength(cut.belowM, units)}` : "";
  if (isHeadroom(cut.conflict.kind)) return `${side}${below}`;
  const thing = cut.conflict.kind === "conductor" ? "the line" : "the wall";
  if (cut.remedy === "shorten") return `${side}${below}, to ${formatLength(cut.targetM, units)} from ${thing}`;
  return `${side}${below}, limbs that grow toward ${thing}`;
}
