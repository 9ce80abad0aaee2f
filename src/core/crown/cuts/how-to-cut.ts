import type { Task } from "../../model/prescription.ts";
import type { Tree } from "../../model/trees.ts";
import type { DisplayUnits } from "../../units/format-length.ts";
import { METERS_PER_INCH } from "../../units/length.ts";
import type { CutFigure } from "./cut-figures.ts";
import { CUT_SOURCES, type CutRule } from "./cut-rule.ts";
import { shortLength, shortRange } from "./short-length.ts";
import { threeCutDistances } from "./three-cut-distances.ts";
import { toolCleaning } from "./tool-cleaning.ts";

/** What a cut amounts to on the tree's form: palms lose fronds, hedges and shrubs are trimmed along a line. */
export type CutKind = Task["cut"] | "fronds" | "trim";

/** How one task is cut, as data and as sentences; the same for the card on the screen, the packet and the phone page. */
export interface HowToCut {
  readonly kind: CutKind;
  readonly method: Task["method"];
  readonly figures: readonly CutFigure[];
  /** What to do, in order. */
  readonly steps: readonly CutRule[];
  readonly doNot: readonly CutRule[];
  readonly tools: readonly CutRule[];
  /** Disinfection; empty where nothing is known to spread. */
  readonly cleaning: readonly CutRule[];
}

/** What of a tree decides how it is cut. */
export type CutTree = Pick<Tree, "form" | "defects"> & { readonly traits: Pick<Tree["traits"], "genus" | "isConifer"> };

/** What of a task decides how it is cut. */
export type CutTask = Pick<Task, "cut" | "method" | "remedy" | "limbDiameterM">;

/** Thickest wood for shears and for loppers, in meters: 3/4 in and 1.5 in (extension advice, second-hand). */
const SHEARS_M = 0.75 * METERS_PER_INCH;
const LOPPERS_M = 1.5 * METERS_PER_INCH;

/** How a task is cut on this tree. A plan for people who know how: it does not teach the trade, and the arborist on site decides. */
export function howToCut(task: CutTask, tree: CutTree, units: DisplayUnits): HowToCut {
  const kind = kindOf(task, tree);
  const isWood = kind === "removal" || kind === "reduction";
  const isDiseased = tree.defects.includes("diseased-limb");
  return {
    kind,
    method: task.method,
    figures: figuresOf(kind, task.method),
    steps: [...stepsOf(kind), ...(isWood ? methodSteps(task, units) : [])],
    doNot: [...doNotOf(kind, tree), ...(kind === "fronds" ? [] : [woundRule(tree.traits.genus)])],
    tools: toolsOf(kind, task.method, units),
    cleaning: toolCleaning(tree.traits.genus, tree.form === "palm", isDiseased),
  };
}

/** Trimming is for the clearance of hedges and shrubs; what is dead, broken or diseased in them is cut out like any limb. */
function kindOf({ cut, remedy }: CutTask, { form }: CutTree): CutKind {
  if (form === "palm") return "fronds";
  const isTrimmed = form === "hedge" || form === "shrub";
  return isTrimmed && remedy !== "remedial" && remedy !== "structural" ? "trim" : cut;
}

function figuresOf(kind: CutKind, method: Task["method"]): CutFigure[] {
  if (kind === "fronds") return ["fronds"];
  if (kind === "trim") return ["hedge"];
  const heavy: CutFigure[] = method === "three-cut" ? ["three-cut"] : [];
  return kind === "removal" ? ["collar", "no-collar", ...heavy] : ["collar", ...heavy, "reduction"];
}

const rule = (text: string, source: CutRule["source"]): CutRule => ({ text, source });

const STEPS: Readonly<Record<CutKind, readonly CutRule[]>> = {
  removal: [
    rule(
      "Cut just outside the branch bark ridge, down to just outside the collar, the swelling under the limb.",
      CUT_SOURCES.collar,
    ),
    rule(
      "Where no collar shows: the bark ridge makes an angle with the line of the trunk; cut at the same angle on the other side of that line.",
      CUT_SOURCES.angle,
    ),
  ],
  reduction: [
    rule(
      "Cut just beyond a living lateral at least a third as thick as the cut stem, better half, that can take over.",
      CUT_SOURCES.reduction,
    ),
    rule(
      "Start outside the bark ridge of the lateral and slope away from it, so that the wound is small.",
      CUT_SOURCES.reduction,
    ),
    rule("Where there is no such lateral, take the branch off at its collar.", CUT_SOURCES.practice),
  ],
  fronds: [
    rule("Take only fronds that hang below the horizontal, dead ones first.", CUT_SOURCES.palm),
    rule("Cut the leaf stalk close to the trunk without cutting into the trunk.", CUT_SOURCES.practice),
  ],
  trim: [
    rule("Trim along the line with shears, keeping the base wider than the top.", CUT_SOURCES.practice),
    rule("Stay within leafy shoots; thin the oldest stems at the ground where more must go.", CUT_SOURCES.practice),
  ],
};

const stepsOf = (kind: CutKind): readonly CutRule[] => STEPS[kind];

function methodSteps({ method, limbDiameterM }: CutTask, units: DisplayUnits): CutRule[] {
  if (method === "hand") return [];
  if (method === "single-cut")
    return [rule("One clean cut, the limb held so that no bark tears.", CUT_SOURCES.practice)];
  const { undercutFromM, undercutToM, undercutShare, topCutBeyondM, source } = threeCutDistances(limbDiameterM[1]);
  return [
    rule(
      `Three cuts: first from below, ${shortRange(undercutFromM, undercutToM, units)} out, a ${shareWord(undercutShare)} through; ` +
        `then from above, ${shortLength(topCutBeyondM, units)} farther out, until the limb drops; last the cut at the collar or lateral, the rest held up.`,
      source,
    ),
    rule("Lower on a rope what must not fall free.", CUT_SOURCES.practice),
  ];
}

const shareWord = (share: number): string => (share === 0.25 ? "quarter" : `${Math.round(share * 100)} %`);

const TOPPING = rule(
  "No topping: no leader is cut without a lateral of at least a third to take over.",
  CUT_SOURCES.reduction,
);

const DO_NOT: Readonly<Record<CutKind, readonly CutRule[]>> = {
  removal: [
    rule("No flush cut: the collar is wood of the trunk.", CUT_SOURCES.collar),
    rule("No stub.", CUT_SOURCES.collar),
  ],
  reduction: [
    rule("No cut between laterals, none to a thinner one: that is a heading cut.", CUT_SOURCES.reduction),
    TOPPING,
    rule("Do not cut along the bark ridge.", CUT_SOURCES.reduction),
  ],
  fronds: [
    rule("No frond above the horizontal, never the bud at the top.", CUT_SOURCES.palm),
    rule("No climbing spikes, no fronds torn off by hand.", CUT_SOURCES.practice),
  ],
  trim: [rule("Not back into bare wood: many evergreens do not sprout from it.", CUT_SOURCES.practice)],
};

function doNotOf(kind: CutKind, tree: CutTree): CutRule[] {
  const isConifer = tree.form === "conifer" || tree.traits.isConifer;
  const bare = rule("Conifer: never back into bare wood, and the leader stays.", CUT_SOURCES.practice);
  return [...DO_NOT[kind], ...(isConifer && kind !== "fronds" && kind !== "trim" ? [bare] : [])];
}

const woundRule = (genus: string): CutRule =>
  genus === "Quercus"
    ? rule(
        "No paint on the wound, except on an oak cut in its closed season where oak wilt occurs: then at once.",
        CUT_SOURCES.oakPaint,
      )
    : rule("No paint on the wound, unless a disease rule in force asks for it.", CUT_SOURCES.practice);

function toolsOf(kind: CutKind, method: Task["method"], units: DisplayUnits): CutRule[] {
  const sharp = rule("Tools are sharp and clean.", CUT_SOURCES.practice);
  if (kind === "fronds") return [rule("Hand saw or pole saw.", CUT_SOURCES.practice), sharp];
  if (kind === "trim") return [rule("Hedge shears, loppers for the thick stems.", CUT_SOURCES.practice), sharp];
  const shears = shortLength(SHEARS_M, units);
  const loppers = shortLength(LOPPERS_M, units);
  const text =
    method === "hand"
      ? `Bypass shears up to ${shears}, loppers up to ${loppers}.`
      : method === "single-cut"
        ? `Loppers up to ${loppers}, or a pruning saw.`
        : "Pruning saw or chain saw.";
  return [rule(text, CUT_SOURCES.handTools), sharp];
}
