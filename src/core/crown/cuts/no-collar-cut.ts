import type { Drawing } from "../drawing.ts";
import type { Point } from "../section/path.ts";
import { branchUnion, RIDGE_ANGLE_DEG } from "./branch-union.ts";
import { arc, CUT_MM, helpLine, label, numberedLabel, sawCut, text } from "./cut-marks.ts";

/**
 * Where no collar shows: the angle between the bark ridge and the line of the trunk, drawn again on the limb's side of that line (University of
 * Florida HS889, figure 2; our own drawing of it).
 */
export function noCollarCut(): Drawing {
  const { crotch, cutFrom, cutTo, ridgeEnd, shapes } = branchUnion(false);
  const ridge: Point = [(crotch[0] + ridgeEnd[0]) / 2, (crotch[1] + ridgeEnd[1]) / 2];
  const letter = (side: 1 | -1): Point => {
    const angle = ((90 - (side * RIDGE_ANGLE_DEG) / 2) * Math.PI) / 180;
    return [crotch[0] + 15.6 * Math.cos(angle), crotch[1] + 15.6 * Math.sin(angle) + 1];
  };
  return {
    widthMm: CUT_MM[0],
    heightMm: CUT_MM[1],
    shapes: [
      ...shapes,
      helpLine([
        [crotch[0], 3],
        [crotch[0], 54],
      ]),
      arc(crotch, 11.8, 90, 90 + RIDGE_ANGLE_DEG),
      arc(crotch, 11.8, 90 - RIDGE_ANGLE_DEG, 90),
      text("a", letter(-1), { anchor: "middle", bold: true }),
      text("a", letter(1), { anchor: "middle", bold: true }),
      ...sawCut([cutFrom, cutTo], null),
      ...label(["bark ridge"], [40, 6], [39.5, 5.2], [ridge[0] + 0.5, ridge[1] - 0.5]),
      ...numberedLabel(1, ["cut at the same angle a,", "outside the ridge"], [51, 37.5], cutTo),
      ...label(["line of the trunk"], [42, 51.5], [41.5, 50.5], [crotch[0], 50.5]),
    ],
    description:
      "Side view of a limb on a trunk without a swelling under it. A line along the trunk runs through the crotch. The branch bark ridge makes the " +
      "angle a with it on the trunk's side; the saw line 1 starts just outside the ridge and makes the same angle a on the limb's side.",
  };
}
