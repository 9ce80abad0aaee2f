import type { ZoneState } from "../../core/model/terms.ts";
import { TOKENS } from "../tokens.ts";
import { IMAGE_RATIO } from "./paint-mark.ts";
import { type Canvas, over, pixels } from "./pixels.ts";

/**
 * A tile of the pattern that says a zone's state: sparse dots for a draft, thin diagonals when issued, crossed lines under way,
 * nothing when done. Ink only, so that it prints in black; opposite edges meet.
 */
export function paintZonePattern(state: ZoneState, ink: string): Canvas {
  const { tilePx, linePx, dotPx, opacity } = TOKENS.zonePattern;
  return pixels(tilePx, IMAGE_RATIO, (x, y, covered, color) => {
    const rising = linePx / 2 - offLinePx(x + y, tilePx);
    const falling = linePx / 2 - offLinePx(x - y, tilePx);
    switch (state) {
      case "draft":
        return over(color, ink, covered(dotPx - Math.hypot(x, y)) * opacity);
      case "issued":
        return over(color, ink, covered(rising) * opacity);
      case "under-way":
        return over(color, ink, covered(Math.max(rising, falling)) * opacity);
      case "done":
        return;
    }
  });
}

/** Distance in pixels to the nearest of the 45 degree lines on which `x + y` (or `x - y`) is a multiple of the tile's side. */
const offLinePx = (sum: number, tilePx: number): number =>
  Math.abs(sum - Math.round(sum / tilePx) * tilePx) / Math.SQRT2;
