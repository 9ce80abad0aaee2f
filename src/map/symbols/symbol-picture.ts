import { type SVGTemplateResult, svg } from "lit";
import type { Certainty } from "../../core/model/terms.ts";
import { type MarkColors, markPaths } from "./mark-paths.ts";
import type { MarkShape } from "./mark-shape.ts";
import { MARK_BOX_PX } from "./paint-mark.ts";

/** A mark as a picture for the legend and the cards. Colors are CSS values. `turnDeg` is the bearing a turning mark points at. */
export function symbolPicture(
  shape: MarkShape,
  colors: MarkColors,
  certainty: Certainty,
  turnDeg = 0,
): SVGTemplateResult {
  const half = MARK_BOX_PX / 2;
  return svg`<svg viewBox="${-half} ${-half} ${MARK_BOX_PX} ${MARK_BOX_PX}" width=${MARK_BOX_PX} height=${MARK_BOX_PX} aria-hidden="true">
    <g transform="rotate(${turnDeg})">
      ${markPaths(shape, colors, certainty).map(
        ({ d, fill, stroke, strokeWidthPx, strokeOpacity, dash, scale }) =>
          svg`<path d=${d} fill=${fill} stroke=${stroke} stroke-opacity=${strokeOpacity} stroke-width=${strokeWidthPx} stroke-dasharray=${dash} stroke-linejoin="round" transform="scale(${scale})"></path>`,
      )}
    </g>
  </svg>`;
}
