import type { Basis } from "../model/terms.ts";
import type { TreeTable } from "../model/tree-table.ts";
import type { Tree } from "../model/trees.ts";
import { planeOf, toPlaneInto } from "../plane/plane.ts";
import { type CrownSize, emptyCrownSize, readCrownSize, readEnd, scaleInto, widestM } from "./crown-size.ts";

/** Least distance in meters from the trunk's axis at which a removal region begins, where the stem's diameter is not known. Our policy. */
const AXIS_M = 0.1;

/** One tree as the measuring loops see it; a single object is moved from tree to tree. */
export class TreeView {
  tree!: Tree;
  row = 0;
  plane = 0;
  /** The crown's axis, from which crowns and what is near them are measured. */
  xM = 0;
  yM = 0;
  /** The trunk's foot; elsewhere than the axis where the tree leans or its crown stands beside it. */
  footXM = 0;
  footYM = 0;
  isBesideTrunk = false;
  readonly estimate: CrownSize = emptyCrownSize();
  /** Smallest radius on the highest base, and largest on the lowest, of the 90 % intervals. */
  readonly least: CrownSize = emptyCrownSize();
  readonly most: CrownSize = emptyCrownSize();
  readonly #grown: CrownSize = emptyCrownSize();
  /** How far from its axis the crown can reach within the horizon, meters. */
  farM = 0;
  /** Nearest to the axis that anything is cut: the stem and, of a leaning tree, its run inside the crown. */
  axisM = AXIS_M;
  /** Worst basis of height, crown base and radius. */
  basis: Basis = "measured";
  /** Nothing but the position is known: every size is assumed. */
  isByPosition = false;
  readonly #xy = new Float64Array(2);

  moveTo(table: TreeTable, row: number, horizonYears: number): void {
    const tree = table.trees[row]!;
    this.tree = tree;
    this.row = row;
    this.plane = planeOf(table.lonDeg[row]!);
    toPlaneInto(this.#xy, 0, this.plane, table.lonDeg[row]!, table.latDeg[row]!);
    this.footXM = this.#xy[0]!;
    this.footYM = this.#xy[1]!;
    this.xM = this.footXM + (tree.crownEastM ?? 0);
    this.yM = this.footYM + (tree.crownNorthM ?? 0);
    this.isBesideTrunk = this.xM !== this.footXM || this.yM !== this.footYM;
    readCrownSize(this.estimate, table, row);
    readEnd(this.least, this.estimate, tree, "least");
    readEnd(this.most, this.estimate, tree, "most");
    const growthM = Math.max(0, tree.traits.radiusGrowthMPerYear) * horizonYears;
    this.farM = Math.max(widestM(this.estimate) + growthM, widestM(this.most));
    this.axisM = Math.max(AXIS_M, (tree.dbhM ?? 0) / 2) + (tree.stemRunM ?? 0);
    this.basis = worstBasis(tree.height.basis, tree.crownBase.basis, tree.radius.basis);
    this.isByPosition =
      tree.height.basis === "assumed" && tree.crownBase.basis === "assumed" && tree.radius.basis === "assumed";
  }

  /** The crown after some years of growth in radius; height and base stay, droop is the caller's. Overwritten by the next call. */
  grown(years: number): CrownSize {
    scaleInto(this.#grown, this.estimate, 1, Math.max(0, this.tree.traits.radiusGrowthMPerYear) * years);
    return this.#grown;
  }

  /** As {@link grown}, with the growth in height as well. */
  grownTaller(years: number): CrownSize {
    this.grown(years);
    this.#grown.heightM += Math.max(0, this.tree.traits.heightGrowthMPerYear) * years;
    return this.#grown;
  }
}

const RANK: Readonly<Record<Basis, number>> = { measured: 0, estimated: 1, assumed: 2 };

export function worstBasis(...bases: readonly Basis[]): Basis {
  return bases.reduce((worst, basis) => (RANK[basis] > RANK[worst] ? basis : worst), "measured" as Basis);
}
