import { crownOf, liveCrownRatio } from "../crown/crown.ts";
import type { Conflict, TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Referral, Task } from "../model/prescription.ts";
import type { Remedy } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { WordsByTree, WordsOfTree } from "../model/words-in-force.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, yearOf } from "../units/calendar.ts";
import { cautionsFor } from "./cautions.ts";
import { type ConflictsByCure, chooseReferral } from "./choose-referral.ts";
import { clearanceStages } from "./clearance-stages.ts";
import { remedialStage, withStructural, withTraining } from "./defect-stages.ts";
import { defectTasks } from "./defect-tasks.ts";
import { doseLimit } from "./dose-limit.ts";
import { type Earliest, earliestDate } from "./earliest-date.ts";
import { onlyWaits, yearTallEnough } from "./grows-out-of-view.ts";
import { isView } from "./kinds.ts";
import { isUnderLine } from "./leader-cut.ts";
import { openCautions } from "./open-cautions.ts";
import { earliestAsSaid, planAsSaid, referralAsSaid } from "./option-as-said.ts";
import { byDanger, type ClearancePlan, planClearance } from "./plan-clearance.ts";
import type { PrescriptionDraft, Stage } from "./prescription-draft.ts";
import { deadTree } from "./referral.ts";
import { totalDoseShare } from "./stages.ts";
import { subjectAtWork } from "./subject-at-work.ts";
import { trainingOf } from "./training.ts";
import { whyGrows, whyNothing, whyPrescribed, whyReferred, whyWaits } from "./why.ts";

/**
 * What each tree gets, without dates: one draft a tree, in tree order. `words` are what arborists said of them.
 *
 * Conflicts that are confirmed or probable and reached within the cycle are cured together; possible ones are inspected first, later
 * ones watched. Nothing a rule forbids is prescribed: such a tree is referred with its owner's options.
 */
export function prescribe(
  trees: readonly Tree[],
  conflicts: readonly Conflict[],
  settings: readonly TreeSetting[],
  standard: Standard,
  options: PlanOptions,
  words?: WordsByTree,
): PrescriptionDraft[] {
  const byRow: Conflict[][] = [];
  for (const conflict of conflicts) {
    const own = byRow[conflict.treeRow];
    if (own === undefined) byRow[conflict.treeRow] = [conflict];
    else own.push(conflict);
  }
  const settingByRow: TreeSetting[] = [];
  for (const setting of settings) settingByRow[setting.treeRow] = setting;
  return trees.map((tree) => {
    const setting = settingByRow[tree.row];
    if (setting === undefined) throw new RangeError(`Expected a setting for tree row ${tree.row}, got none`);
    return prescribeTree(tree, byRow[tree.row] ?? [], setting, standard, options, words?.get(tree.id));
  });
}

/** What was decided for one tree. */
interface Decision {
  readonly plan: ClearancePlan | null;
  readonly stages: readonly Stage[];
  readonly remedial: Stage | null;
  readonly earliest: Earliest | null;
  readonly refer: Referral | null;
  readonly by: ConflictsByCure;
  /** Structural tasks that no allowed visit has room for. */
  readonly putOff: readonly Task[];
}

function prescribeTree(
  tree: Tree,
  conflicts: readonly Conflict[],
  setting: TreeSetting,
  standard: Standard,
  options: PlanOptions,
  said?: WordsOfTree,
): PrescriptionDraft {
  const sorted = sortByCure(tree, conflicts, standard, options);
  if (tree.condition === "dead") {
    const nothing = { plan: null, stages: [], remedial: null, earliest: null, by: sorted, putOff: [] };
    return draftOf(
      tree,
      conflicts,
      setting,
      { ...nothing, refer: referralAsSaid(deadTree(), said) },
      standard,
      options,
    );
  }
  const beyond = new Set([...sorted.trunkInside, ...sorted.waiting]);
  const curable = sorted.sure.filter((conflict) => !beyond.has(conflict));
  const limit = doseLimit(tree, options.asOf, standard);
  const tasks = defectTasks(tree);
  const remedial = remedialStage(tree, setting, tasks.remedial, standard);
  const remedialShare = remedial?.doseShare ?? 0;
  const firstShare = Math.max(0, limit.share - remedialShare);

  const subject = subjectAtWork(tree, curable, conflicts, standard, options);
  const lightest =
    curable.length === 0 ? null : planClearance(subject, curable, limit.share, firstShare, options.asOf, standard);
  const found =
    lightest === null || said?.option == null ? lightest : planAsSaid(lightest, subject, said.option.value, standard);
  const cleared = found === null ? [] : clearanceStages(tree, setting, found, standard, options);
  const plan = found !== null && found.chosen !== null && cleared.length === 0 ? withNothingToCut(found) : found;
  // Under a line it is the top that is in the way: where leaders may not come down, the line's owner decides.
  const by = { ...sorted, onlyTop: sorted.onlyTop.filter((conflict) => plan?.uncured.includes(conflict) ?? false) };
  // Structural work that is reported is the training of a young tree.
  const training = tasks.structural.length > 0 ? null : trainingOf(tree, standard, options);
  const corrected = withStructural(tree, setting, cleared, tasks.structural, limit.share, firstShare, standard);
  const stages = withTraining(tree, setting, corrected, training, limit.share, firstShare, standard, options);

  const firstDose = (stages[0]?.doseShare ?? 0) + remedialShare;
  const known = stages.length === 0 ? null : earliestDate(tree, conflicts, limit, firstDose, standard, options);
  const earliest = earliestAsSaid(known, said, limit, firstDose);
  const refer = referralAsSaid(chooseReferral(tree, setting, by, plan, earliest, standard, options), said);
  const given = new Set(stages.flatMap((stage) => stage.tasks));
  const putOff = tasks.structural.filter((task) => !given.has(task));
  const decision = { plan, stages, remedial, earliest, refer, by, putOff };
  return draftOf(tree, conflicts, setting, decision, standard, options);
}

/** A crown that will only come near has nothing to cut yet: nobody is sent, and the tree is looked at again. */
const withNothingToCut = (found: ClearancePlan): ClearancePlan | null =>
  found.uncured.length === 0 ? null : { ...found, chosen: null, stages: [], interim: null };

function sortByCure(
  tree: Tree,
  conflicts: readonly Conflict[],
  standard: Standard,
  options: PlanOptions,
): ConflictsByCure {
  const horizon = addDays(options.asOf, Math.round(standard.pruning.cycleYears * 365.25));
  const sure = byDanger(
    conflicts.filter((conflict) => conflict.certainty !== "possible" && conflict.reachedOn <= horizon),
  );
  return {
    sure,
    possible: conflicts.filter((conflict) => conflict.certainty === "possible"),
    trunkInside: sure.filter(standsInside),
    onlyTop: sure.filter((conflict) => isUnderLine(tree, conflict)),
    waiting: sure.filter((conflict) => onlyWaits(tree, conflict, options.asOf, standard)),
  };
}

/** The trunk itself stands in the thing as mapped; a walk with the tree in it is an ordinary tree pit and is lifted all round. */
const standsInside = (conflict: Conflict): boolean =>
  (conflict.trunkDistanceM ?? conflict.distanceM) <= 0 &&
  !["walkway", "bikeway", "conductor"].includes(conflict.kind) &&
  !isView(conflict.kind);

function draftOf(
  tree: Tree,
  conflicts: readonly Conflict[],
  setting: TreeSetting,
  decision: Decision,
  standard: Standard,
  options: PlanOptions,
): PrescriptionDraft {
  const { plan, stages, remedial, earliest, refer, by, putOff } = decision;
  const limit = doseLimit(tree, options.asOf, standard);
  const crown = crownOf(tree);
  const before = liveCrownRatio(crown.heightM, crown.crownBaseM);
  const chosen = plan === null || plan.chosen === null ? null : plan.candidates[plan.chosen]!;
  const tasks = [...(remedial?.tasks ?? []), ...stages.flatMap((stage) => stage.tasks)];
  const defectShare = tasks.reduce((sum, task) => sum + (task.conflictIds.length === 0 ? task.doseShare : 0), 0);
  const liftToM = chosen?.option.liftToM ?? null;
  return {
    treeId: tree.id,
    treeRow: tree.row,
    options: plan?.candidates.map((candidate) => candidate.option) ?? [],
    chosen: plan?.chosen ?? null,
    tasks,
    stages,
    remedial,
    earliest,
    refer,
    remedy: remedyOf(chosen?.option.remedy ?? null, stages, remedial, refer),
    doseTotalShare: Math.min(1, totalDoseShare(plan?.stages ?? []) + defectShare),
    liftM: liftToM === null ? null : Math.max(0, liftToM - crown.crownBaseM),
    liftToM,
    shortenM: chosen?.option.shortenM ?? null,
    bearingDeg: chosen?.cuts[0]?.bearingDeg ?? null,
    liveCrownRatioBefore: before,
    liveCrownRatioAfter: chosen?.option.liveCrownRatioAfter ?? before,
    doseLimitShare: limit.share,
    doseLimitReason: limit.reason,
    openUntilYear:
      plan?.interim?.untilYear ??
      (earliest === null || earliest.cause === "pruned" ? null : yearOf(earliest.date)) ??
      lastYear(by.waiting.map((conflict) => yearTallEnough(tree, conflict, options.asOf, standard))),
    cautions:
      tasks.length === 0 && refer === null && by.waiting.length === 0
        ? []
        : [
            ...openCautions(tree, plan, by, putOff, standard, options),
            ...cautionsFor(tree, setting, standard, options),
          ],
    why: whyOf(tree, conflicts, setting, decision, tasks, standard, options),
  };
}

function remedyOf(
  chosen: Remedy | null,
  stages: readonly Stage[],
  remedial: Stage | null,
  refer: Referral | null,
): Remedy {
  if (chosen !== null) return chosen;
  if (stages.length > 0) return "structural";
  if (remedial !== null) return "remedial";
  return refer === null ? "none" : "refer";
}

function whyOf(
  tree: Tree,
  conflicts: readonly Conflict[],
  setting: TreeSetting,
  decision: Decision,
  tasks: readonly Task[],
  standard: Standard,
  options: PlanOptions,
): string {
  const { plan, stages, earliest, refer, by } = decision;
  const chosen = plan === null || plan.chosen === null ? null : plan.candidates[plan.chosen]!;
  if (plan !== null && chosen !== null) {
    // The same conflicts that the visits have tasks for, in their order.
    const worked = new Set(stages.flatMap((stage) => stage.conflictIds));
    const cured = chosen.cuts.map((cut) => cut.conflict).filter(({ conflictId }) => worked.has(conflictId));
    if (earliest !== null) return whyWaits(tree, cured, earliest, options.units);
    return whyPrescribed(tree, cured, chosen, plan.stages, plan.interim, options.units);
  }
  if (refer !== null && (by.sure.length > 0 || tasks.length === 0)) {
    return whyReferred(tree, by.sure.length > 0 ? by.sure : by.possible, refer, options.units);
  }
  if (tasks.length > 0) {
    const causes = tasks.slice(0, by.possible.length > 0 ? 1 : 2).map((task) => task.cause);
    if (by.possible.length > 0)
      causes.push("A conflict is only possible, so it is measured before anybody cuts for it.");
    return causes.join(" ");
  }
  const waits = by.waiting[0];
  const year = waits === undefined ? null : yearTallEnough(tree, waits, options.asOf, standard);
  if (waits !== undefined && year !== null) return whyGrows(tree, waits, year, options.units);
  return whyNothing(tree, conflicts, setting.notChecked, options.units);
}

const lastYear = (years: readonly (number | null)[]): number | null =>
  years.reduce((last, year) => (year !== null && (last === null || year > last) ? year : last), null);
