import type { Certainty } from "../../model/terms.ts";
import type { Size, Tree } from "../../model/trees.ts";

/** What can be measured of a tree that decides a conflict. `headroom` is the free height over the nearest road. */
export const SETTLING_FIGURES = ["crown-base", "crown-radius", "height", "headroom"] as const;
export type SettlingFigure = (typeof SETTLING_FIGURES)[number];

/** From which measured value on a conflict is gone, and from which it is sure enough to send a crew; meters. */
export interface Settling {
  readonly figure: SettlingFigure;
  /** Whether the conflict is gone for small or for large values. */
  readonly goneFor: "small" | "large";
  /** Measured so much, or beyond, the conflict is gone; null where no measured value alone does that. */
  readonly goneAtM: number | null;
  /** Measured so much, or beyond on the other side, it is probable or confirmed; null where no measured value alone does that. */
  readonly holdsAtM: number | null;
}

/** A question: which value of a figure settles one conflict of one tree. */
export interface Question {
  readonly tree: Tree;
  readonly conflictId: string;
  readonly figure: SettlingFigure;
}

/** Certainty of a conflict for each tree, as its sizes stand; null where there is none. In the order of the trees. */
export type Judge = (
  trees: readonly { readonly tree: Tree; readonly conflictId: string }[],
) => readonly (Certainty | null)[];

/** Half of the 90 % interval of what is measured in the field; the same as of an inventory. */
const SHARE_ERROR = 0.1;
const BASE_ERROR_M = 0.3;
/** A crown keeps at least this depth, meters. */
const LEAST_DEPTH_M = 0.3;
/** Halvings of the interval searched: 10 m to 4 cm, less than what is measured to. */
const HALVINGS = 8;
/** How often all that is open is asked at once: both ends, and the halvings of what is gone and of what holds. */
const TURNS = 2 + 2 * HALVINGS;

/** The tree as if one of its figures had been measured. */
export function asIfMeasured(tree: Tree, figure: SettlingFigure, valueM: number): Tree {
  const size = (errorM: number): Size => ({
    valueM,
    lowM: Math.max(0, valueM - errorM),
    highM: valueM + errorM,
    basis: "measured",
    source: "as if measured",
  });
  switch (figure) {
    case "headroom":
      return { ...tree, headroomOverRoadM: valueM };
    case "crown-base":
      return { ...tree, crownBase: size(BASE_ERROR_M) };
    case "height":
      return { ...tree, height: size(valueM * SHARE_ERROR) };
    case "crown-radius": {
      const by = tree.radius.valueM > 0 ? valueM / tree.radius.valueM : 1;
      const { northM, eastM, southM, westM } = tree.radii;
      const radii = { northM: northM * by, eastM: eastM * by, southM: southM * by, westM: westM * by };
      return { ...tree, radius: size(valueM * SHARE_ERROR), radii };
    }
  }
}

/** Values between which a figure is searched: well beyond its 90 % interval, and never so that no crown is left. */
function rangeOf({ tree, figure }: Question): readonly [lowM: number, highM: number] {
  const { height, crownBase, radius } = tree;
  switch (figure) {
    case "crown-base":
      return [0, Math.max(0.1, Math.min(height.valueM - LEAST_DEPTH_M, Math.max(6, 1.5 * crownBase.highM)))];
    case "crown-radius":
      return [0.3 * radius.lowM, Math.min(25, 1.7 * radius.highM)];
    case "height":
      return [Math.max(crownBase.valueM + LEAST_DEPTH_M, 0.5 * height.lowM), 1.5 * height.highM];
    case "headroom":
      return [0, Math.max(7, crownBase.highM)];
  }
}

const RANK: Readonly<Record<Certainty, number>> = { possible: 1, probable: 2, confirmed: 3 };
const rankOf = (certainty: Certainty | null): number => (certainty === null ? 0 : RANK[certainty]);

/**
 * For each question the measured values that settle it: the test of certainty itself is asked, with the figure as if measured and all others as they are, and its answer is
 * searched by halving. Gone is: no conflict now, and none that growth reaches within two cycles. A figure whose two ends give the same answer settles nothing, and one
 * whose answer turns back is not found out by this. Values lie on the settled side, within 4 cm of where the answer turns, up to 10 m. `onShare` is told how much is asked.
 */
export function settlingFigures(
  questions: readonly Question[],
  judge: Judge,
  onShare: (share: number) => void = () => {},
): Settling[] {
  const ends = questions.map(rangeOf);
  const all = questions.map((_, at) => at);
  let turns = 0;
  const ask = (which: readonly number[], valueAt: (at: number) => number): number[] => {
    const asked = which.map((at) => {
      const { tree, conflictId, figure } = questions[at]!;
      return { tree: asIfMeasured(tree, figure, valueAt(at)), conflictId };
    });
    onShare(turns / TURNS);
    turns += 1;
    return asked.length === 0 ? [] : judge(asked).map(rankOf);
  };
  const low = ask(all, (at) => ends[at]![0]);
  const high = ask(all, (at) => ends[at]![1]);
  const isGoneSmall = all.map((at) => low[at]! < high[at]!);
  /** The value nearest to the other end that is still settled; null where that end is not, or both are. */
  const turning = (isSettled: (rank: number) => boolean, isGoneSide: boolean): (number | null)[] => {
    const isLow = all.map((at) => isGoneSmall[at] === isGoneSide);
    const found = all.filter((at) => low[at] !== high[at] && isSettled((isLow[at] ? low : high)[at]!));
    const settled = new Map(found.map((at) => [at, ends[at]![isLow[at] ? 0 : 1]]));
    const open = new Map(found.map((at) => [at, ends[at]![isLow[at] ? 1 : 0]]));
    for (let halving = 0; halving < HALVINGS; halving += 1) {
      const middle = (at: number): number => (settled.get(at)! + open.get(at)!) / 2;
      const ranks = ask(found, middle);
      found.forEach((at, place) => {
        const valueM = middle(at);
        (isSettled(ranks[place]!) ? settled : open).set(at, valueM);
      });
    }
    return all.map((at) => settled.get(at) ?? null);
  };
  const gone = turning((rank) => rank === 0, true);
  const holds = turning((rank) => rank >= RANK.probable, false);
  return questions.map(({ figure }, at) => ({
    figure,
    goneFor: isGoneSmall[at] ? "small" : "large",
    goneAtM: gone[at]!,
    holdsAtM: holds[at]!,
  }));
}
