import type { DisplayUnits } from "../../core/units/format-length.ts";
import { METERS_PER_FOOT } from "../../core/units/length.ts";
import { withThousands } from "../../core/units/with-thousands.ts";

/** A bar that measures a map: so many equal parts of a round length. */
export interface ScaleBar {
  /** Length of the whole bar on paper, in CSS pixels (1/96 in). */
  readonly lengthPx: number;
  readonly divisions: number;
  /** What stands at its end, such as `400 ft`. */
  readonly label: string;
  /** One to so much, rounded to two digits: true only where the sheet is printed at its full size. */
  readonly ratio: string;
}

/** Feet from a mile on, and meters from a kilometer on, are written in the larger unit. */
const FEET_PER_MILE = 5280;
/** Inches to the pixel of CSS, by its definition. */
const CSS_PX_PER_METER = 96 / 0.0254;
/** Circumference of the web map's earth in meters, and its width in pixels at zoom 0. */
const EARTH_M = 2 * Math.PI * 6_378_137;
const WORLD_PX = 512;

/** Meters on the ground to one CSS pixel of a web map, at a latitude. */
export const metersPerPx = (latDeg: number, zoom: number): number =>
  (EARTH_M * Math.cos((latDeg * Math.PI) / 180)) / (WORLD_PX * 2 ** zoom);

/** The longest bar of a round length that fits. Throws RangeError for a scale or a room that is not positive. */
export function scaleBar(mPerPx: number, units: DisplayUnits, mostPx: number): ScaleBar {
  if (!(mPerPx > 0) || !(mostPx > 0))
    throw new RangeError(`Expected a positive scale and room, got ${mPerPx} and ${mostPx}`);
  const mostM = mPerPx * mostPx;
  const isLong = units === "us" ? mostM >= METERS_PER_FOOT * FEET_PER_MILE : mostM >= 1000;
  const [unitM, unit] =
    units === "us"
      ? isLong
        ? [METERS_PER_FOOT * FEET_PER_MILE, "mi"]
        : [METERS_PER_FOOT, "ft"]
      : isLong
        ? [1000, "km"]
        : [1, "m"];
  const [length, divisions] = roundLength(mostM / Number(unitM));
  const denominator = Number((mPerPx * CSS_PX_PER_METER).toPrecision(2));
  return {
    lengthPx: (length * Number(unitM)) / mPerPx,
    divisions,
    label: `${length < 1000 ? length : withThousands(length)} ${unit}`,
    ratio: `1:${withThousands(denominator)}`,
  };
}

/** The largest of 1, 2, 4 and 5 times a power of ten that is at most `most`, and into how many round parts it falls. */
function roundLength(most: number): readonly [length: number, divisions: number] {
  const power = 10 ** Math.floor(Math.log10(most) + 1e-9);
  const digit = [5, 4, 2, 1].find((one) => one * power <= most * (1 + 1e-9)) ?? 1;
  return [Number((digit * power).toPrecision(6)), digit === 1 || digit === 5 ? 5 : 4];
}
