import { html, svg, type TemplateResult } from "lit";
import type { BudgetDesk } from "../../core/budget/plan-budget.ts";

/** Points of the two curves. */
const STEPS = 40;

/** Shares of the risk that hours remove, chosen and oldest-first. */
export interface BudgetCurves {
  readonly hours: number;
  readonly points: readonly { readonly hours: number; readonly chosen: number; readonly oldest: number }[];
}

/** The curves of a plan's work from nothing to all of it; reckoned once a plan. */
export function budgetCurves(desk: BudgetDesk): BudgetCurves {
  const hours = desk.units.reduce((sum, unit) => sum + unit.hours, 0);
  const whole = desk.units.reduce((sum, unit) => sum + unit.risk, 0);
  const share = (risk: number): number => (whole > 0 ? risk / whole : 0);
  const points = Array.from({ length: STEPS + 1 }, (_, at) => {
    const budget = (hours * at) / STEPS;
    const { chosen, oldestFirst } = desk.choose({ hours: budget });
    return { hours: budget, chosen: share(chosen.risk), oldest: share(oldestFirst.risk) };
  });
  return { hours, points };
}

const WIDTH = 340;
const HEIGHT = 168;
const LEFT = 40;
const TOP = 10;
const BOTTOM = 26;

/** The curves as a drawing with a line where the budget stands. */
export function budgetDrawing({ hours, points }: BudgetCurves, at: number, words: string): TemplateResult {
  const x = (value: number): number => LEFT + (hours > 0 ? value / hours : 0) * (WIDTH - LEFT - 8);
  const y = (share: number): number => TOP + (1 - share) * (HEIGHT - TOP - BOTTOM);
  const path = (of: "chosen" | "oldest"): string =>
    points
      .map((point, step) => `${step === 0 ? "M" : "L"}${x(point.hours).toFixed(1)} ${y(point[of]).toFixed(1)}`)
      .join("");
  return html`<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${words}>
    ${[0, 0.5, 1].map(
      (share) => svg`<line class="grid" x1=${LEFT} x2=${WIDTH - 8} y1=${y(share)} y2=${y(share)} />
        <text x=${LEFT - 6} y=${y(share) + 4} text-anchor="end">${share * 100} %</text>`,
    )}
    ${[0, 0.5, 1].map(
      (
        share,
      ) => svg`<text x=${x(hours * share)} y=${HEIGHT - 8} text-anchor=${share === 1 ? "end" : share === 0 ? "start" : "middle"}>
        ${Math.round(hours * share)} h</text>`,
    )}
    <path class="oldest" d=${path("oldest")} />
    <path class="chosen" d=${path("chosen")} />
    <line class="at" x1=${x(at)} x2=${x(at)} y1=${TOP} y2=${HEIGHT - BOTTOM} />
    <text class="name" x=${WIDTH - 12} y=${y(0.4)} text-anchor="end">— chosen</text>
    <text class="name" x=${WIDTH - 12} y=${y(0.26)} text-anchor="end">- - oldest first</text>
  </svg>`;
}
