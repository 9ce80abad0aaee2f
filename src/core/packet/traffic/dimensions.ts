import type { Shape } from "../../crown/drawing.ts";
import { type DisplayUnits, formatLength } from "../../units/format-length.ts";

/** Millimeters a letter of the text takes, generously. */
const LETTER_MM = 1.25;
const SIZE_MM = 2.3;

/** A chain of dimensions below the road, names without lengths where no units are given; words that would run into the last ones go a row lower, of three. */
export function dimensionRow(
  dimensions: readonly { readonly fromM: number; readonly toM: number; readonly name: string }[],
  x: (alongM: number) => number,
  yMm: number,
  { units, widthMm }: { readonly units: DisplayUnits | null; readonly widthMm: number },
): Shape[] {
  const shapes: Shape[] = [];
  const mm = (value: number): number => Math.round(value * 100) / 100;
  const ends = [-Infinity, -Infinity, -Infinity];
  const inOrder = [...dimensions].sort((a, b) => x(a.fromM) - x(b.fromM));
  for (const { fromM, toM, name } of inOrder) {
    const [from, to] = [Math.min(x(fromM), x(toM)), Math.max(x(fromM), x(toM))];
    for (const end of [from, to]) {
      shapes.push({
        type: "path",
        d: `M ${mm(end)} ${mm(yMm - 1)} L ${mm(end)} ${mm(yMm + 1)}`,
        fill: "none",
        stroke: { tone: "ink", widthMm: 0.25 },
      });
    }
    shapes.push({
      type: "path",
      d: `M ${mm(from)} ${mm(yMm)} L ${mm(to)} ${mm(yMm)}`,
      fill: "none",
      stroke: { tone: "ink", widthMm: 0.2 },
    });
    const words = [name, units === null ? "" : formatLength(toM - fromM, units)].filter((one) => one !== "").join(" ");
    if (words === "") continue;
    const half = (words.length * LETTER_MM) / 2;
    const middle = Math.min(widthMm - half, Math.max(half, (from + to) / 2));
    const row = Math.max(
      0,
      ends.findIndex((end) => end <= middle - half),
    );
    ends[row] = middle + half + 0.8;
    shapes.push({
      type: "text",
      xMm: mm(middle),
      yMm: mm(yMm + 3.4 + 2.9 * row),
      text: words,
      sizeMm: SIZE_MM,
      anchor: "middle",
      tone: "ink",
    });
  }
  return shapes;
}
