import type { Certainty } from "../../core/model/terms.ts";
import { TOKENS } from "../tokens.ts";
import type { MarkShape } from "./mark-shape.ts";
import { type Canvas, mixed, over, pixels } from "./pixels.ts";
import { ringLengthPx, signedDistance } from "./signed-distance.ts";

/** Side in CSS pixels of every mark's image: the largest shape, its casing and a clear margin. */
export const MARK_BOX_PX = 22;
/** Image pixels in a CSS pixel. Two serve plain and dense screens alike: the renderer halves them cleanly on a plain one. */
export const IMAGE_RATIO = 2;

export interface MarkPaint {
  readonly tone: string;
  readonly ink: string;
  readonly ground: string;
  readonly certainty: Certainty;
}

/**
 * The picture of a mark as RGBA pixels, its edges smoothed from exact signed distances: casing in the ground's tone, ink outline
 * (below `confirmed` broken into dashes by a paler shade of the tone, so that
 * the shape keeps its edge), the urgency's tone (a wide ring around a hollow for `possible`), open parts in the ground's tone.
 *
 * The pictures carry their colors, instead of one distance field tinted by the renderer, because a mark needs three colors in
 * one layer: in layers stacked by color the marks of close trees would run into each other.
 */
export function paintMark(shape: MarkShape, paint: MarkPaint, field: MarkField = markField(shape)): Canvas {
  const { outlinePx, casingPx, cutRimPx, hollowRingPx, dashPx, dashOnShare, dashGapMix } = TOKENS.mark;
  const lengthPx = ringLengthPx(shape.outer);
  const periodPx = lengthPx / Math.max(3, Math.round(lengthPx / dashPx));
  const isHollow = paint.certainty === "possible";
  const isBroken = paint.certainty !== "confirmed";
  const gapTone = mixed(paint.tone, paint.ground, dashGapMix);
  return pixels(MARK_BOX_PX, IMAGE_RATIO, (_x, _y, covered, color, place) => {
    const distancePx = field.distancePx[place]!;
    if (distancePx < -casingPx - 1) return;
    const cutPx = field.cutPx[place]!;
    const dash = isBroken ? covered(dashEdgePx(field.alongPx[place]!, periodPx, dashOnShare)) : 1;
    over(color, paint.ground, covered(distancePx + casingPx));
    if (isBroken) over(color, gapTone, covered(distancePx));
    over(color, paint.ink, covered(distancePx) * dash);
    over(color, paint.tone, covered(distancePx - outlinePx));
    if (isHollow) over(color, paint.ground, covered(distancePx - outlinePx - hollowRingPx));
    over(color, paint.ink, covered(cutPx + cutRimPx) * (isHollow ? 0 : 1));
    over(color, isHollow ? paint.ink : paint.ground, covered(cutPx));
  });
}

/** Signed distances of a shape at every pixel of its image: to its outline, along it, and to the nearest part left open. */
export interface MarkField {
  readonly distancePx: Float32Array;
  readonly alongPx: Float32Array;
  readonly cutPx: Float32Array;
}

/** The field of a shape; the same for every tone, so worth making once. */
export function markField(shape: MarkShape): MarkField {
  const side = MARK_BOX_PX * IMAGE_RATIO;
  const field = {
    distancePx: new Float32Array(side * side),
    alongPx: new Float32Array(side * side),
    cutPx: new Float32Array(side * side).fill(Number.NEGATIVE_INFINITY),
  };
  for (let place = 0; place < side * side; place += 1) {
    const x = ((place % side) + 0.5) / IMAGE_RATIO - MARK_BOX_PX / 2;
    const y = (Math.floor(place / side) + 0.5) / IMAGE_RATIO - MARK_BOX_PX / 2;
    const { distancePx, alongPx } = signedDistance(shape.outer, x, y);
    field.distancePx[place] = distancePx;
    field.alongPx[place] = alongPx;
    for (const cut of shape.cuts)
      field.cutPx[place] = Math.max(field.cutPx[place]!, signedDistance(cut, x, y).distancePx);
  }
  return field;
}

/** A ring of ink around the open ground: the mark of a clear tree, and every other quiet sign. */
export function paintQuiet(shape: MarkShape, ink: string, ground: string): Canvas {
  return pixels(MARK_BOX_PX, IMAGE_RATIO, (x, y, covered, color) => {
    const { distancePx } = signedDistance(shape.outer, x, y);
    over(color, ground, covered(distancePx + TOKENS.mark.casingPx));
    over(color, ink, covered(distancePx));
    for (const cut of shape.cuts) over(color, ground, covered(signedDistance(cut, x, y).distancePx));
  });
}

/** Distance in pixels to the nearest end of a dash, positive inside it; dashes are centered on whole periods. */
function dashEdgePx(alongPx: number, periodPx: number, onShare: number): number {
  const fromMiddlePx = Math.abs(alongPx - Math.round(alongPx / periodPx) * periodPx);
  return (periodPx * onShare) / 2 - fromMiddlePx;
}
