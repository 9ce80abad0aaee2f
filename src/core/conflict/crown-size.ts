import { highestAt, lowestAt, profileShare, widestAt } from "../crown/profile.ts";
import { HABITS, type Habit } from "../model/terms.ts";
import type { TreeTable } from "../model/tree-table.ts";
import type { Tree } from "../model/trees.ts";

/** A crown as plain numbers that a loop may change: heights above ground and the four radii, meters. */
export interface CrownSize {
  heightM: number;
  baseM: number;
  northM: number;
  eastM: number;
  southM: number;
  westM: number;
  habit: Habit;
}

export const emptyCrownSize = (): CrownSize => ({
  heightM: 0,
  baseM: 0,
  northM: 0,
  eastM: 0,
  southM: 0,
  westM: 0,
  habit: "ellipsoid",
});

/** The crown of a row as the table has it. */
export function readCrownSize(into: CrownSize, table: TreeTable, row: number): void {
  into.heightM = table.heightM[row]!;
  into.baseM = table.crownBaseM[row]!;
  into.northM = table.radiiM[4 * row]!;
  into.eastM = table.radiiM[4 * row + 1]!;
  into.southM = table.radiiM[4 * row + 2]!;
  into.westM = table.radiiM[4 * row + 3]!;
  into.habit = HABITS[table.habit[row]!]!;
}

/** The crown at one end of its 90 % intervals: `least` is the smallest radius on the highest base, `most` the largest on the lowest. */
export function readEnd(into: CrownSize, estimate: CrownSize, tree: Tree, end: "least" | "most"): void {
  const { radius, crownBase, height } = tree;
  const scale = radius.valueM > 0 ? (end === "least" ? radius.lowM : radius.highM) / radius.valueM : 1;
  scaleInto(into, estimate, scale, 0);
  into.heightM = end === "least" ? height.highM : height.lowM;
  // An interval can reach over the top; a crown keeps at least a tenth of the tree's height.
  into.baseM = Math.max(0, Math.min(end === "least" ? crownBase.highM : crownBase.lowM, into.heightM * 0.9));
}

/** A crown with every radius scaled, then widened by `addM`. */
export function scaleInto(into: CrownSize, from: CrownSize, scale: number, addM: number): void {
  into.heightM = from.heightM;
  into.baseM = from.baseM;
  into.northM = from.northM * scale + addM;
  into.eastM = from.eastM * scale + addM;
  into.southM = from.southM * scale + addM;
  into.westM = from.westM * scale + addM;
  into.habit = from.habit;
}

export const isRound = (size: CrownSize): boolean =>
  size.northM === size.eastM && size.eastM === size.southM && size.southM === size.westM;

export const widestM = (size: CrownSize): number => Math.max(size.northM, size.eastM, size.southM, size.westM);

/** Crown radius in meters toward a unit direction, elliptic in each quadrant; as `radiusTowardM`, without its trigonometry. */
export function radiusAlong(size: CrownSize, eastShare: number, northShare: number): number {
  const alongEastM = eastShare >= 0 ? size.eastM : size.westM;
  const alongNorthM = northShare >= 0 ? size.northM : size.southM;
  if (alongEastM === alongNorthM) return alongEastM;
  if (alongEastM <= 0 || alongNorthM <= 0) return 0;
  return 1 / Math.hypot(eastShare / alongEastM, northShare / alongNorthM);
}

/**
 * Widest share of its radius, 0 to 1, that a crown has between two heights; -1 when none of it is there. A point at a share of the radius
 * has foliage between the two heights exactly when its share is less.
 */
export function widestBetween(size: CrownSize, lowM: number, highM: number): number {
  const depthM = size.heightM - size.baseM;
  if (!(depthM > 0) || highM <= size.baseM || lowM >= size.heightM || highM <= lowM) return -1;
  const low = Math.max(0, (lowM - size.baseM) / depthM);
  const high = Math.min(1, (highM - size.baseM) / depthM);
  const widest = widestAt(size.habit);
  return profileShare(size.habit, Math.min(high, Math.max(low, widest)));
}

/** Height in meters of the lower surface at a share of the radius, 0 to 1; at more than 1 that of the edge. */
export function lowerM(size: CrownSize, share: number): number {
  return size.baseM + lowestAt(size.habit, Math.min(1, share)) * (size.heightM - size.baseM);
}

/** Height in meters of the upper surface at a share of the radius, 0 to 1; at more than 1 that of the edge. */
export function upperM(size: CrownSize, share: number): number {
  return size.baseM + highestAt(size.habit, Math.min(1, share)) * (size.heightM - size.baseM);
}
