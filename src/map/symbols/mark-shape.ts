import { type Remedy, unreachable } from "../../core/model/terms.ts";

/** A point in CSS pixels from the middle of a symbol, x to the right and y downward. */
export type Px = readonly [x: number, y: number];
export type Ring = readonly Px[];

/** The picture of a remedy: one outer ring, to the outside of the ink outline, and the parts left open in it. */
export interface MarkShape {
  readonly outer: Ring;
  readonly cuts: readonly Ring[];
  /** Whether the picture is drawn for a bearing of 0 (up) and turned to the conflict's. */
  readonly turns: boolean;
}

const RADIUS_PX = 7;
const DEG = Math.PI / 180;

/** Shape of the mark for a remedy; the tone says how soon, the outline how sure. */
export function markShape(remedy: Remedy): MarkShape {
  switch (remedy) {
    case "lift":
      return { outer: raisedCap(), cuts: [], turns: false };
    case "shorten":
      return { outer: flatDisc(3.1), cuts: [], turns: true };
    case "remove-limb":
      return { outer: notchedDisc(29, 0.6), cuts: [], turns: true };
    case "remedial":
      return { outer: disc(RADIUS_PX), cuts: [disc(2.1)], turns: false };
    case "structural":
      return { outer: disc(RADIUS_PX), cuts: [bar(1.3, 3.9)], turns: false };
    case "refer":
      return { outer: lozenge(8.6), cuts: [bar(3.6, 1.15)], turns: false };
    case "none":
      return { outer: disc(4.2), cuts: [disc(1.5)], turns: false };
    default:
      return unreachable(remedy);
  }
}

/** Shapes of the small surrounding things: a sign's octagon, a signal's three lamps, a conductor's pole. */
export const SURROUNDING_SHAPES: Readonly<Record<"sign" | "signal" | "pole", MarkShape>> = {
  sign: { outer: arc(0, 0, 4.4, 4.4, 22.5, 382.5, 8).slice(0, 8), cuts: [], turns: false },
  signal: {
    outer: box(2.6, 5.4),
    cuts: [disc(0.9, 0, -3), disc(0.9), disc(0.9, 0, 3)],
    turns: false,
  },
  pole: { outer: crossarm(2, 5.5, 0.6), cuts: [], turns: true },
};

/** A whole disc: what tones and certainties are shown on where no remedy is meant. */
export const PLAIN_DISC: MarkShape = { outer: disc(RADIUS_PX), cuts: [], turns: false };

function disc(radiusPx: number, x = 0, y = 0): Ring {
  return arc(x, y, radiusPx, radiusPx, 0, 360, 40).slice(0, 40);
}

/** A disc with its top cut off flat, `abovePx` above the middle. */
function flatDisc(abovePx: number): Ring {
  const halfDeg = Math.acos(abovePx / RADIUS_PX) / DEG;
  return arc(0, 0, RADIUS_PX, RADIUS_PX, halfDeg, 360 - halfDeg, 36);
}

/** A disc with a wedge cut from its top down to `depthPx` above the middle. */
function notchedDisc(halfDeg: number, depthPx: number): Ring {
  return [...arc(0, 0, RADIUS_PX, RADIUS_PX, halfDeg, 360 - halfDeg, 36), [0, -depthPx]];
}

/** A crown with a flat underside, lifted on a bare stem. */
function raisedCap(): Ring {
  const under = 1.4;
  return [...arc(0, under, 7.6, 8.8, -90, 90, 28), [1.7, under], [1.7, 7.6], [-1.7, 7.6], [-1.7, under]];
}

/** A disc with a thin bar across it to both sides: a pole with its crossarm, for wires that run up and down the picture. */
function crossarm(radiusPx: number, reachPx: number, halfHeightPx: number): Ring {
  const gapDeg = Math.asin(halfHeightPx / radiusPx) / DEG;
  return [
    ...arc(0, 0, radiusPx, radiusPx, -90 + gapDeg, 90 - gapDeg, 16),
    [reachPx, -halfHeightPx],
    [reachPx, halfHeightPx],
    ...arc(0, 0, radiusPx, radiusPx, 90 + gapDeg, 270 - gapDeg, 16),
    [-reachPx, halfHeightPx],
    [-reachPx, -halfHeightPx],
  ];
}

function lozenge(reachPx: number): Ring {
  return [
    [0, -reachPx],
    [reachPx, 0],
    [0, reachPx],
    [-reachPx, 0],
  ];
}

function bar(halfWidthPx: number, halfHeightPx: number): Ring {
  return box(halfWidthPx, halfHeightPx);
}

function box(halfWidthPx: number, halfHeightPx: number): Ring {
  return [
    [-halfWidthPx, -halfHeightPx],
    [halfWidthPx, -halfHeightPx],
    [halfWidthPx, halfHeightPx],
    [-halfWidthPx, halfHeightPx],
  ];
}

/** Points of an ellipse from one bearing to another, clockwise from up, both ends included. */
function arc(x: number, y: number, rx: number, ry: number, fromDeg: number, toDeg: number, steps: number): Px[] {
  const points: Px[] = [];
  for (let step = 0; step <= steps; step += 1) {
    const angle = (fromDeg + ((toDeg - fromDeg) * step) / steps) * DEG;
    points.push([x + rx * Math.sin(angle), y - ry * Math.cos(angle)]);
  }
  return points;
}
