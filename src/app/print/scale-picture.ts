import { html, svg } from "lit";
import type { ScaleBar } from "./scale-bar.ts";

const HEIGHT_PX = 5;

/** The bar as a drawing has it, every other part filled, with the ratio over it and north beside it. */
export function scalePicture({ lengthPx, divisions, label, ratio }: ScaleBar) {
  const part = lengthPx / divisions;
  const filled = Array.from({ length: Math.ceil(divisions / 2) }, (_, at) => 2 * at * part);
  return html`<div class="scale" role="img" aria-label=${`Scale: the bar is ${label} long; north is up`}>
    <svg class="north" viewBox="0 0 18 34" width="15" height="28" aria-hidden="true">
      <path d="M9 1v19M9 1l4.5 11L9 9.5z" class="arrow"></path>
      <path d="M5.5 33v-9l7 9v-9"></path>
    </svg>
    <div>
      <p><span>0</span><span>${label}</span></p>
      <svg width=${lengthPx} height=${HEIGHT_PX} viewBox=${`0 0 ${lengthPx} ${HEIGHT_PX}`} aria-hidden="true">
        <rect x="0.5" y="0.5" width=${lengthPx - 1} height=${HEIGHT_PX - 1} class="frame"></rect>
        ${filled.map((x) => svg`<rect x=${x} y="0" width=${part} height=${HEIGHT_PX} class="part"></rect>`)}
      </svg>
      <p class="ratio">${ratio} at full size</p>
    </div>
  </div>`;
}
