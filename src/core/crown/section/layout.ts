import type { ConflictRecord } from "../../model/conflict.ts";
import { LOAD_CASES } from "../../model/load-cases.ts";
import { radiusTowardM } from "../crown.ts";
import {
  type DrawingOptions,
  footAlongM,
  type SectionSubject,
  sectionBearingDeg,
  targetHeightM,
  thingOf,
} from "./subject.ts";
import { textWidthMm } from "./text-width.ts";

/** Lengths in meters that things in the background are drawn with: not part of any rule. */
const LANE_M = 3.3; // one 11 ft lane, where the way's width is unknown; common practice
const WALK_M = 1.5; // the 5 ft walk of the standard
const SHOWN_WAY_M = 4; // wider ways are cut off with a break line: the far lanes decide nothing
const SHOWN_WALL_M = 2.5; // depth of a building that is shown

/** No drawing is larger than 1:70, or a sapling would fill the page. */
const MAX_MM_PER_M = 14;

/** Where things go on the paper. All horizontal positions in meters count from the crown's axis, toward the thing positive. */
export interface SectionLayout {
  readonly mmPerM: number;
  readonly textMm: number;
  /** Left and right end of the ground line. */
  readonly leftMm: number;
  readonly rightMm: number;
  /** Where the callouts' text starts; the labels' column reaches to the right edge. */
  readonly columnMm: number;
  readonly groundMm: number;
  readonly topMm: number;
  /** Upper edge of what is drawn at scale. */
  readonly drawnTopMm: number;
  readonly rowMm: number;
  /** Height in meters at which the drawing ends; what is taller is cut off there. */
  readonly highestM: number;
  readonly awayRadiusM: number;
  readonly towardRadiusM: number;
  /** Near and far end of the thing as it is shown; both 0 without one. The near end is negative when the trunk stands in it. */
  readonly nearM: number;
  readonly farM: number;
  /** Whether the thing reaches farther than it is shown. */
  readonly isCut: boolean;
  readonly toX: (xM: number) => number;
  readonly toY: (heightM: number) => number;
}

/** Positions and true scale (the same both ways) of a section that has `dimensionLines` at its left and these callouts at its right. */
export function layOutSection(
  subject: SectionSubject,
  options: DrawingOptions,
  dimensionLines: number,
  callouts: readonly string[],
): SectionLayout {
  const { tree, conflict } = subject;
  const bearing = sectionBearingDeg(subject);
  const towardRadiusM = radiusTowardM(tree.radii, bearing);
  const awayRadiusM = radiusTowardM(tree.radii, bearing + 180);
  const [nearM, farM, isCut] = extentOfThing(subject, towardRadiusM, awayRadiusM);
  const footM = footAlongM(subject);
  const lowXM = Math.min(-awayRadiusM, nearM, footM < 0 ? footM - 2.6 : -1.2) - 0.2;
  const highXM = Math.max(towardRadiusM, farM, footM + 1.2) + 0.2;
  const highZM = highestShownM(subject);

  const textMm = textSizeMm(options.widthMm);
  const rowMm = textMm * 1.55;
  const dimensionsMm = dimensionLines * rowMm + 1;
  const columnWidthMm =
    callouts.length === 0 ? 1 : 5.2 + Math.max(...callouts.map((text) => textWidthMm(text, textMm, true)));
  const topMm = conflict === null ? 1.2 : rowMm;
  const belowMm = rowMm * 2 + 2.6;
  const freeWidthMm = Math.max(5, options.widthMm - dimensionsMm - columnWidthMm);
  const freeHeightMm = Math.max(5, options.heightMm - topMm - belowMm);
  const mmPerM = Math.min(freeWidthMm / (highXM - lowXM), freeHeightMm / highZM, MAX_MM_PER_M);

  const drawnWidthMm = (highXM - lowXM) * mmPerM;
  const leftMm = dimensionsMm + (freeWidthMm - drawnWidthMm) / 2;
  const groundMm = options.heightMm - belowMm;
  return {
    mmPerM,
    textMm,
    leftMm,
    rightMm: leftMm + drawnWidthMm,
    columnMm: leftMm + drawnWidthMm + 4.6,
    groundMm,
    topMm,
    drawnTopMm: groundMm - highZM * mmPerM,
    rowMm,
    highestM: highZM,
    awayRadiusM,
    towardRadiusM,
    nearM,
    farM,
    isCut,
    toX: (xM) => leftMm + (xM - lowXM) * mmPerM,
    toY: (heightM) => groundMm - heightM * mmPerM,
  };
}

/** Type size in millimeters: 2.1 at 60 mm, the smallest that reads on paper, growing to 2.6. */
const textSizeMm = (widthMm: number): number => Math.min(2.6, Math.max(2.1, 2.1 + (widthMm - 60) * 0.009));

function extentOfThing(
  subject: SectionSubject,
  radiusM: number,
  awayRadiusM: number,
): readonly [number, number, boolean] {
  const { conflict, widthOfThingM } = subject;
  if (conflict === null) return [0, 0, false];
  const thing = thingOf(conflict.kind);
  if (conflict.distanceM <= 0 && thing !== "conductor") return [-awayRadiusM - 0.2, radiusM + 0.8, true];
  const nearM = Math.max(0, conflict.distanceM);
  switch (thing) {
    case "way": {
      const widthM = widthOfThingM ?? LANE_M;
      const shownM = Math.max(SHOWN_WAY_M, radiusM - nearM + 0.8);
      return [nearM, nearM + Math.min(widthM, shownM), widthM > shownM];
    }
    case "walk":
      return [nearM, nearM + (widthOfThingM ?? WALK_M), false];
    case "wall":
    case "roof":
      return [nearM, Math.max(nearM + SHOWN_WALL_M, radiusM + 0.5), true];
    case "sight":
      return [nearM, Math.max(nearM + SHOWN_WALL_M, radiusM + 1), true];
    case "conductor":
      return [nearM, nearM + Math.max(1.2, conflict.clearToM), false];
  }
}

function highestShownM(subject: SectionSubject): number {
  const { tree, conflict } = subject;
  const shown = [tree.height.valueM, 2];
  if (conflict !== null) {
    const thing = thingOf(conflict.kind);
    if (thing === "conductor") shown.push((conductorHeightM(subject) ?? 0) + conflict.clearToM);
    else if (thing === "wall") shown.push(Math.min(subject.heightOfThingM ?? 0, tree.height.valueM * 1.3));
    else shown.push(targetHeightM(subject, conflict));
  }
  return Math.max(...shown) + 0.3;
}

/** Whether the load case in which a wire comes nearest is the one it is drawn in: any without wind or ice. A swung wire leaves the section. */
export const isShownAtCase = ({ loadCase }: ConflictRecord): boolean =>
  loadCase !== null && LOAD_CASES[loadCase].windPa === 0 && LOAD_CASES[loadCase].iceM === 0;

/** Wires this near to each other, seen from the trunk, hang on one pole; our estimate of a crossarm. */
const CROSSARM_M = 3;

/**
 * Height in meters at which the conductor of a conflict passes the tree, at rest: where it comes nearest without wind or ice, else as measured
 * for the tree or for a wire beside it, else that of its attachment, under which it sags. Null when nobody knows.
 */
export function conductorHeightM(subject: SectionSubject): number | null {
  const { conflict, setting, heightOfThingM } = subject;
  if (conflict?.nearest != null && isShownAtCase(conflict)) return conflict.nearest.thing.heightM;
  const near = setting?.conductor ?? null;
  const isBeside =
    conflict !== null &&
    near !== null &&
    (near.withId === conflict.withId || Math.abs(near.trunkDistanceM - conflict.distanceM) < CROSSARM_M);
  return isBeside ? near.heightM : (heightOfThingM ?? null);
}
