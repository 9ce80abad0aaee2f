import type { TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Task } from "../model/prescription.ts";
import { CREWS } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { crewFor, visitHours } from "./crew.ts";
import { establishedOn } from "./establishment.ts";
import type { Stage } from "./prescription-draft.ts";
import type { Training } from "./training.ts";

/** Crew and hours of tasks whose place in the crown no inventory says: as if all round and up to the top. */
function taskStage(tree: Tree, setting: TreeSetting, tasks: readonly Task[], standard: Standard): Stage {
  const limbM = tasks.reduce((most, task) => Math.max(most, task.limbDiameterM[1]), 0);
  const work = { reachM: tree.height.valueM, limbM, sidesDeg: [null] };
  return {
    tasks,
    doseShare: tasks.reduce((sum, task) => sum + task.doseShare, 0),
    crew: crewFor(tree, setting, [], work, standard),
    hours: visitHours(tree, standard),
    conflictIds: [],
    openAfter: [],
    timing: tasks.every((task) => task.timing === "any-time") ? "any-time" : "window",
  };
}

/** The visit that takes off dead, broken and diseased wood; null without such tasks. */
export const remedialStage = (
  tree: Tree,
  setting: TreeSetting,
  tasks: readonly Task[],
  standard: Standard,
): Stage | null => (tasks.length === 0 ? null : taskStage(tree, setting, tasks, standard));

/**
 * The stages with the structural tasks in the last one if its limit holds them, else in one of their own while the number of stages
 * and the ceiling over years allow, else without them. `firstShare` limits the first stage, `limitShare` the later ones.
 */
export function withStructural(
  tree: Tree,
  setting: TreeSetting,
  stages: readonly Stage[],
  tasks: readonly Task[],
  limitShare: number,
  firstShare: number,
  standard: Standard,
): readonly Stage[] {
  if (tasks.length === 0) return stages;
  const { maxStages, multiYearCeilingShare } = standard.pruning;
  const own = taskStage(tree, setting, tasks, standard);
  const total = stages.reduce((sum, stage) => sum + stage.doseShare, own.doseShare);
  if (total > multiYearCeilingShare) return stages;
  const last = stages.at(-1);
  const share = stages.length < 2 ? firstShare : limitShare;
  if (last !== undefined && last.doseShare + own.doseShare <= share) {
    const joined: Stage = {
      ...last,
      tasks: [...last.tasks, ...tasks],
      doseShare: last.doseShare + own.doseShare,
      crew: CREWS[Math.max(CREWS.indexOf(last.crew), CREWS.indexOf(own.crew))]!,
    };
    return [...stages.slice(0, -1), joined];
  }
  const ownLimit = stages.length === 0 ? firstShare : limitShare;
  if (stages.length < maxStages && own.doseShare <= ownLimit) return [...stages, own];
  return stages;
}

/**
 * The stages with the training of a young tree: in the last of them where it is due by then and its limit holds it, else in one of its own.
 */
export function withTraining(
  tree: Tree,
  setting: TreeSetting,
  stages: readonly Stage[],
  training: Training | null,
  limitShare: number,
  firstShare: number,
  standard: Standard,
  { asOf, place }: PlanOptions,
): readonly Stage[] {
  if (training === null) return stages;
  const { task, notBefore } = training;
  const soonest = establishedOn(tree, place, standard, asOf) ?? asOf;
  if (notBefore <= soonest) return withStructural(tree, setting, stages, [task], limitShare, firstShare, standard);
  const isRoom = stages.length < standard.pruning.maxStages && task.doseShare <= limitShare;
  return isRoom ? [...stages, { ...taskStage(tree, setting, [task], standard), notBefore }] : stages;
}
