import type { DisplayUnits } from "../../core/units/format-length.ts";
import { METERS_PER_FOOT } from "../../core/units/length.ts";
import { shape } from "../element.ts";

const LONGEST_PX = 110;
const STEPS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];

/** A bar of the longest round length that fits 110 px, with its length in the reader's unit. */
export function scaleBar(pxPerM: number, units: DisplayUnits): SVGElement {
  const pxPerUnit = units === "us" ? pxPerM * METERS_PER_FOOT : pxPerM;
  const length = STEPS.findLast((step) => step * pxPerUnit <= LONGEST_PX) ?? STEPS[0]!;
  const widthPx = length * pxPerUnit;
  return shape(
    "svg",
    { width: LONGEST_PX + 16, height: 34, viewBox: `0 0 ${LONGEST_PX + 16} 34` },
    shape("text", { x: 4, y: 14 }, `${length} ${units === "us" ? "ft" : "m"}`),
    shape("path", { d: `M4 19L4 25L${4 + widthPx} 25L${4 + widthPx} 19` }),
    // North is up.
    shape("path", { d: "M118 30L118 8M118 4L113 14L123 14Z", class: "north" }),
  );
}
