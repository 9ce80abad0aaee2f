import { parseDecimal } from "./parse-length.ts";

const POINTS = ["n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"];
const POINT_DEG = 22.5;
const MAX_TEXT = 64;

/**
 * An angle in degrees from a number or a text such as `12`, `12.5°` or `12 deg`; null when it is not one.
 */
export function parseAngleDeg(value: unknown): number | null {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  if (typeof value !== "string" || value.length > MAX_TEXT) return null;
  return parseDecimal(
    value
      .trim()
      .toLowerCase()
      .replace(/\s*(°|degrees|degree|deg\.?)$/, ""),
  );
}

/**
 * A bearing in degrees clockwise from north, 0 up to 360, from degrees or one of the sixteen compass points (`NE`, `north-east`, `S by` is none);
 * null when it is neither.
 *
 * @example parseBearingDeg("South West") // 225
 */
export function parseBearingDeg(value: unknown): number | null {
  const degrees = parseAngleDeg(value);
  if (degrees !== null) return ((degrees % 360) + 360) % 360;
  if (typeof value !== "string" || value.length > MAX_TEXT) return null;
  const letters = value
    .toLowerCase()
    .replaceAll(/north/g, "n")
    .replaceAll(/south/g, "s")
    .replaceAll(/east/g, "e")
    .replaceAll(/west/g, "w")
    .replaceAll(/[\s._-]|ern$|ward$|wards$/g, "");
  const point = POINTS.indexOf(letters);
  return point >= 0 ? point * POINT_DEG : null;
}
