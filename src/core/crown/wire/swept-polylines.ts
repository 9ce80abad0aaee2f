import { type SweptWire, spanOf, type WirePoint, wirePointInto } from "./swept-wire.ts";

/** Lines along the wire at even angles from one side to the other, x, y, z of each point in a row; one line for a wire at rest. */
export type SweptPolylines = readonly Float64Array[];

/**
 * The places of a wire as lines: for maps, sections, and checks by brute force. Lines and points are no farther apart than `stepM`, so that no
 * place of the wire is farther than 0.71 of it from a point; at least three lines for a wire that swings. Throws RangeError for a step of 0.
 */
export function sweptPolylines(wire: SweptWire, stepM: number): SweptPolylines {
  if (!(stepM > 0)) throw new RangeError(`Expected a step above 0 m, got ${stepM}`);
  const deepestM = Math.max(wire.stillSagM, wire.swungSagM);
  const longestM = Math.hypot(spanOf(wire), wire.bz - wire.az) + STEEPEST * deepestM;
  const shares = Math.max(1, Math.ceil(longestM / stepM));
  const arcM = wire.swingRad * (wire.stringM + deepestM) + Math.abs(wire.swungSagM - wire.stillSagM);
  const half = wire.swingRad > 0 ? Math.max(1, Math.ceil(arcM / stepM)) : 0;
  const at: WirePoint = { xM: 0, yM: 0, zM: 0 };
  const lines: Float64Array[] = [];
  for (let turn = -half; turn <= half; turn += 1) {
    const angleRad = half === 0 ? 0 : (wire.swingRad * turn) / half;
    const line = new Float64Array(3 * (shares + 1));
    for (let step = 0; step <= shares; step += 1) {
      wirePointInto(at, wire, step / shares, angleRad);
      line[3 * step] = at.xM;
      line[3 * step + 1] = at.yM;
      line[3 * step + 2] = at.zM;
    }
    lines.push(line);
  }
  return lines;
}

/** Slope of the drop at a wire's end over its sag and span: 4 for a parabola, less than 5 for a catenary up to a sag of a third of the span. */
export const STEEPEST = 5;
