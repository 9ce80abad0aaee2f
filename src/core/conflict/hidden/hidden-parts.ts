import type { CrownSize } from "../crown-size.ts";
import type { SightLine, SightScan } from "./sight-scan.ts";
import { type SightBand, ViewPast } from "./view-past.ts";

/** Ends of hidden parts are found to this length along the lane, meters. */
const TOLERANCE_M = 0.01;

/** Where a trunk stands in the scan's plane. */
export interface TrunkAt {
  readonly xM: number;
  readonly yM: number;
}

/**
 * The vehicle positions, meters along the lane, from which a solid about a trunk hides the band of height: ascending pairs of ends, each found to
 * a centimeter. Nothing is sampled: a line that clears the solid by some of its radius rules out all positions as near as that move it.
 */
export function hiddenParts(scan: SightScan, trunk: TrunkAt, size: CrownSize, band: SightBand): number[] {
  const parts: number[] = [];
  search(scan, trunk, size, band, (fromM, toM) => {
    if (parts.length > 0 && parts[parts.length - 1]! >= fromM - 1e-9) parts[parts.length - 1] = toM;
    else parts.push(fromM, toM);
    return false;
  });
  return parts;
}

/** Whether the solid hides the band from any position at all. */
export const hidesAnything = (scan: SightScan, trunk: TrunkAt, size: CrownSize, band: SightBand): boolean =>
  search(scan, trunk, size, band, () => true);

/** Calls `found` for each hidden stretch in order until it answers true; answers whether it did. */
function search(
  scan: SightScan,
  trunk: TrunkAt,
  size: CrownSize,
  band: SightBand,
  found: (fromM: number, toM: number) => boolean,
): boolean {
  const past = new ViewPast(size, band, scan.movesWhole);
  if (past.isNever) return false;
  const line: SightLine = { ax: 0, ay: 0, bx: 0, by: 0 };
  const within = (fromM: number, toM: number): boolean => {
    const half = (toM - fromM) / 2;
    const middleM = fromM + half;
    scan.lineInto(line, middleM);
    line.ax -= trunk.xM;
    line.ay -= trunk.yM;
    line.bx -= trunk.xM;
    line.by -= trunk.yM;
    const clear = past.clearShare(line);
    const most = past.sharesPerM * half;
    if (clear > most) return false;
    if (clear < -most || 2 * half < TOLERANCE_M) return clear <= 0 && found(fromM, toM);
    return within(fromM, middleM) || within(middleM, toM);
  };
  return within(0, scan.lines.lengthM);
}

/** The band of an area's lines; to the middle of the other end alone, or to all of it. */
export function bandOf(scan: SightScan, of: "middle" | "whole"): SightBand {
  const { laneEndM, otherEndM } = scan.lines;
  const middleM = (otherEndM[0] + otherEndM[1]) / 2;
  return {
    nearLowM: laneEndM,
    nearHighM: laneEndM,
    farLowM: of === "middle" ? middleM : otherEndM[0],
    farHighM: of === "middle" ? middleM : otherEndM[1],
  };
}
