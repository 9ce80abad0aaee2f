import type { Certainty } from "../../core/model/terms.ts";
import { TOKENS } from "../tokens.ts";
import type { MarkShape, Ring } from "./mark-shape.ts";
import { ringLengthPx } from "./signed-distance.ts";

/** Colors of a mark, as a picture's language has them. */
export interface MarkColors {
  readonly tone: string;
  readonly ink: string;
  readonly ground: string;
}

/** One path of a mark, to be drawn after those before it. */
export interface MarkPath {
  /** Outline in CSS pixels from the middle, in the language of SVG's `d`. */
  readonly d: string;
  readonly fill: string;
  readonly stroke: string;
  readonly strokeWidthPx: number;
  readonly strokeOpacity: number;
  /** Dashes as SVG has them; `none` for a whole line. */
  readonly dash: string;
  /** Shrinks the path about the middle, so that its line stays inside the shape. */
  readonly scale: number;
}

/**
 * A mark as vector paths from the same outlines as the map's images: a whole outline for what is confirmed, else one broken into dashes;
 * a wide ring around a hollow for what is only possible.
 */
export function markPaths(shape: MarkShape, { tone, ink, ground }: MarkColors, certainty: Certainty): MarkPath[] {
  const { outlinePx, hollowRingPx, dashPx, dashOnShare, dashGapMix, cutRimPx } = TOKENS.mark;
  const lengthPx = ringLengthPx(shape.outer);
  const periodPx = lengthPx / Math.max(3, Math.round(lengthPx / dashPx));
  const isConfirmed = certainty === "confirmed";
  const isHollow = certainty === "possible";
  const inset = (insetPx: number) => 1 - (insetPx * 2) / extentPx(shape.outer);
  const d = pathOf(shape.outer);
  const plain = { strokeOpacity: 1, dash: "none" } as const;
  return [
    {
      d,
      fill: isHollow ? ground : tone,
      stroke: tone,
      strokeWidthPx: isConfirmed ? 0 : outlinePx,
      strokeOpacity: 1 - dashGapMix,
      dash: "none",
      scale: inset(outlinePx / 2),
    },
    {
      ...plain,
      d,
      fill: "none",
      stroke: ink,
      strokeWidthPx: outlinePx,
      dash: isConfirmed ? "none" : `${periodPx * dashOnShare} ${periodPx * (1 - dashOnShare)}`,
      scale: inset(outlinePx / 2),
    },
    {
      ...plain,
      d,
      fill: isHollow ? "none" : tone,
      stroke: isHollow ? tone : "none",
      strokeWidthPx: hollowRingPx,
      scale: inset(isHollow ? outlinePx + hollowRingPx / 2 : outlinePx),
    },
    ...shape.cuts.map((cut) => ({
      ...plain,
      d: pathOf(cut),
      fill: isHollow ? ink : ground,
      stroke: ink,
      strokeWidthPx: isHollow ? 0 : cutRimPx,
      scale: 1,
    })),
  ];
}

const pathOf = (ring: Ring): string => `M${ring.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join("L")}Z`;

const extentPx = (ring: Ring): number => {
  const heights = ring.map(([, y]) => y);
  return Math.max(...heights) - Math.min(...heights);
};
