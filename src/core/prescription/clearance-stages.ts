import type { TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Crew } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { clearanceTask } from "./clearance-task.ts";
import { thingWords } from "./conflict-words.ts";
import { crewFor, visitHours } from "./crew.ts";
import type { ClearancePlan } from "./plan-clearance.ts";
import type { Stage } from "./prescription-draft.ts";
import type { StageCuts } from "./stages.ts";

/** The visits of a clearance plan, with their tasks in words, their crew and hours. */
export function clearanceStages(
  tree: Tree,
  setting: TreeSetting,
  plan: ClearancePlan,
  standard: Standard,
  options: PlanOptions,
): Stage[] {
  let number = 0;
  return plan.stages.map((stage) => {
    const tasks = stage.parts.map(({ cut, doseShare }) => {
      number += 1;
      return clearanceTask(tree, `${tree.id}/t${number}`, cut, doseShare, options.units);
    });
    return {
      tasks,
      doseShare: stage.doseShare,
      crew: crewOf(tree, setting, stage, standard),
      hours: visitHours(tree, standard),
      conflictIds: stage.parts.map(({ cut }) => cut.conflict.conflictId),
      openAfter: openWords(plan, stage),
      timing: "window" as const,
    };
  });
}

function openWords(plan: ClearancePlan, stage: StageCuts): string[] {
  const open = [...stage.open.map((cut) => cut.conflict), ...plan.uncured];
  const interim = plan.interim;
  if (interim !== null) {
    const year = interim.untilYear === null ? "as long as the tree stays this small" : `until ${interim.untilYear}`;
    const worked = new Set(stage.parts.map(({ cut }) => cut.conflict));
    return [...worked].map((conflict) => `${thingWords(conflict)}: open ${year}`);
  }
  return open.map((conflict) => `${thingWords(conflict)}: not yet clear`);
}

function crewOf(tree: Tree, setting: TreeSetting, stage: StageCuts, standard: Standard): Crew {
  return crewFor(
    tree,
    setting,
    stage.parts.map(({ cut }) => cut.conflict),
    {
      reachM: stage.parts.reduce((most, { cut }) => Math.max(most, Math.min(cut.belowM, tree.height.valueM)), 0),
      limbM: stage.parts.reduce((most, { cut }) => Math.max(most, cut.limbDiameterM[1]), 0),
      sidesDeg: stage.parts.map(({ cut }) => (cut.remedy === "lift" ? null : cut.bearingDeg)),
    },
    standard,
  );
}
