import type { Shape, Stroke } from "../drawing.ts";
import { area, EDGE, line, type Point, QUIET } from "../section/path.ts";

/** A piece of wood: its outline as path data, kept or coming off. */
export const kept = (d: string): Shape => area(d, "ground", EDGE);
/** Leaves that stay. */
export const keptLeaves = (d: string): Shape => area(d, "crown", EDGE);
export const comingOff = (d: string): Shape => ({ type: "path", d, fill: "removed", hatched: true, stroke: EDGE });

/** The bark ridge: a row of short strokes across a line, as the raised bark looks from the side. */
export function barkRidge(from: Point, to: Point): Shape[] {
  const stroke: Stroke = { tone: "ink", widthMm: 0.45 };
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const count = Math.max(3, Math.round(length / 1.1));
  const shapes: Shape[] = [line([from, to], { tone: "ink", widthMm: 0.6 })];
  for (let at = 1; at <= count; at += 1) {
    const x = from[0] + (ux * length * at) / (count + 1);
    const y = from[1] + (uy * length * at) / (count + 1);
    const arm = at % 2 === 0 ? 1 : 0.7;
    shapes.push(
      line(
        [
          [x - uy * arm, y + ux * arm],
          [x + uy * arm, y - ux * arm],
        ],
        stroke,
      ),
    );
  }
  return shapes;
}

/** Grain of the bark: quiet strokes, each from a point along a direction. */
export const grain = (strokes: readonly (readonly [Point, Point])[]): Shape[] =>
  strokes.map((points) => line(points, QUIET));
