import type { Shape, Stroke } from "../drawing.ts";
import { area, circle, line, type Point, polyline, QUIET, THIN } from "../section/path.ts";

/** Size of the drawings of cuts and of their writing, in millimeters: half the type area of a page, or a card on the screen. */
export const CUT_MM: readonly [widthMm: number, heightMm: number] = [86, 58];
export const CUT_TEXT_MM = 3;

const SAW: Stroke = { tone: "ink", widthMm: 0.8 };
const WRONG: Stroke = { tone: "ink", widthMm: 0.35, dashMm: [1.6, 1] };
const DISC_MM = 2.1;

/** Where the saw goes, with its number on a disc at the end of the line; null where the number stands at its words. */
export function sawCut(points: readonly Point[], order: number | null): Shape[] {
  const [x, y] = beyond(points.at(-2)!, points.at(-1)!, DISC_MM + 0.6);
  const disc: Shape[] = order === null ? [] : numberDisc(order, x, y);
  return [line(points, SAW), ...disc];
}

/** Words about a cut with its number on a disc beside them, and a thin line from the disc to where the saw is drawn. */
export function numberedLabel(
  order: number,
  lines: readonly string[],
  [x, y]: Point,
  to: Point,
  anchor: "start" | "end" = "start",
): Shape[] {
  const textX = x + (anchor === "start" ? 1 : -1) * (DISC_MM + 1.3);
  const words = lines.map((one, row) => text(one, [textX, y + CUT_TEXT_MM * (0.34 + row * 1.15)], { anchor }));
  return [line([[x, y], to], THIN), ...numberDisc(order, x, y), ...words];
}

function numberDisc(order: number, x: number, y: number): Shape[] {
  return [
    area(circle(x, y, DISC_MM), "ink"),
    text(String(order), [x, y + CUT_TEXT_MM * 0.34], { anchor: "middle", bold: true, tone: "paper" }),
  ];
}

/** A cut that is wrong: a dashed line with a cross on it. */
export function wrongCut(from: Point, to: Point, crossShare = 0.5): Shape[] {
  const x = from[0] + (to[0] - from[0]) * crossShare;
  const y = from[1] + (to[1] - from[1]) * crossShare;
  const arm = 1.5;
  const stroke: Stroke = { tone: "ink", widthMm: 0.6 };
  return [
    line([from, to], WRONG),
    line(
      [
        [x - arm, y - arm],
        [x + arm, y + arm],
      ],
      stroke,
    ),
    line(
      [
        [x - arm, y + arm],
        [x + arm, y - arm],
      ],
      stroke,
    ),
  ];
}

export interface TextLook {
  readonly anchor?: "start" | "middle" | "end";
  readonly bold?: boolean;
  readonly tone?: "ink" | "paper";
}

export const text = (
  words: string,
  [xMm, yMm]: Point,
  { anchor = "start", bold = false, tone = "ink" }: TextLook = {},
): Shape => ({
  type: "text",
  xMm,
  yMm,
  text: words,
  sizeMm: CUT_TEXT_MM,
  anchor,
  tone,
  ...(bold ? { bold: true } : {}),
});

/** Lines of words under each other, the first one's baseline at `at`, and a thin line from `from` to the place they speak of. */
export function label(lines: readonly string[], at: Point, from: Point, to: Point, look: TextLook = {}): Shape[] {
  return [
    line([from, to], THIN),
    area(circle(to[0], to[1], 0.4), "ink"),
    ...lines.map((words, row) => text(words, [at[0], at[1] + row * CUT_TEXT_MM * 1.15], look)),
  ];
}

/** A dimension between two points with slanting ticks, its words in the middle above or below the line. */
export function dimension(from: Point, to: Point, words: string, offsetMm: number): Shape[] {
  const tick = ([x, y]: Point): Shape =>
    line(
      [
        [x - 0.7, y + 0.7],
        [x + 0.7, y - 0.7],
      ],
      { tone: "ink", widthMm: 0.3 },
    );
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2 + offsetMm];
  return [line([from, to], THIN), tick(from), tick(to), text(words, middle, { anchor: "middle" })];
}

/** A help line of a construction. */
export const helpLine = (points: readonly Point[]): Shape =>
  line(points, { tone: "ink", widthMm: 0.18, dashMm: [3, 0.8, 0.5, 0.8] });

/** A thin line from a dimension to what it measures. */
export const extension = (points: readonly Point[]): Shape => line(points, QUIET);

/** An arc about a point between two angles in degrees, counted clockwise from the right as the paper is seen. */
export function arc([x, y]: Point, radiusMm: number, fromDeg: number, toDeg: number): Shape {
  const steps = Math.max(2, Math.ceil(Math.abs(toDeg - fromDeg) / 6));
  const points: Point[] = [];
  for (let step = 0; step <= steps; step += 1) {
    const angle = ((fromDeg + ((toDeg - fromDeg) * step) / steps) * Math.PI) / 180;
    points.push([x + radiusMm * Math.cos(angle), y + radiusMm * Math.sin(angle)]);
  }
  return { type: "path", d: polyline(points), fill: "none", stroke: { tone: "ink", widthMm: 0.3 } };
}

/** The point a distance past the end of a line. */
export function beyond(from: Point, to: Point, byMm: number): Point {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [to[0] + ((to[0] - from[0]) / length) * byMm, to[1] + ((to[1] - from[1]) / length) * byMm];
}
