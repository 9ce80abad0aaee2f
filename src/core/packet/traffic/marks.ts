import type { Shape } from "../../crown/drawing.ts";

const mm = (value: number): number => Math.round(value * 100) / 100;

/** A disc as four curves; 0.5523 makes each a quarter circle to 0.03 %. */
function disc(x: number, y: number, radiusMm: number): string {
  const k = 0.5523 * radiusMm;
  const [l, r, t, b] = [x - radiusMm, x + radiusMm, y - radiusMm, y + radiusMm];
  return (
    `M ${mm(l)} ${mm(y)} C ${mm(l)} ${mm(y - k)} ${mm(x - k)} ${mm(t)} ${mm(x)} ${mm(t)} ` +
    `C ${mm(x + k)} ${mm(t)} ${mm(r)} ${mm(y - k)} ${mm(r)} ${mm(y)} C ${mm(r)} ${mm(y + k)} ${mm(x + k)} ${mm(b)} ${mm(x)} ${mm(b)} ` +
    `C ${mm(x - k)} ${mm(b)} ${mm(l)} ${mm(y + k)} ${mm(l)} ${mm(y)} Z`
  );
}

/** Devices evenly along a line, one at each end. */
export function coneMarks(at: (share: number) => readonly [xMm: number, yMm: number], devices: number): Shape[] {
  return Array.from({ length: devices }, (_, index): Shape => {
    const [x, y] = at(devices === 1 ? 0 : index / (devices - 1));
    return { type: "path", d: disc(x, y, 0.65), fill: "ink", stroke: { tone: "paper", widthMm: 0.2 } };
  });
}

const letterAt = (x: number, y: number, text: string): Shape => ({
  type: "text",
  xMm: mm(x),
  yMm: mm(y + 0.85),
  text,
  sizeMm: 2.4,
  anchor: "middle",
  tone: "ink",
  bold: true,
});

/** A flagger: a circle with an F. */
export const flaggerMark = (x: number, y: number): Shape[] => [
  { type: "path", d: disc(x, y, 1.8), fill: "paper", stroke: { tone: "ink", widthMm: 0.35 } },
  letterAt(x, y, "F"),
];

/** An advance sign: a square on its corner with its letter. */
export const signMark = (x: number, y: number, letter: string): Shape[] => [
  {
    type: "path",
    d: `M ${mm(x)} ${mm(y - 2.4)} L ${mm(x + 2.4)} ${mm(y)} L ${mm(x)} ${mm(y + 2.4)} L ${mm(x - 2.4)} ${mm(y)} Z`,
    fill: "paper",
    stroke: { tone: "ink", widthMm: 0.35 },
  },
  letterAt(x, y, letter),
];

/** An arrow along a lane, 7 mm long. */
export function trafficArrow(x: number, y: number, isRightward: boolean): Shape[] {
  const [tail, head] = isRightward ? [x, x + 7] : [x + 7, x];
  const back = isRightward ? head - 2 : head + 2;
  return [
    {
      type: "path",
      d: `M ${mm(tail)} ${mm(y)} L ${mm(back)} ${mm(y)}`,
      fill: "none",
      stroke: { tone: "ink", widthMm: 0.35 },
    },
    { type: "path", d: `M ${mm(head)} ${mm(y)} L ${mm(back)} ${mm(y - 1)} L ${mm(back)} ${mm(y + 1)} Z`, fill: "ink" },
  ];
}

/** A barrier across a closed walk: a thick bar. */
export const barrierMark = (x: number, fromMm: number, toMm: number): Shape => ({
  type: "path",
  d: `M ${mm(x)} ${mm(fromMm)} L ${mm(x)} ${mm(toMm)}`,
  fill: "none",
  stroke: { tone: "ink", widthMm: 1.1 },
});
