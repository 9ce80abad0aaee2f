import { sharesWithin } from "../crown/wire/gap-to-wire.ts";
import { spanOf, stillWire, type WirePoint, wirePointInto } from "../crown/wire/swept-wire.ts";
import { readWireInto, WIRE_STRIDE } from "../crown/wire/wire-columns.ts";
import { Neighborhood } from "../plane/neighborhood.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import { footOf, type TrunkPlace } from "./gap-to-span.ts";

/** Distance in meters between the corners of a swung wire in plan; its curve leaves the chord by less than a centimeter. */
const STEP_M = 1;

/** What the wires of some spans sweep near a tree: lines in plan relative to the trunk, and their least height above its foot. */
export interface SweptOutline {
  readonly line: Neighborhood;
  readonly lowM: number;
}

/** The lines at rest and at both ends of the swing in every load case, as far as they come within `reachM` of the trunk in plan. */
export function sweptOutline(shapes: PlaneShapes, spans: readonly number[], trunk: TrunkPlace): SweptOutline {
  const wire = stillWire(0, 0, 0, 0, 0, 0, 0);
  const at: WirePoint = { xM: 0, yM: 0, zM: 0 };
  const segments: number[] = [];
  let lowM = Number.POSITIVE_INFINITY;
  for (const span of spans) {
    const footM = footOf(shapes, span, trunk);
    for (let place = shapes.spanWire[span]!; place < shapes.spanWire[span + 1]!; place += 1) {
      readWireInto(wire, shapes.wires, place * WIRE_STRIDE);
      const [from, to] = sharesWithin(wire, trunk.xM, trunk.yM, trunk.reachM);
      // Wires at rest hang over one line.
      if (place === shapes.spanWire[span])
        segments.push(wire.ax - trunk.xM, wire.ay - trunk.yM, wire.bx - trunk.xM, wire.by - trunk.yM);
      if (from > to) continue;
      const steps = Math.max(2, Math.ceil(((to - from) * spanOf(wire)) / STEP_M));
      for (const angleRad of wire.swingRad > 0 ? [0, -wire.swingRad, wire.swingRad] : [0]) {
        let beforeX = 0;
        let beforeY = 0;
        for (let step = 0; step <= steps; step += 1) {
          wirePointInto(at, wire, from + ((to - from) * step) / steps, angleRad);
          const xM = at.xM - trunk.xM;
          const yM = at.yM - trunk.yM;
          if (Math.hypot(xM, yM) <= trunk.reachM + STEP_M) lowM = Math.min(lowM, at.zM - footM);
          if (angleRad !== 0 && step > 0) segments.push(beforeX, beforeY, xM, yM);
          beforeX = xM;
          beforeY = yM;
        }
      }
    }
  }
  const line = new Neighborhood();
  line.segments = Float64Array.from(segments);
  line.segmentCount = segments.length / 4;
  return { line, lowM };
}
