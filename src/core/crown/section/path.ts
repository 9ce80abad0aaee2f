import type { Shape, Stroke, Tone } from "../drawing.ts";

export type Point = readonly [xMm: number, yMm: number];

/** Line weights of the drawings in millimeters: edges, and everything that explains them (ISO 128 uses 0.35 with 0.18). */
export const EDGE_MM = 0.35;
export const THIN_MM = 0.18;

export const EDGE: Stroke = { tone: "ink", widthMm: EDGE_MM };
export const THIN: Stroke = { tone: "ink", widthMm: THIN_MM };
export const QUIET: Stroke = { tone: "quiet", widthMm: THIN_MM };
export const DASHES: readonly number[] = [1.4, 0.8];

/** Path data through points, in hundredths of a millimeter. */
export function polyline(points: readonly Point[], closed = false): string {
  const parts = points.map(([x, y], at) => `${at === 0 ? "M" : "L"}${coordinate(x)} ${coordinate(y)}`);
  return `${parts.join("")}${closed ? "Z" : ""}`;
}

/** Share of the radius at which a cubic's handles best follow a quarter circle: 4 (sqrt 2 - 1) / 3. */
const QUARTER = (4 * (Math.SQRT2 - 1)) / 3;

/** Path data of a circle as four cubics. */
export function circle(xMm: number, yMm: number, radiusMm: number): string {
  const k = radiusMm * QUARTER;
  const r = radiusMm;
  const at = (dx: number, dy: number) => `${coordinate(xMm + dx)} ${coordinate(yMm + dy)}`;
  return (
    `M${at(r, 0)}C${at(r, k)} ${at(k, r)} ${at(0, r)}C${at(-k, r)} ${at(-r, k)} ${at(-r, 0)}` +
    `C${at(-r, -k)} ${at(-k, -r)} ${at(0, -r)}C${at(k, -r)} ${at(r, -k)} ${at(r, 0)}Z`
  );
}

export const rectangle = (leftMm: number, topMm: number, rightMm: number, bottomMm: number): string =>
  polyline(
    [
      [leftMm, topMm],
      [rightMm, topMm],
      [rightMm, bottomMm],
      [leftMm, bottomMm],
    ],
    true,
  );

export const line = (points: readonly Point[], stroke: Stroke): Shape => ({
  type: "path",
  d: polyline(points),
  fill: "none",
  stroke,
});

export const area = (d: string, fill: Tone, stroke?: Stroke): Shape =>
  stroke === undefined ? { type: "path", d, fill } : { type: "path", d, fill, stroke };

function coordinate(valueMm: number): string {
  const rounded = Math.round(valueMm * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}
