import type { Drawing } from "../drawing.ts";
import { area, EDGE, line, type Point, polyline } from "../section/path.ts";
import { comingOff, keptLeaves } from "./bark.ts";
import { CUT_MM, label } from "./cut-marks.ts";

const GROUND_MM = 52;

/** A hedge in section: trimmed along two lines that lean together upward, within the leafy shoots. */
export function hedgeCut(): Drawing {
  const before = leafy([
    [9, GROUND_MM],
    [7, 34],
    [8, 15],
    [17, 9],
    [33, 9],
    [42, 15],
    [43, 34],
    [41, GROUND_MM],
  ]);
  const after: Point[] = [
    [12, GROUND_MM],
    [17, 16],
    [33, 16],
    [38, GROUND_MM],
  ];
  const bare: Point[] = [
    [18.5, GROUND_MM],
    [21.5, 24],
    [28.5, 24],
    [31.5, GROUND_MM],
  ];
  const stem = (from: Point, to: Point) => line([from, to], { tone: "ink", widthMm: 0.5 });
  return {
    widthMm: CUT_MM[0],
    heightMm: CUT_MM[1],
    shapes: [
      comingOff(polyline(before, true)),
      keptLeaves(polyline(after, true)),
      area(polyline(bare, true), "paper", { tone: "ink", widthMm: 0.25, dashMm: [1.2, 0.8] }),
      stem([25, GROUND_MM], [25, 21]),
      stem([25, 46], [20, 22]),
      stem([25, 42], [30, 22]),
      stem([23, 37], [16, 28]),
      stem([27, 35], [34, 28]),
      line(
        [
          [3, GROUND_MM],
          [50, GROUND_MM],
        ],
        EDGE,
      ),
      line([after[0]!, after[1]!], { tone: "ink", widthMm: 0.8 }),
      line([after[1]!, after[2]!], { tone: "ink", widthMm: 0.8 }),
      line([after[2]!, after[3]!], { tone: "ink", widthMm: 0.8 }),
      ...label(["trim along the line,", "within leafy shoots"], [53, 12], [52.4, 12.4], [33.6, 20]),
      ...label(["no cut into bare wood"], [53, 30], [52.4, 29], [29.6, 33]),
      ...label(["base wider than the top"], [53, 46], [52.4, 45], [37, 45]),
    ],
    description:
      "A hedge in section. What lies outside two lines that lean together upward, and above a third, is trimmed off; the base stays wider than the top. The bare wood inside is not cut into.",
  };
}

/** The ragged outline of leaves through corner points: between two corners a row of small teeth. */
function leafy(corners: readonly Point[]): Point[] {
  return corners.flatMap((corner, at): Point[] => {
    const next = corners[at + 1];
    if (next === undefined) return [corner];
    const steps = Math.max(2, Math.round(Math.hypot(next[0] - corner[0], next[1] - corner[1]) / 2.4));
    const [nx, ny] = [next[1] - corner[1], corner[0] - next[0]];
    const length = Math.hypot(nx, ny);
    return Array.from({ length: steps }, (_, step): Point => {
      const share = step / steps;
      const tooth = step % 2 === 0 ? 0 : 0.9;
      return [
        corner[0] + (next[0] - corner[0]) * share - (nx / length) * tooth,
        corner[1] + (next[1] - corner[1]) * share - (ny / length) * tooth,
      ];
    });
  });
}
