import { toPlaneInto } from "../../plane/plane.ts";
import type { LinesOfSight } from "../../surroundings/sight/lines-of-sight.ts";

/** Both ends of one line of sight in a plane, meters. */
export interface SightLine {
  ax: number;
  ay: number;
  bx: number;
  by: number;
}

/** The lines of sight of an area in the coordinates of one plane; `a` is the end that moves along the lane, `b` the other. */
export class SightScan {
  readonly #xy: Float64Array;
  /** Length along the lane up to each of its points. */
  readonly #doneM: Float64Array;
  readonly #fixed = new Float64Array(2);

  constructor(
    readonly lines: LinesOfSight,
    plane: number,
  ) {
    const { lane, fixed } = lines;
    this.#xy = new Float64Array(2 * lane.length);
    this.#doneM = new Float64Array(lane.length);
    lane.forEach(([lonDeg, latDeg], at) => {
      toPlaneInto(this.#xy, 2 * at, plane, lonDeg, latDeg);
      if (at === 0) return;
      const stepM = Math.hypot(
        this.#xy[2 * at]! - this.#xy[2 * at - 2]!,
        this.#xy[2 * at + 1]! - this.#xy[2 * at - 1]!,
      );
      this.#doneM[at] = this.#doneM[at - 1]! + stepM;
    });
    if (fixed !== null) toPlaneInto(this.#fixed, 0, plane, fixed[0], fixed[1]);
  }

  /** Whether the other end moves too. */
  get movesWhole(): boolean {
    return this.lines.fixed === null;
  }

  /** Writes the line of the vehicle `alongM` meters along the lane. */
  lineInto(into: SightLine, alongM: number): void {
    const at = this.#pieceAt(alongM);
    into.ax = this.#at(at, alongM, 0);
    into.ay = this.#at(at, alongM, 1);
    if (this.lines.fixed !== null) {
      into.bx = this.#fixed[0]!;
      into.by = this.#fixed[1]!;
      return;
    }
    const aheadM = alongM + this.lines.aheadM;
    const ahead = this.#pieceAt(aheadM);
    into.bx = this.#at(ahead, aheadM, 0);
    into.by = this.#at(ahead, aheadM, 1);
  }

  /** Lengths along the lane, ascending from 0 to `lengthM`, between which both ends run straight. */
  breaksM(): number[] {
    const { lengthM, aheadM, fixed } = this.lines;
    const inside = [...this.#doneM];
    if (fixed === null) inside.push(...[...this.#doneM].map((doneM) => doneM - aheadM));
    const breaks = [0, ...inside.filter((doneM) => doneM > 0 && doneM < lengthM), lengthM];
    return breaks.sort((one, other) => one - other);
  }

  /** The piece of the lane that holds a length; the last one goes on past its end. */
  #pieceAt(alongM: number): number {
    let low = 0;
    let high = this.#doneM.length - 2;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#doneM[middle]! <= alongM) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  #at(piece: number, alongM: number, axis: 0 | 1): number {
    const from = this.#doneM[piece]!;
    const lengthM = this.#doneM[piece + 1]! - from;
    const share = lengthM > 0 ? (alongM - from) / lengthM : 0;
    const start = this.#xy[2 * piece + axis]!;
    return start + share * (this.#xy[2 * piece + 2 + axis]! - start);
  }
}
