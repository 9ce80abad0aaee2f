import type { Task } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import { compassPoint } from "../units/compass.ts";
import { type DisplayUnits, formatLength } from "../units/format-length.ts";
import { causeWords } from "./cause-words.ts";
import { thingWords } from "./conflict-words.ts";
import type { Cut } from "./cut.ts";
import { howWords, methodFor } from "./cut-method.ts";
import { isHeadroom, isView, isWoody } from "./kinds.ts";

/** Nearer than this to an edge is at the edge, for a saw; our policy. */
const AT_EDGE_M = 0.05;

/** Leaders are brought down to what takes over, or not at all. */
const LEADERS_HOW =
  "A leader without a lateral of a third that grows away from the line stays as it is, and the line's owner is told: cut between laterals it would be topped.";

/** The task that one cut of a visit amounts to. */
export function clearanceTask(tree: Tree, taskId: string, cut: Cut, doseShare: number, units: DisplayUnits): Task {
  const kind = cut.shortenM > 0 ? "reduction" : "removal";
  const method = methodFor(cut.limbDiameterM[1]);
  return {
    taskId,
    cause: causeWords(cut.conflict, tree, units),
    conflictIds: [cut.conflict.conflictId],
    objective: cut.conflict.hazard === null ? "clearance" : "risk-reduction",
    remedy: cut.remedy,
    where: whereWords(tree, cut, units),
    bearingDeg: cut.remedy === "lift" ? null : cut.bearingDeg,
    belowM: Number.isFinite(cut.belowM) ? cut.belowM : null,
    targetM: holdsBelow(tree, cut) ? null : cut.targetM,
    how: isWoody(tree)
      ? `${howWords(kind, method)}${cut.leaders === undefined ? "" : ` ${LEADERS_HOW}`}`
      : "Trim along the line with shears, keeping the base wider than the top.",
    cut: kind,
    method,
    timing: "window",
    doseShare,
    limbDiameterM: cut.limbDiameterM,
  };
}

/** Where on the tree: the side, the height below which, and how far tips are cut back from the way, view, wall or line. */
export function whereWords(tree: Tree, cut: Cut, units: DisplayUnits): string {
  const side =
    cut.remedy === "lift" || cut.bearingDeg === null ? "all round" : `on the ${compassPoint(cut.bearingDeg)} side`;
  if (holdsBelow(tree, cut)) return `${side}, down to ${formatLength(Math.max(0, cut.region.lowM), units)}`;
  if (cut.leaders !== undefined) {
    return `leaders that reach above ${formatLength(cut.leaders.toM, units)}, each back to a lateral there that grows away from the line`;
  }
  const below = cut.belowM < tree.height.valueM ? `, below ${formatLength(cut.belowM, units)}` : "";
  if (cut.remedy === "lift") return `${side}${below}`;
  if (isHeadroom(cut.conflict.kind)) {
    if (cut.remedy === "shorten") return `${side}${below}, ${edgeWords(cut, units)}`;
    return below === "" ? `${side}, limbs that reach over it` : `${side}${below}`;
  }
  const thing = cut.conflict.kind === "conductor" ? "the line" : "the wall";
  if (cut.remedy === "remove-limb" || !(cut.shortenM > 0)) return `${side}${below}, limbs that grow toward ${thing}`;
  return cut.targetM < AT_EDGE_M
    ? `${side}${below}, back to ${thing}`
    : `${side}${below}, to ${formatLength(cut.targetM, units)} from ${thing}`;
}

/** How far tips are cut back over a way, roof or view. */
function edgeWords(cut: Cut, units: DisplayUnits): string {
  const { conflict, behindM } = cut;
  if (!(cut.shortenM > 0)) return "whole limbs that reach over it";
  if (isView(conflict.kind)) return "back out of the view";
  return behindM < AT_EDGE_M
    ? `back to the edge of ${thingWords(conflict)}`
    : `back to ${formatLength(behindM, units)} before the edge of ${thingWords(conflict)}`;
}

const holdsBelow = (tree: Tree, cut: Cut): boolean =>
  !isWoody(tree) && (isView(cut.conflict.kind) || cut.leaders !== undefined);
