import type { Shape } from "../crown/drawing.ts";
import { area, circle, line, THIN } from "../crown/section/path.ts";
import type { Frame, XY } from "./clip.ts";

/** Radius of the disc a number stands in, and its type size, in millimeters. */
const DISC_MM = 1.75;
const TEXT_MM = 2.3;
/** Tried in this order: up right, up, up left, right, left, down right, down, down left. */
const DIRECTIONS: readonly XY[] = [
  [0.71, -0.71],
  [0, -1],
  [-0.71, -0.71],
  [1, 0],
  [-1, 0],
  [0.71, 0.71],
  [0, 1],
  [-0.71, 0.71],
];
const STEPS = 4;

/**
 * Numbers 1, 2, 3 ... in discs beside their trunks: each in the first place, nearest first, where it lies inside the frame and on no
 * other disc or trunk; where none is free, straight up right. A thin line leads to a disc that had to go farther out.
 */
export function placeNumbers(spots: readonly XY[], radiiMm: readonly number[], frame: Frame): Shape[] {
  const placed: XY[] = [];
  const isFree = ([x, y]: XY): boolean =>
    x > frame.left + DISC_MM &&
    x < frame.right - DISC_MM &&
    y > frame.top + DISC_MM &&
    y < frame.bottom - DISC_MM &&
    placed.every(([otherX, otherY]) => Math.hypot(otherX - x, otherY - y) > 2 * DISC_MM + 0.2) &&
    spots.every(([otherX, otherY]) => Math.hypot(otherX - x, otherY - y) > DISC_MM + 0.6);
  return spots.flatMap((spot, at): Shape[] => {
    const nearMm = Math.min(radiiMm[at]!, 3) + DISC_MM * 0.6;
    const place = candidates(spot, nearMm).find(isFree) ?? candidates(spot, nearMm)[0]!;
    placed.push(place);
    const [x, y] = place;
    return [
      line([spot, place], THIN),
      area(circle(x, y, DISC_MM), "paper", { tone: "ink", widthMm: 0.25 }),
      {
        type: "text",
        xMm: x,
        yMm: y + TEXT_MM * 0.33,
        text: String(at + 1),
        sizeMm: at + 1 > 99 ? TEXT_MM * 0.8 : TEXT_MM,
        anchor: "middle",
        tone: "ink",
        bold: true,
      },
    ];
  });
}

function candidates([x, y]: XY, nearMm: number): XY[] {
  const places: XY[] = [];
  for (let step = 0; step < STEPS; step += 1) {
    for (const [dx, dy] of DIRECTIONS) {
      const awayMm = nearMm + step * DISC_MM * 1.6;
      places.push([x + dx * awayMm, y + dy * awayMm]);
    }
  }
  return places;
}
