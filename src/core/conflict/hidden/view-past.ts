import { nearestShare } from "../../plane/segments.ts";
import { type CrownSize, widestBetween } from "../crown-size.ts";
import type { SightLine } from "./sight-scan.ts";

/** Heights above ground between which a line must be free, at the vehicle's end (share 0) and at the other (share 1). */
export interface SightBand {
  readonly nearLowM: number;
  readonly nearHighM: number;
  readonly farLowM: number;
  readonly farHighM: number;
}

/** Thinnest solid that is reckoned with, meters of radius. */
const LEAST_RADIUS_M = 0.02;
/** Steps of the golden section: shares of a line to 1e-6. */
const GOLDEN_STEPS = 30;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** A line has no height; the band about it is this thick, meters, so that it meets flat surfaces. */
const LINE_M = 1e-6;

/**
 * A solid about a trunk as lines of sight pass it: a crown, or a trunk as a column. How near a line comes is told in shares of the radius:
 * the share at which a point stands in the crown's outline, less the share that is leafy at the height of the line there. Below 0 the line goes
 * through. Both are convex along a line, since every habit bulges outward, so its least value is found and not missed.
 */
export class ViewPast {
  readonly #size: CrownSize;
  readonly #band: SightBand;
  /** Shares of a line between which its band is at the height of the solid; none when empty. */
  readonly #from: number;
  readonly #to: number;
  readonly #isLevel: boolean;
  /** Greatest leafy share along the line. */
  readonly #widest: number;
  /** What a meter's move of a line's vehicle end changes at most, in shares of the radius. */
  readonly sharesPerM: number;

  constructor(size: CrownSize, band: SightBand, movesWhole: boolean) {
    this.#size = {
      ...size,
      northM: Math.max(size.northM, LEAST_RADIUS_M),
      eastM: Math.max(size.eastM, LEAST_RADIUS_M),
      southM: Math.max(size.southM, LEAST_RADIUS_M),
      westM: Math.max(size.westM, LEAST_RADIUS_M),
    };
    this.#band = band;
    const above = sharesWhere(band.nearHighM - size.baseM, band.farHighM - size.baseM);
    const below = sharesWhere(size.heightM - band.nearLowM, size.heightM - band.farLowM);
    this.#from = Math.max(above[0], below[0]);
    this.#to = Math.min(above[1], below[1]);
    this.#isLevel = size.habit === "column" || (band.nearLowM === band.farLowM && band.nearHighM === band.farHighM);
    this.#widest =
      this.#from <= this.#to
        ? widestBetween(
            size,
            Math.min(band.nearLowM, band.farLowM) - LINE_M,
            Math.max(band.nearHighM, band.farHighM) + LINE_M,
          )
        : -1;
    const { northM, eastM, southM, westM } = this.#size;
    this.sharesPerM = (movesWhole ? 1 : 1 - this.#from) / Math.min(northM, eastM, southM, westM);
  }

  /** Whether no line can meet it, whatever its place. */
  get isNever(): boolean {
    return !(this.#from <= this.#to) || this.#widest <= 0;
  }

  /**
   * How far a line stays clear of the solid, in shares of its radius; 0 or less when it meets it. Clear lines may be told to be nearer than they
   * are, never farther. Coordinates are relative to the trunk.
   */
  clearShare(line: SightLine): number {
    const out = this.#nearest(line);
    if (this.#isLevel || out > this.#widest) return out - this.#widest;
    let low = this.#from;
    let high = this.#to;
    let left = high - GOLDEN * (high - low);
    let right = low + GOLDEN * (high - low);
    let atLeft = this.#clearAt(line, left);
    let atRight = this.#clearAt(line, right);
    let least = Math.min(this.#clearAt(line, low), this.#clearAt(line, high), atLeft, atRight);
    for (let step = 0; step < GOLDEN_STEPS && least > 0; step += 1) {
      if (atLeft <= atRight) {
        high = right;
        right = left;
        atRight = atLeft;
        left = high - GOLDEN * (high - low);
        atLeft = this.#clearAt(line, left);
        least = Math.min(least, atLeft);
      } else {
        low = left;
        left = right;
        atLeft = atRight;
        right = low + GOLDEN * (high - low);
        atRight = this.#clearAt(line, right);
        least = Math.min(least, atRight);
      }
    }
    return least;
  }

  /** Share of the line, from the vehicle, at which it first (`-1`: last) meets the solid; NaN when it does not. By halving, to 1e-4. */
  meetsAt(line: SightLine, isFromOtherEnd: boolean): number {
    let inside = Number.NaN;
    const steps = 64;
    for (let step = 0; step <= steps; step += 1) {
      const along = this.#from + ((this.#to - this.#from) * (isFromOtherEnd ? steps - step : step)) / steps;
      if (this.#clearAt(line, along) > 0) continue;
      inside = along;
      break;
    }
    return inside;
  }

  #clearAt({ ax, ay, bx, by }: SightLine, share: number): number {
    const { nearLowM, nearHighM, farLowM, farHighM } = this.#band;
    const lowM = nearLowM + share * (farLowM - nearLowM);
    const highM = nearHighM + share * (farHighM - nearHighM);
    const leafy = widestBetween(this.#size, lowM - LINE_M, highM + LINE_M);
    return this.#shareAt(ax + share * (bx - ax), ay + share * (by - ay)) - leafy;
  }

  #shareAt(x: number, y: number): number {
    const { northM, eastM, southM, westM } = this.#size;
    return Math.hypot(x / (x >= 0 ? eastM : westM), y / (y >= 0 ? northM : southM));
  }

  /** Least share of the radius along the line where its band is at the solid's height; the line is cut at the axes, each piece lies in one quadrant. */
  #nearest({ ax, ay, bx, by }: SightLine): number {
    const dx = bx - ax;
    const dy = by - ay;
    const atX = dx === 0 ? 2 : -ax / dx;
    const atY = dy === 0 ? 2 : -ay / dy;
    const first = Math.min(atX, atY);
    const second = Math.max(atX, atY);
    let least = Number.POSITIVE_INFINITY;
    let from = this.#from;
    for (let cut = 0; cut < 3; cut += 1) {
      const to = Math.min(this.#to, cut === 0 ? first : cut === 1 ? second : 2);
      if (to < from) continue;
      const middle = (from + to) / 2;
      const radiusX = ax + middle * dx >= 0 ? this.#size.eastM : this.#size.westM;
      const radiusY = ay + middle * dy >= 0 ? this.#size.northM : this.#size.southM;
      const fx = (ax + from * dx) / radiusX;
      const fy = (ay + from * dy) / radiusY;
      const tx = (ax + to * dx) / radiusX;
      const ty = (ay + to * dy) / radiusY;
      const share = nearestShare(0, 0, fx, fy, tx, ty);
      least = Math.min(least, Math.hypot(fx + share * (tx - fx), fy + share * (ty - fy)));
      from = to;
    }
    return least;
  }
}

/** Shares from 0 to 1 at which a value that runs evenly from one end to the other is 0 or more; an empty interval when it nowhere is. */
function sharesWhere(atStart: number, atEnd: number): readonly [number, number] {
  if (atStart >= 0 && atEnd >= 0) return [0, 1];
  if (atStart < 0 && atEnd < 0) return [1, 0];
  const zero = atStart / (atStart - atEnd);
  return atStart >= 0 ? [0, zero] : [zero, 1];
}
