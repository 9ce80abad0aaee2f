import { isYoung } from "../crown/life-stage.ts";
import { stemDiameterM } from "../crown/stem-diameter.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Task } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, addMonths, type IsoDate } from "../units/calendar.ts";
import { howWords, methodFor } from "./cut-method.ts";
import { establishedOn, monthsToEstablish } from "./establishment.ts";
import { isConifer } from "./kinds.ts";

/** Structural pruning that is due to a young tree, and the date before which it is not. */
export interface Training {
  readonly task: Task;
  readonly notBefore: IsoDate;
}

/** Thickest branch shortened, as a share of the stem: the half that extension rules aim for (from memory). */
const THICKEST_SHARE = 0.5;

/**
 * The next structural pruning of a young tree: from establishment on, then a cycle (standard) after its last pruning, until it is taller
 * or older than the standard's training; null for any other tree, and where the date lies beyond the pruning cycle.
 *
 * Young is a broad-leaved tree well under its species' mature height and no taller than training is asked for. One without a planting
 * date is taken for young only by a measured height and a measured stem thin enough for a new planting. Conifers, palms and shrubs
 * keep their form; a tree in poor condition keeps its leaves. Inventories seldom tell what was done when: the crew
 * decides on the spot whether there is anything to correct (78 % of young trees needed it, Ryder and Moore 2013).
 */
export function trainingOf(tree: Tree, standard: Standard, { asOf, place }: PlanOptions): Training | null {
  const { training, cycleYears } = standard.pruning;
  if (training === null || !isTrained(tree, standard, asOf)) return null;
  const established = establishedOn(tree, place, standard, asOf);
  const rooted = tree.planted === null ? null : addMonths(tree.planted, monthsToEstablish(tree, place, standard));
  const isPrunedSince = tree.lastPruned !== null && (rooted === null || tree.lastPruned >= rooted);
  const next = isPrunedSince ? addMonths(tree.lastPruned!, Math.round(12 * training.cycleYears)) : asOf;
  const notBefore = [asOf, established ?? asOf, next].reduce((last, date) => (date > last ? date : last));
  if (notBefore > addDays(asOf, Math.round(cycleYears * 365.25))) return null;
  return { task: trainingTask(tree, training.share, training.cycleYears), notBefore };
}

function isTrained(tree: Tree, standard: Standard, asOf: IsoDate): boolean {
  const { training, establishedDbhM } = standard.pruning;
  if (training === null || tree.form !== "tree" || isConifer(tree)) return false;
  if (tree.condition === "dead" || tree.condition === "poor") return false;
  if (!isYoung(tree) || tree.height.valueM > training.untilHeightM) return false;
  if (tree.planted !== null) return asOf < addMonths(tree.planted, Math.round(12 * training.untilYears));
  return tree.height.basis === "measured" && tree.dbhBasis === "measured" && stemDiameterM(tree) <= establishedDbhM;
}

function trainingTask(tree: Tree, share: number, cycleYears: number): Task {
  const diameterM = stemDiameterM(tree) * THICKEST_SHARE;
  const method = methodFor(diameterM);
  return {
    taskId: `${tree.id}/training`,
    cause: `The tree is young: its structure is formed while cuts are small, about every ${cycleYears} years.`,
    conflictIds: [],
    objective: "structure",
    remedy: "structural",
    where:
      "one leader kept; stems that compete with it and branches over half as thick as the stem shortened; low branches kept for now",
    bearingDeg: null,
    belowM: null,
    targetM: null,
    how: howWords("reduction", method),
    cut: "reduction",
    method,
    timing: "window",
    doseShare: share,
    limbDiameterM: [Math.min(0.005, diameterM), diameterM],
  };
}
