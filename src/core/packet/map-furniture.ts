import type { Shape } from "../crown/drawing.ts";
import { area, line, polyline, rectangle, THIN } from "../crown/section/path.ts";
import { METERS_PER_FOOT } from "../units/length.ts";
import type { Frame } from "./clip.ts";

const TEXT_MM = 2.3;
const LONGEST_BAR_MM = 45;
const STEPS = [1, 2, 5];

/** Scale bar in the lower left corner and north arrow in the upper right, each on paper of its own. */
export function mapFurniture(frame: Frame, mmPerM: number, units: "us" | "metric"): Shape[] {
  return [...scaleBar(frame, mmPerM, units), ...northArrow(frame)];
}

/** The longest round length (1, 2 or 5 times a power of ten, in the reader's unit) that the bar has room for. */
export function barLength(
  mmPerM: number,
  units: "us" | "metric",
): { readonly count: number; readonly lengthMm: number } {
  const mmPerUnit = units === "us" ? mmPerM * METERS_PER_FOOT : mmPerM;
  const longest = LONGEST_BAR_MM / mmPerUnit;
  const power = 10 ** Math.floor(Math.log10(longest));
  const count = power * (STEPS.findLast((step) => step * power <= longest) ?? 1);
  return { count, lengthMm: count * mmPerUnit };
}

function scaleBar(frame: Frame, mmPerM: number, units: "us" | "metric"): Shape[] {
  const { count, lengthMm } = barLength(mmPerM, units);
  const x = frame.left + 4;
  const y = frame.bottom - 3;
  const label = (xMm: number, text: string, anchor: "middle" | "start"): Shape => ({
    type: "text",
    xMm,
    yMm: y - 1.9,
    text,
    sizeMm: TEXT_MM,
    anchor,
    tone: "ink",
  });
  return [
    area(rectangle(x - 2.5, y - 5, x + lengthMm + 8, y + 1.6), "paper"),
    area(rectangle(x, y - 1.1, x + lengthMm / 2, y), "ink", THIN),
    area(rectangle(x + lengthMm / 2, y - 1.1, x + lengthMm, y), "paper", THIN),
    label(x, "0", "middle"),
    label(x + lengthMm, `${count} ${units === "us" ? "ft" : "m"}`, "middle"),
  ];
}

function northArrow(frame: Frame): Shape[] {
  const x = frame.right - 5.5;
  const top = frame.top + 5.2;
  return [
    area(rectangle(x - 3.2, frame.top + 1.4, x + 3.2, top + 8.4), "paper"),
    { type: "text", xMm: x, yMm: top - 0.7, text: "N", sizeMm: 2.8, anchor: "middle", tone: "ink", bold: true },
    line(
      [
        [x, top],
        [x, top + 7.6],
      ],
      THIN,
    ),
    area(
      polyline(
        [
          [x, top],
          [x - 1.5, top + 4.6],
          [x, top + 3.8],
        ],
        true,
      ),
      "ink",
    ),
    area(
      polyline(
        [
          [x, top],
          [x + 1.5, top + 4.6],
          [x, top + 3.8],
        ],
        true,
      ),
      "paper",
      THIN,
    ),
  ];
}
