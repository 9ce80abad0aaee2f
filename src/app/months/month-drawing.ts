import { nothing, svg } from "lit";
import { URGENCIES } from "../../core/model/terms.ts";
import { readableHours, readableMonth } from "../words.ts";
import type { Month, MonthBar, MonthRange } from "./month-bars.ts";
import { niceCeiling } from "./nice-ceiling.ts";

/** Drawn from the bottom of a bar up: what is wanted first stands on the ground. `clear` has no work. */
export const STACKED_URGENCIES = URGENCIES.filter((urgency) => urgency !== "clear");

/** Room for the figures left of the bars, in pixels; a folded strip has none. */
export const leftPx = (isFolded: boolean): number => (isFolded ? 0 : 44);

export interface MonthDrawing {
  readonly bars: readonly MonthBar[];
  readonly range: MonthRange | null;
  /** Place of the bar under the pointer; -1 for none. */
  readonly pointed: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** One line without axis. */
  readonly isFolded: boolean;
}

/** The bars as SVG: hours upward, months to the right, the chosen months framed and the others pale. */
export function monthDrawing({ bars, range, pointed, widthPx, heightPx, isFolded }: MonthDrawing) {
  const left = leftPx(isFolded);
  const floor = heightPx - (isFolded ? 1 : 18);
  const top = isFolded ? 1 : 8;
  const step = (widthPx - left) / Math.max(1, bars.length);
  const most = niceCeiling(bars.reduce((high, bar) => Math.max(high, bar.hours), 0));
  const y = (hours: number) => floor - ((floor - top) * hours) / most;
  const x = (place: number) => left + place * step;
  const gap = step > 8 ? 2 : step > 4 ? 1 : 0;
  const from = bars.findIndex((bar) => bar.month === range?.from);
  const to = bars.findIndex((bar) => bar.month === range?.to);
  const isTaken = (place: number) => range === null || (place >= from && place <= to);
  return svg`<svg aria-hidden="true">
    ${
      isFolded
        ? nothing
        : [0.5, 1].map(
            (
              share,
            ) => svg`<line class="guide" x1=${left} x2=${widthPx} y1=${y(most * share)} y2=${y(most * share)}></line>
              <text x=${left - 6} y=${y(most * share) + 4} text-anchor="end">${readableHours(most * share)}</text>`,
          )
    }
    ${
      pointed >= 0
        ? svg`<rect class="hover" x=${x(pointed)} y=${top} width=${step} height=${floor - top}></rect>`
        : nothing
    }
    ${bars.map(
      (bar, place) => svg`<g class=${isTaken(place) ? "" : "faded"}>
        ${stack(bar, x(place) + gap / 2, Math.max(1, step - gap), y, step > 5)}
      </g>`,
    )}
    <line class="base" x1=${left} x2=${widthPx} y1=${floor} y2=${floor}></line>
    ${isFolded ? nothing : bars.map((bar, place) => tick(tickLabel(bar.month, place, step), x(place), floor, widthPx))}
    ${
      from >= 0 && to >= from
        ? svg`<rect class="brush" x=${x(from)} y=${top - (isFolded ? 0 : 4)} width=${x(to + 1) - x(from)} height=${floor - top + (isFolded ? 0 : 4)}></rect>`
        : nothing
    }
  </svg>`;
}

function stack(bar: MonthBar, x: number, width: number, y: (hours: number) => number, isOutlined: boolean) {
  let below = 0;
  return STACKED_URGENCIES.map((urgency) => {
    const hours = bar.hoursBy[urgency];
    if (!(hours > 0)) return nothing;
    const low = y(below);
    below += hours;
    const high = y(below);
    return svg`<rect class="bar ${urgency} ${isOutlined ? "outlined" : ""}" x=${x} y=${high} width=${width} height=${Math.max(0, low - high)}></rect>`;
  });
}

function tick(label: string | null, x: number, floor: number, widthPx: number) {
  if (label === null) return nothing;
  // About 7 px a letter: a label that would run out of the strip leaves its line alone.
  const shown = x + 4 + label.length * 7 > widthPx ? "" : label;
  return svg`<line class="base" x1=${x} x2=${x} y1=${floor} y2=${floor + 4}></line>
    <text x=${x + 4} y=${floor + 15}>${shown}</text>`;
}

/** A label where there is room: each year's January and the first month, quarters when the bars are wide. */
function tickLabel(month: Month, place: number, stepPx: number): string | null {
  const number = Number(month.slice(5));
  if (stepPx >= 44) return place === 0 || number === 1 ? readableMonth(month) : readableMonth(month).slice(0, 4);
  if (number === 1) return month.slice(0, 4);
  if (place === 0) return (13 - number) * stepPx > 66 ? readableMonth(month) : null;
  return stepPx >= 14 && number % 3 === 1 ? readableMonth(month).slice(0, 4) : null;
}
