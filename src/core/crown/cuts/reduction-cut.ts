import type { Drawing } from "../drawing.ts";
import { type Point, polyline } from "../section/path.ts";
import { barkRidge, comingOff, kept } from "./bark.ts";
import { CUT_MM, dimension, label, numberedLabel, sawCut, wrongCut } from "./cut-marks.ts";

/** Reduction of a stem to a lateral at least a third as thick, with the heading cut that is wrong. */
export function reductionCut(): Drawing {
  const left = 33;
  const right = 45;
  const crotch: Point = [right - 0.4, 33];
  const cutFrom: Point = [right - 1.2, 31.4];
  const cutTo: Point = [left + 0.2, 38.4];
  // The lateral rises to the right at 45 degrees and is half as thick as the stem.
  const lateral = (out: number, across: number): Point => [
    crotch[0] + (out + across) * Math.SQRT1_2,
    crotch[1] + (across - out) * Math.SQRT1_2,
  ];
  const thin = 6.4;
  const wood =
    `${polyline([[left - 0.8, 56], [left + 0.2, 42], cutTo, cutFrom, crotch, lateral(27, 0.6), lateral(28.2, 2.4), lateral(26.2, 3.8), lateral(27, thin - 0.6), lateral(6, thin)])}` +
    `C${lateral(1, thin).join(" ")} ${right + 0.4} 46 ${right + 0.6} 56Z`;
  const top = polyline([cutTo, [left + 1.2, 4], [left + 4, 2.4], [left + 7, 4.6], [right - 2.4, 3.4], cutFrom], true);
  return {
    widthMm: CUT_MM[0],
    heightMm: CUT_MM[1],
    shapes: [
      kept(wood),
      comingOff(top),
      ...barkRidge(crotch, [crotch[0] - 7.5, crotch[1] + 12.5]),
      ...wrongCut([left - 1, 17], [right + 0.6, 17], 0.5),
      ...sawCut([cutFrom, cutTo], null),
      ...dimension([left - 0.6, 51], [right + 0.6, 51], "d", -1),
      ...dimension(lateral(17, 0.2), lateral(17, thin - 0.2), "", 0),
      ...label(["lateral, at least", "1/3 of d, better 1/2"], [58, 41], [60, 38], lateral(17, thin)),
      ...label(["no cut between", "laterals: heading"], [3, 12], [24.5, 13], [left + 0.2, 16.8]),
      ...label(["bark ridge"], [55, 51], [54.5, 50], [crotch[0] - 4, crotch[1] + 6.8]),
      ...numberedLabel(1, ["slopes away", "from the lateral"], [26.4, 34], cutTo, "end"),
    ],
    description:
      "A stem with a lateral that leaves it to the right. The saw line 1 starts just outside the bark ridge of the lateral and slopes down across the stem, " +
      "away from the lateral, which is at least a third, better half, as thick as the stem, d. Crossed out: a cut across the stem between laterals, a heading cut.",
  };
}
