import { type SVGTemplateResult, svg } from "lit";
import type { Certainty } from "../../core/model/terms.ts";
import { TOKENS } from "../tokens.ts";
import type { MarkShape, Ring } from "./mark-shape.ts";
import { MARK_BOX_PX } from "./paint-mark.ts";
import { ringLengthPx } from "./signed-distance.ts";

/**
 * A mark as vector shapes from the same outlines as the map's images, for the legend and the cards. Colors are CSS values.
 * `turnDeg` is the bearing a turning mark points at.
 */
export function symbolPicture(
  shape: MarkShape,
  colors: { readonly tone: string; readonly ink: string; readonly ground: string },
  certainty: Certainty,
  turnDeg = 0,
): SVGTemplateResult {
  const { outlinePx, hollowRingPx, dashPx, dashOnShare, dashGapMix, cutRimPx } = TOKENS.mark;
  const half = MARK_BOX_PX / 2;
  const lengthPx = ringLengthPx(shape.outer);
  const periodPx = lengthPx / Math.max(3, Math.round(lengthPx / dashPx));
  const dash = certainty === "confirmed" ? "none" : `${periodPx * dashOnShare} ${periodPx * (1 - dashOnShare)}`;
  const isHollow = certainty === "possible";
  const outer = pathOf(shape.outer);
  const inset = (lengthPx: number) => 1 - (lengthPx * 2) / extentPx(shape.outer);
  return svg`<svg viewBox="${-half} ${-half} ${MARK_BOX_PX} ${MARK_BOX_PX}" width=${MARK_BOX_PX} height=${MARK_BOX_PX} aria-hidden="true">
    <g transform="rotate(${turnDeg})">
      <path d=${outer} fill=${isHollow ? colors.ground : colors.tone} stroke=${colors.tone} stroke-opacity=${1 - dashGapMix} stroke-width=${certainty === "confirmed" ? 0 : outlinePx} transform="scale(${inset(outlinePx / 2)})"></path>
      <path d=${outer} fill="none" stroke=${colors.ink} stroke-width=${outlinePx} stroke-dasharray=${dash} stroke-linejoin="round" transform="scale(${inset(outlinePx / 2)})"></path>
      <path d=${outer} fill=${isHollow ? "none" : colors.tone} stroke=${isHollow ? colors.tone : "none"} stroke-width=${hollowRingPx} transform="scale(${inset(isHollow ? outlinePx + hollowRingPx / 2 : outlinePx)})"></path>
      ${shape.cuts.map((cut) => svg`<path d=${pathOf(cut)} fill=${isHollow ? colors.ink : colors.ground} stroke=${colors.ink} stroke-width=${isHollow ? 0 : cutRimPx}></path>`)}
    </g>
  </svg>`;
}

const pathOf = (ring: Ring): string => `M${ring.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join("L")}Z`;

const extentPx = (ring: Ring): number => {
  const heights = ring.map(([, y]) => y);
  return Math.max(...heights) - Math.min(...heights);
};
