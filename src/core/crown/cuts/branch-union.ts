import type { Shape } from "../drawing.ts";
import { type Point, polyline } from "../section/path.ts";
import { barkRidge, comingOff, grain, kept } from "./bark.ts";

/** A limb on a trunk, seen from the side: where the parts of the union are on the paper, in millimeters. */
export interface BranchUnion {
  /** Where the upper edge of the limb meets the trunk. */
  readonly crotch: Point;
  /** Where the saw starts above and ends below. */
  readonly cutFrom: Point;
  readonly cutTo: Point;
  readonly ridgeEnd: Point;
  /** A point of the limb by its way out from the crotch and its way across from the upper edge. */
  readonly onLimb: (outMm: number, acrossMm: number) => Point;
  readonly thicknessMm: number;
  /** Lower end of the collar on the trunk. */
  readonly collarFoot: Point;
  readonly shapes: readonly Shape[];
}

/** Angle of the limb above the horizontal, and of the ridge and the cut off the line of the trunk. */
const LIMB_DEG = 30;
const ANGLE_DEG = 32;
const TRUNK_LEFT_MM = 9;
const TRUNK_MM = 25;
const CROTCH_Y_MM = 20;
const THICKNESS_MM = 13;
const LENGTH_MM = 36;
const OUTSIDE_MM = 1.4;
const BOTTOM_MM = 56;
const TOP_MM = 2;

/** The union with a swelling under the limb, or without one. Both have the ridge at one angle to the trunk and the cut at the same on the other side. */
export function branchUnion(hasCollar: boolean): BranchUnion {
  const right = TRUNK_LEFT_MM + TRUNK_MM;
  const crotch: Point = [right, CROTCH_Y_MM];
  const [ux, uy] = [Math.cos(radians(LIMB_DEG)), -Math.sin(radians(LIMB_DEG))];
  const onLimb = (out: number, across: number): Point => [
    crotch[0] + ux * out - uy * across,
    crotch[1] + uy * out + ux * across,
  ];
  const cutFrom = onLimb(OUTSIDE_MM, 0);
  // The cut runs down and outward at the angle until it meets the lower edge of the limb.
  const [cx, cy] = [Math.sin(radians(ANGLE_DEG)), Math.cos(radians(ANGLE_DEG))];
  const across = -uy * cx + ux * cy;
  const cutTo: Point = [cutFrom[0] + (cx * THICKNESS_MM) / across, cutFrom[1] + (cy * THICKNESS_MM) / across];
  const outAt = (point: Point) => (point[0] - crotch[0]) * ux + (point[1] - crotch[1]) * uy;
  const ridgeEnd: Point = [crotch[0] - 13 * cx, crotch[1] + 13 * cy];
  // Where the straight lower edge of the limb would meet the trunk.
  const footOut = (-THICKNESS_MM * -uy) / ux;
  const foot = onLimb(footOut, THICKNESS_MM);
  const collarFoot: Point = hasCollar ? [right, foot[1] + 11] : [right, foot[1] + 4];
  const out = outAt(cutTo);
  const lower = hasCollar
    ? `C${xy([right + 0.3, foot[1] + 6])} ${xy(onLimb(out - 6, THICKNESS_MM + 5.6))} ${xy(onLimb(out - 2.2, THICKNESS_MM + 3.2))}` +
      `C${xy(onLimb(out - 0.4, THICKNESS_MM + 2.4))} ${xy(onLimb(out - 0.1, THICKNESS_MM + 1.2))} ${xy(cutTo)}`
    : `C${xy([right + 0.2, foot[1] + 1])} ${xy(onLimb(footOut + 1.5, THICKNESS_MM))} ${xy(onLimb(out - 3, THICKNESS_MM))}`;
  const wood =
    `${polyline([
      [TRUNK_LEFT_MM, TOP_MM],
      [TRUNK_LEFT_MM - 0.6, BOTTOM_MM],
      [right + 0.6, BOTTOM_MM],
      collarFoot,
    ])}${lower}L${xy(cutTo)}L${xy(cutFrom)}L${xy(crotch)}` +
    `C${xy([right - 1.4, CROTCH_Y_MM - 4])} ${xy([right - 0.6, 10])} ${xy([right - 1, TOP_MM])}Z`;
  const limb = polyline(
    [
      cutFrom,
      onLimb(LENGTH_MM, 0.8),
      onLimb(LENGTH_MM + 1.5, 4),
      onLimb(LENGTH_MM - 1, 8),
      onLimb(LENGTH_MM, THICKNESS_MM - 0.8),
      cutTo,
    ],
    true,
  );
  const strokes = [6, 12, 18].flatMap((x, at): (readonly [Point, Point])[] => [
    [
      [TRUNK_LEFT_MM + x - 1.5, TOP_MM + 4 + at * 3],
      [TRUNK_LEFT_MM + x - 1.8, TOP_MM + 12 + at * 2],
    ],
    [
      [TRUNK_LEFT_MM + x - 2, BOTTOM_MM - 17 + at * 4],
      [TRUNK_LEFT_MM + x - 2.2, BOTTOM_MM - 8 + at * 2],
    ],
  ]);
  return {
    crotch,
    cutFrom,
    cutTo,
    ridgeEnd,
    onLimb,
    thicknessMm: THICKNESS_MM,
    collarFoot,
    shapes: [kept(wood), comingOff(limb), ...grain(strokes), ...barkRidge(crotch, ridgeEnd)],
  };
}

export const RIDGE_ANGLE_DEG = ANGLE_DEG;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const xy = ([x, y]: Point): string => `${Math.round(x * 100) / 100} ${Math.round(y * 100) / 100}`;
