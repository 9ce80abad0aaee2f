import { widestAt } from "../crown/profile.ts";
import type { CrownSize } from "./crown-size.ts";

/**
 * Height in meters above the tree's ground at which a crown is widest between two heights; where none of it is there, the height of it that
 * is nearest to them.
 */
export function widestHeightM(size: CrownSize, lowM: number, highM: number): number {
  const widestM = size.baseM + widestAt(size.habit) * (size.heightM - size.baseM);
  return Math.min(size.heightM, Math.max(size.baseM, Math.min(highM, Math.max(lowM, widestM))));
}
