import { html, svg } from "lit";
import type { ZoneState } from "../../core/model/terms.ts";
import type { Zone } from "../../core/model/zone.ts";
import { TOKENS } from "../tokens.ts";

const WIDE = 42;
const HIGH = 30;
const STEP = 7;

/** A zone as it looks on the map: its state's pattern, its outline as heavy as its due date is near, its first due tone. */
export function zoneSwatch(zone: Zone) {
  const outlinePx = TOKENS.line.zonePx[zone.urgency];
  return html`<svg width=${WIDE} height=${HIGH} viewBox="0 0 ${WIDE} ${HIGH}" aria-hidden="true">
    ${svg`<path d=${patternPath(zone.state)} fill="none" stroke="var(--ink)" stroke-width="1" stroke-linecap="round" opacity="0.6"></path>
    <rect x="2" y="2" width=${WIDE - 4} height=${HIGH - 4} rx="7" fill="none" stroke="var(--ink)" stroke-width=${outlinePx}></rect>
    ${zone.state === "done" ? svg`<path d="M2 14 L2 9 Q2 2 9 2 L14 2 Z" fill="var(--ink)"></path>` : ""}`}
  </svg>`;
}

/** Lines of a state's pattern inside the swatch: dots as lines without length. */
function patternPath(state: ZoneState): string {
  const parts: string[] = [];
  const low = 5;
  const right = WIDE - 5;
  const bottom = HIGH - 5;
  if (state === "draft") {
    for (let y = low + 3; y <= bottom; y += STEP)
      for (let x = low + 3; x <= right; x += STEP) parts.push(`M${x} ${y}h0`);
  }
  if (state === "issued" || state === "under-way") {
    for (let start = low - HIGH; start < right; start += STEP) parts.push(diagonal(start, low, right, bottom, 1));
    if (state === "under-way") {
      for (let start = low; start < right + HIGH; start += STEP) parts.push(diagonal(start, low, right, bottom, -1));
    }
  }
  return parts.join("");
}

/** A 45 degree line from (start, low) downward, to the right (1) or left (-1), cut to the box between `low`, `right` and `bottom`. */
function diagonal(start: number, low: number, right: number, bottom: number, way: 1 | -1): string {
  const clamp = (x: number) => Math.min(right, Math.max(low, x));
  const end = start + way * (bottom - low);
  const fromX = clamp(start);
  const toX = clamp(end);
  if (fromX === toX) return "";
  return `M${fromX} ${low + (fromX - start) * way}L${toX} ${low + (toX - start) * way}`;
}
