import { nothing, svg } from "lit";
import { readableHours, readableMonth } from "../words.ts";
import type { ForecastMonth } from "./forecast-months.ts";
import type { Month, MonthBar, MonthRange } from "./month-bars.ts";
import { forecastParts, partHours, type Split, splitParts } from "./month-split.ts";
import { niceCeiling } from "./nice-ceiling.ts";

/** Room for the figures left of the bars, in pixels; a folded strip has none. */
export const leftPx = (isFolded: boolean): number => (isFolded ? 0 : 44);

export interface MonthDrawing {
  readonly bars: readonly MonthBar[];
  /** Forecast work by month, the lighter part of the bars; null for none. */
  readonly forecast: ReadonlyMap<Month, ForecastMonth> | null;
  readonly split: Split;
  readonly range: MonthRange | null;
  /** Place of the bar under the pointer; -1 for none. */
  readonly pointed: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** One line without axis. */
  readonly isFolded: boolean;
}

/** The bars as SVG: hours upward, months to the right, the chosen months framed and the others pale. */
export function monthDrawing({ bars, forecast, split, range, pointed, widthPx, heightPx, isFolded }: MonthDrawing) {
  const left = leftPx(isFolded);
  const floor = heightPx - (isFolded ? 1 : 18);
  const top = isFolded ? 1 : 8;
  const step = (widthPx - left) / Math.max(1, bars.length);
  const most = niceCeiling(
    bars.reduce((high, bar) => Math.max(high, bar.hours + (forecast?.get(bar.month)?.hours ?? 0)), 0),
  );
  const y = (hours: number) => floor - ((floor - top) * hours) / most;
  const x = (place: number) => left + place * step;
  const gap = step > 8 ? 2 : step > 4 ? 1 : 0;
  const from = bars.findIndex((bar) => bar.month === range?.from);
  const to = bars.findIndex((bar) => bar.month === range?.to);
  const isTaken = (place: number) => range === null || (place >= from && place <= to);
  return svg`<svg aria-hidden="true">
    ${HATCH}
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
        ${stack(layersOf(bar, forecast?.get(bar.month), split), x(place) + gap / 2, Math.max(1, step - gap), y, step > 5)}
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

/** The one crew that is told by lines instead of a tone. */
const HATCH = svg`<defs>
  <pattern id="hatch" width="4" height="4" patternUnits="userSpaceOnUse">
    <rect width="4" height="4" class="hatch-ground"></rect>
    <path d="M-1 1L1 -1M0 4L4 0M3 5L5 3" class="hatch-line"></path>
  </pattern>
</defs>`;

/** One layer of a bar: its style class and its hours. */
type Layer = readonly [key: string, hours: number];

/** The layers of a bar from the ground up: the plan's own work, then what is forecast. */
function layersOf(bar: MonthBar, forecast: ForecastMonth | undefined, split: Split): Layer[] {
  return [
    ...splitParts(split).map(({ key }): Layer => [key, partHours(bar, key)]),
    ...(forecast === undefined ? [] : forecastParts(split).map(({ key, hoursOf }): Layer => [key, hoursOf(forecast)])),
  ];
}

function stack(layers: readonly Layer[], x: number, width: number, y: (hours: number) => number, isOutlined: boolean) {
  let below = 0;
  return layers.map(([key, hours]) => {
    if (!(hours > 0)) return nothing;
    const low = y(below);
    below += hours;
    const high = y(below);
    return svg`<rect class="bar ${key} ${isOutlined ? "outlined" : ""}" x=${x} y=${high} width=${width} height=${Math.max(0, low - high)}></rect>`;
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
