import type { DisplayUnits } from "../../units/format-length.ts";
import type { Drawing } from "../drawing.ts";
import { type Point, polyline } from "../section/path.ts";
import { barkRidge, comingOff, kept } from "./bark.ts";
import { CUT_MM, dimension, extension, label, sawCut, text } from "./cut-marks.ts";
import { shortLength, shortRange } from "./short-length.ts";
import { threeCutDistances } from "./three-cut-distances.ts";

const TRUNK_MM = 17;
const TOP_MM = 17;
const THICKNESS_MM = 13;
const FIRST_MM = 43;
const SECOND_MM = 52;
const END_MM = 82;
/** The limb rises so many millimeters a millimeter out. */
const RISE = 0.06;

/** The three cuts of a heavy limb, numbered in order, with the distances for its diameter in meters. Not to scale. */
export function threeCut(units: DisplayUnits, diameterM: number): Drawing {
  const distances = threeCutDistances(diameterM);
  const out = shortRange(distances.undercutFromM, distances.undercutToM, units);
  const beyond = shortLength(distances.topCutBeyondM, units);
  const upper = (x: number): number => TOP_MM - RISE * (x - TRUNK_MM);
  const lower = (x: number): number => TOP_MM + THICKNESS_MM - RISE * 1.3 * (x - TRUNK_MM);
  const depth = THICKNESS_MM * distances.undercutShare;
  const last: readonly [Point, Point] = [
    [TRUNK_MM + 1.6, upper(TRUNK_MM + 1.6)],
    [TRUNK_MM + 6.4, lower(TRUNK_MM + 6.4)],
  ];
  const dimensionMm = 42;
  const trunk =
    `${polyline([
      [3, 2],
      [2.6, 56],
      [TRUNK_MM + 0.5, 56],
      [TRUNK_MM, 40],
    ])}C${TRUNK_MM} 35 ${TRUNK_MM + 2.5} 32 ${TRUNK_MM + 6.4} ${lower(TRUNK_MM + 6.4)}` +
    `L${last[0].join(" ")}L${TRUNK_MM} ${TOP_MM}C${TRUNK_MM - 1} 12 ${TRUNK_MM - 0.6} 7 ${TRUNK_MM - 0.8} 2Z`;
  const limb = polyline(
    [
      last[0],
      [END_MM, upper(END_MM)],
      [END_MM + 1.5, upper(END_MM) + 4],
      [END_MM - 0.5, upper(END_MM) + 7],
      [END_MM, lower(END_MM)],
      last[1],
    ],
    true,
  );
  return {
    widthMm: CUT_MM[0],
    heightMm: CUT_MM[1],
    shapes: [
      kept(trunk),
      comingOff(limb),
      ...barkRidge([TRUNK_MM, TOP_MM], [TRUNK_MM - 6, TOP_MM + 9]),
      ...sawCut(
        [
          [FIRST_MM, lower(FIRST_MM) - depth],
          [FIRST_MM, lower(FIRST_MM)],
        ],
        1,
      ),
      ...sawCut(
        [
          [SECOND_MM, lower(SECOND_MM)],
          [SECOND_MM, upper(SECOND_MM)],
        ],
        2,
      ),
      ...sawCut([last[1], last[0]], 3),
      extension([
        [last[1][0], last[1][1] + 0.8],
        [last[1][0], dimensionMm + 1.2],
      ]),
      extension([
        [FIRST_MM, lower(FIRST_MM) + 5.6],
        [FIRST_MM, dimensionMm + 1.2],
      ]),
      extension([
        [SECOND_MM, lower(SECOND_MM) + 0.8],
        [SECOND_MM, dimensionMm + 1.2],
      ]),
      ...dimension([last[1][0], dimensionMm], [FIRST_MM, dimensionMm], out, -1),
      ...dimension([FIRST_MM, dimensionMm], [SECOND_MM, dimensionMm], "", -1),
      text(beyond, [SECOND_MM + 2, dimensionMm + 1]),
      ...label(
        ["from below, a quarter", "of the way through"],
        [56, 33],
        [55.4, 32],
        [FIRST_MM + 2.2, lower(FIRST_MM) + 2.4],
      ),
      ...label(
        ["from above, until", "the limb drops"],
        [58, 5],
        [57.5, 4.2],
        [SECOND_MM + 2.2, upper(SECOND_MM) - 2.4],
      ),
      ...label(
        ["last, at the collar,", "the stub held up"],
        [24.5, 5],
        [24, 6.5],
        [TRUNK_MM + 2.6, upper(TRUNK_MM) - 3.4],
      ),
      text("Lengths are not to scale.", [83, 56], { anchor: "end" }),
    ],
    description:
      `Side view of a heavy limb on a trunk with three numbered cuts. 1: from below, ${out} out from the collar, a quarter of the way through. ` +
      `2: from above, ${beyond} farther out, until the limb drops. 3: the final cut just outside the branch bark ridge and the collar.`,
  };
}
