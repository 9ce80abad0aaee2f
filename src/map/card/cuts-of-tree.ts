import { CUT_FIGURES, CUT_TITLES } from "../../core/crown/cuts/cut-figures.ts";
import { drawCut } from "../../core/crown/cuts/draw-cut.ts";
import { type HowToCut, howToCut } from "../../core/crown/cuts/how-to-cut.ts";
import type { Drawing } from "../../core/crown/drawing.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";

/** How a tree is cut, all its visits together: the drawings it needs, and each sentence once. */
export interface CutsOfTree {
  readonly figures: readonly { readonly title: string; readonly drawing: Drawing }[];
  readonly steps: readonly string[];
  readonly doNot: readonly string[];
  readonly tools: readonly string[];
}

/** The cut guide of one tree; null where nothing is cut. */
export function cutsOfTree(opened: OpenedPlan, treeId: string, units: DisplayUnits): CutsOfTree | null {
  const row = opened.plan.trees.findIndex((one) => one.id === treeId);
  const tree = opened.plan.trees[row];
  const tasks = opened.plan.prescriptions[row]?.visits.flatMap((visit) => visit.tasks) ?? [];
  if (tree === undefined || tasks.length === 0) return null;
  const cuts = tasks.map((task) => howToCut(task, tree, units));
  const used = new Set(cuts.flatMap(({ figures }) => figures));
  const heaviestM = Math.max(...tasks.map(({ limbDiameterM }) => limbDiameterM[1]));
  const once = (pick: (how: HowToCut) => HowToCut["steps"]) => [...new Set(cuts.flatMap(pick).map(({ text }) => text))];
  return {
    figures: CUT_FIGURES.filter((figure) => used.has(figure)).map((figure) => ({
      title: CUT_TITLES[figure].join(" "),
      drawing: drawCut(figure, units, heaviestM),
    })),
    steps: once(({ steps }) => steps),
    doNot: once(({ doNot }) => doNot),
    tools: once(({ tools, cleaning }) => [...tools, ...cleaning]),
  };
}
