/**
 * A drawing as data: shapes in millimeters on paper, y downward, painted in order. One drawing serves the screen (SVG), the
 * PDF and the phone page, so that all three show the same lines.
 */
export interface Drawing {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly shapes: readonly Shape[];
  /** What it shows, in words, for people who do not see it. */
  readonly description: string;
}

/** Tones by meaning, so that a theme decides the color: ink for lines and text, the others for areas. */
export type Tone = "ink" | "quiet" | "crown" | "removed" | "clearance" | "ground" | "paper" | "none";

export interface Stroke {
  readonly tone: Tone;
  readonly widthMm: number;
  readonly dashMm?: readonly number[];
}

export type Shape =
  /** SVG path data restricted to M, L, C, Z with absolute coordinates in millimeters. `hatched` fills with 45 degree lines instead of a tone. */
  | {
      readonly type: "path";
      readonly d: string;
      readonly fill: Tone;
      readonly hatched?: boolean;
      readonly stroke?: Stroke;
    }
  | {
      readonly type: "text";
      readonly xMm: number;
      readonly yMm: number;
      readonly text: string;
      readonly sizeMm: number;
      readonly anchor: "start" | "middle" | "end";
      readonly tone: Tone;
      readonly bold?: boolean;
      readonly rotateDeg?: number;
    };
