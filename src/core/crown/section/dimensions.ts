import type { Basis } from "../../model/terms.ts";
import type { Size } from "../../model/trees.ts";
import { type DisplayUnits, formatLength } from "../../units/format-length.ts";
import { feetFromMeters } from "../../units/length.ts";
import type { Shape } from "../drawing.ts";
import type { SectionLayout } from "./layout.ts";
import { line, type Point, QUIET, THIN } from "./path.ts";
import { textWidthMm } from "./text-width.ts";

/** Half of the slanting tick at each end of a dimension line. */
const TICK_MM = 0.55;

const MARKS: Readonly<Record<Basis, string>> = { measured: "", estimated: " est.", assumed: " assumed" };

/** A size in the reader's unit, marked when it was not measured; unmeasured feet are whole, since inches would pretend. */
export function sizeText(size: Pick<Size, "valueM" | "basis">, units: DisplayUnits): string {
  const feet = Math.round(feetFromMeters(size.valueM));
  const isCoarse = units === "us" && size.basis !== "measured" && feet >= 3;
  return `${isCoarse ? `${feet} ft` : formatLength(size.valueM, units)}${MARKS[size.basis]}`;
}

/** One vertical dimension: what it measures, in words, and how high it reaches. */
export interface HeightDimension {
  readonly heightM: number;
  readonly text: string;
  /** What is written instead where the text is longer than its line. */
  readonly shortText: string;
}

/**
 * Vertical dimension lines from the ground, the first nearest to the tree, their texts turned to be read from the right. A thin line
 * leads from each to the trunk's axis and stops short of a text that stands in its way.
 */
export function heightDimensions(layout: SectionLayout, dimensions: readonly HeightDimension[]): Shape[] {
  const tops: number[] = [];
  return dimensions.flatMap(({ heightM, text: longText, shortText }, column) => {
    const { leftMm, groundMm, rowMm, textMm, toX, toY } = layout;
    const x = leftMm - 0.9 - column * rowMm;
    const y = toY(heightM);
    const text = textWidthMm(longText, textMm) < groundMm - y - 1 ? longText : shortText;
    const widthMm = textWidthMm(text, textMm);
    const startMm = widthMm < groundMm - y - 1 ? (groundMm + y) / 2 + widthMm / 2 : groundMm - 0.4;
    const isFree = tops.every((topMm) => topMm > y);
    const topMm = startMm - widthMm - 0.3;
    tops.push(topMm);
    const lead: Point[] = [
      [isFree ? x - (topMm > y ? 0.6 : 0) : leftMm - 0.3, y],
      [toX(0) - 0.6, y],
    ];
    const along: Point[] = [
      [x, groundMm],
      [x, y],
    ];
    return [
      line(lead, { ...QUIET, widthMm: 0.13 }),
      line(along, THIN),
      tick(x, groundMm),
      tick(x, y),
      {
        type: "text",
        xMm: x - 0.55,
        yMm: startMm,
        text,
        sizeMm: textMm,
        anchor: "start",
        tone: "ink",
        rotateDeg: -90,
      } as const,
    ];
  });
}

/** A horizontal dimension line below the ground, `row` 0 nearest to it; the text stands on the line, or beside it where the line is too short. */
export function widthDimension(layout: SectionLayout, row: number, fromM: number, toM: number, text: string): Shape[] {
  const { toX, textMm } = layout;
  const y = rowLineMm(layout, row);
  const left = toX(fromM);
  const right = toX(toM);
  const fits = textWidthMm(text, textMm) <= right - left - 0.8;
  return [
    line(
      [
        [left, y],
        [right, y],
      ],
      THIN,
    ),
    tick(left, y),
    tick(right, y),
    {
      type: "text",
      xMm: fits ? (left + right) / 2 : right + 1,
      yMm: fits ? y - 0.5 : y + textMm * 0.33,
      text,
      sizeMm: textMm,
      anchor: fits ? "middle" : "start",
      tone: "ink",
    },
  ];
}

/** Where the dimension line of a row below the ground lies. */
export const rowLineMm = (layout: SectionLayout, row: number): number =>
  layout.groundMm + 1.6 + (row + 1) * layout.rowMm + 0.2;

/** Whether a text fits above a horizontal dimension. */
export const fitsAlong = (layout: SectionLayout, fromM: number, toM: number, text: string): boolean =>
  textWidthMm(text, layout.textMm) <= (toM - fromM) * layout.mmPerM - 0.8;

const tick = (xMm: number, yMm: number): Shape =>
  line(
    [
      [xMm - TICK_MM, yMm + TICK_MM],
      [xMm + TICK_MM, yMm - TICK_MM],
    ],
    { tone: "ink", widthMm: 0.25 },
  );
