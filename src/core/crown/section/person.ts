import type { Shape } from "../drawing.ts";
import { area, circle, type Point, polyline } from "./path.ts";

/** Height of the person that every section shows for scale. */
export const PERSON_M = 1.75;

/** Half a standing figure, from the neck down its right side, as shares of the height: sideways, and up from the ground. */
const RIGHT_SIDE: readonly Point[] = [
  [0.025, 0.865],
  [0.05, 0.845],
  [0.12, 0.82],
  [0.135, 0.76],
  [0.14, 0.5],
  [0.115, 0.47],
  [0.1, 0.5],
  [0.09, 0.68],
  [0.085, 0.5],
  [0.085, 0.25],
  [0.075, 0.02],
  [0.1, 0],
  [0.02, 0],
  [0.012, 0.44],
];

/** A standing person of 1.75 m with their feet at a point of the paper. */
export function person(xMm: number, groundMm: number, mmPerM: number): Shape[] {
  const size = PERSON_M * mmPerM;
  const place = (side: 1 | -1): Point[] => RIGHT_SIDE.map(([dx, up]) => [xMm + side * dx * size, groundMm - up * size]);
  const body = [...place(1), ...place(-1).reverse()];
  return [area(polyline(body, true), "quiet"), area(circle(xMm, groundMm - 0.935 * size, 0.065 * size), "quiet")];
}
