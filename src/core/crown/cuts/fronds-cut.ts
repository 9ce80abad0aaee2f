import type { Drawing, Shape } from "../drawing.ts";
import { line, type Point, polyline } from "../section/path.ts";
import { comingOff, kept, keptLeaves } from "./bark.ts";
import { CUT_MM, helpLine, label, sawCut, text } from "./cut-marks.ts";

const CENTER: Point = [34, 29];
const TRUNK_MM = 5;
const LENGTH_MM = 28;
const STALK_MM = 9;
/** Directions of the fronds that stay and that go, in degrees above the horizontal; measured at their stalk. */
const STAY_DEG = [90, 66, 114, 42, 138, 18, 162];
const GO_DEG = [-14, 194, -62, 242];

/** A palm: fronds below the horizontal go, all others stay. */
export function frondsCut(): Drawing {
  const [x, y] = CENTER;
  return {
    widthMm: CUT_MM[0],
    heightMm: CUT_MM[1],
    shapes: [
      kept(
        polyline(
          [
            [x - TRUNK_MM * 0.8, y + 4],
            [x - TRUNK_MM, 56],
            [x + TRUNK_MM, 56],
            [x + TRUNK_MM * 0.8, y + 4],
          ],
          true,
        ),
      ),
      ...[33, 38, 43, 48, 53].map((ringY) =>
        line(
          [
            [x - TRUNK_MM * 0.9, ringY],
            [x + TRUNK_MM * 0.9, ringY - 1],
          ],
          { tone: "quiet", widthMm: 0.25 },
        ),
      ),
      ...GO_DEG.flatMap((degrees) => frond(degrees, comingOff)),
      ...STAY_DEG.flatMap((degrees) => frond(degrees, keptLeaves)),
      kept(
        polyline(
          [
            [x - 5, y + 5],
            [x - 3.6, y - 2],
            [x + 3.6, y - 2],
            [x + 5, y + 5],
          ],
          true,
        ),
      ),
      helpLine([
        [6, y],
        [66, y],
      ]),
      ...sawCut([stalk(-14, 7, -2.4), stalk(-14, 7, 2.4)], null),
      ...label(["stays: all above", "the horizontal,", "and the bud"], [59, 9], [58.5, 10], stalk(42, 19, 0)),
      text("horizontal", [67, y + 1]),
      ...label(["goes: below it,", "dead ones first"], [64, 40], [63.5, 39], [x + 22, y + 7.6]),
      ...label(["close to the trunk,", "not into it"], [52, 49.5], [51.5, 48], stalk(-14, 7, 2.8)),
    ],
    description:
      "A palm. The fronds that hang below the horizontal are hatched and go; all others and the bud at the top stay. The saw line cuts a leaf stalk close to the trunk without cutting into it.",
  };
}

/** A point of a frond: so far out from the bud along its direction, so far across it; the tip sags. */
function stalk(degrees: number, outMm: number, acrossMm: number): Point {
  const angle = (degrees * Math.PI) / 180;
  const [ux, uy] = [Math.cos(angle), -Math.sin(angle)];
  const share = Math.max(0, outMm - 5) / (LENGTH_MM - 5);
  const sag = (5 * Math.abs(ux) + 1.5) * share * share;
  return [CENTER[0] + ux * outMm - uy * acrossMm, CENTER[1] + uy * outMm + ux * acrossMm + sag];
}

/** A frond: a stalk with a slender blade, its midrib drawn in. */
function frond(degrees: number, paint: (d: string) => Shape): Shape[] {
  const halves = [0, 1.3, 1.9, 2, 1.7, 1.1, 0];
  const out = (step: number) => STALK_MM + ((LENGTH_MM - STALK_MM) * step) / (halves.length - 1);
  const side = (sign: 1 | -1) => halves.map((half, step) => stalk(degrees, out(step), sign * half));
  const rib = [2, STALK_MM, ...halves.map((_, step) => out(step))].map((outMm) => stalk(degrees, outMm, 0));
  return [paint(polyline([...side(-1), ...side(1).reverse()], true)), line(rib, { tone: "ink", widthMm: 0.5 })];
}
