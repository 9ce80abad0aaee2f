import type { Conflict, TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Crew } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { bearingGapDeg } from "../units/compass.ts";
import { clearanceTask } from "./clearance-task.ts";
import { thingWords } from "./conflict-words.ts";
import { crewFor, visitHours } from "./crew.ts";
import { isHeadroom } from "./kinds.ts";
import type { ClearancePlan } from "./plan-clearance.ts";
import type { Stage } from "./prescription-draft.ts";
import type { StagePart as Part, StageCuts } from "./stages.ts";

/** The visits of a clearance plan, with their tasks in words, their crew and hours. */
export function clearanceStages(
  tree: Tree,
  setting: TreeSetting,
  plan: ClearancePlan,
  standard: Standard,
  options: PlanOptions,
): Stage[] {
  let number = 0;
  return plan.stages.flatMap((stage) => {
    const parts = stage.parts.filter((part) => findsSomething(part, options));
    if (parts.length === 0) return [];
    const tasks = withCarried(parts).map(({ part, carried }) => {
      number += 1;
      const task = clearanceTask(tree, `${tree.id}/t${number}`, part.cut, part.doseShare, options.units);
      return {
        ...task,
        where: part.isRegrowth ? `${task.where}, only what has grown back since the visit before` : task.where,
        conflictIds: [...task.conflictIds, ...carried],
      };
    });
    return [
      {
        tasks,
        doseShare: tasks.reduce((sum, task) => sum + task.doseShare, 0),
        crew: crewOf(tree, setting, parts, standard),
        hours: visitHours(tree, standard),
        conflictIds: [...new Set(parts.map(({ cut }) => cut.conflict.conflictId))],
        openAfter: openWords(plan, stage),
        timing: "window" as const,
      },
    ];
  });
}

/** Less than this of the crown is nothing to send a crew for; our policy. */
const LEAST_SHARE = 0.001;

/**
 * Nobody is told to cut for a conflict still to come where no branch is in the way at the time of the visit, or where the other cuts of
 * the tree take it along; nor for a trace of regrowth.
 */
const findsSomething = ({ cut, doseShare, isRegrowth }: Part, { asOf }: PlanOptions): boolean =>
  doseShare >= LEAST_SHARE || (!isRegrowth && cut.conflict.reachedOn <= asOf);

interface CarryingPart {
  readonly part: Part;
  /** Ids of the conflicts that are cured by it although nothing more is cut for them. */
  readonly carried: string[];
}

/** A cut that takes nothing beyond those before it is no task of its own: the one before it on the nearest side cures its conflict too. */
function withCarried(parts: readonly Part[]): CarryingPart[] {
  const carrying: CarryingPart[] = [];
  for (const part of parts) {
    const carrier = part.doseShare < LEAST_SHARE ? nearestBefore(carrying, part) : null;
    if (carrier === null) carrying.push({ part, carried: [] });
    else carrier.carried.push(part.cut.conflict.conflictId);
  }
  return carrying;
}

function nearestBefore(carrying: readonly CarryingPart[], { cut }: Part): CarryingPart | null {
  let nearest: CarryingPart | null = null;
  let leastDeg = Number.POSITIVE_INFINITY;
  for (const one of carrying) {
    if (one.part.doseShare < LEAST_SHARE) continue;
    const other = one.part.cut.remedy === "lift" ? null : one.part.cut.bearingDeg;
    const gapDeg = other === null || cut.bearingDeg === null ? 0 : bearingGapDeg(other, cut.bearingDeg);
    if (gapDeg < leastDeg) {
      nearest = one;
      leastDeg = gapDeg;
    }
  }
  return nearest;
}

function openWords(plan: ClearancePlan, stage: StageCuts): string[] {
  const ways = plan.interim?.openWays ?? new Map<Conflict, number | null>();
  const others = [...stage.open.map((cut) => cut.conflict), ...plan.uncured].filter((conflict) => !ways.has(conflict));
  const words = [
    ...[...ways].map(
      ([way, year]) =>
        `${thingWords(way)}: open ${year === null ? "as long as the tree stays this small" : `until ${year}`}`,
    ),
    ...others.map((conflict) => `${thingWords(conflict)}: ${openState(stage, conflict)}`),
  ];
  return [...new Set(words)];
}

/** A part of a cut may clear the minimum already; of whole limbs beside a wall or line only the whole cut tells how far. */
function openState({ parts }: StageCuts, conflict: Conflict): string {
  const isPast = parts.some(
    ({ cut }) =>
      cut.conflict === conflict &&
      (isHeadroom(conflict.kind) || cut.remedy === "shorten") &&
      cut.targetM >= conflict.minimumM,
  );
  return isPast ? "past the minimum, not yet as far as planned" : "not yet clear";
}

function crewOf(tree: Tree, setting: TreeSetting, parts: readonly Part[], standard: Standard): Crew {
  return crewFor(
    tree,
    setting,
    parts.map(({ cut }) => cut.conflict),
    {
      reachM: parts.reduce((most, { cut }) => Math.max(most, Math.min(cut.belowM, tree.height.valueM)), 0),
      limbM: parts.reduce((most, { cut }) => Math.max(most, cut.limbDiameterM[1]), 0),
      sidesDeg: parts.map(({ cut }) => (cut.remedy === "lift" ? null : cut.bearingDeg)),
    },
    standard,
  );
}
