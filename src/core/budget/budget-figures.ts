import type { Bought, WorkChoice } from "./choose-work.ts";
import type { BudgetDesk } from "./plan-budget.ts";

/** One line of the comparison. */
export interface BoughtFigures {
  readonly visits: number;
  readonly hours: number;
  readonly cost: number;
  readonly debris_m3: number;
  readonly risk_removed: number;
  /** Of all risk that the plan's visits remove. */
  readonly risk_removed_share: number;
  /** Visits with a running deadline. */
  readonly deadlines: number;
}

/** A budget in figures, for programs and for sentences. */
export interface BudgetFigures {
  readonly chosen: BoughtFigures;
  readonly oldest_first: BoughtFigures;
  readonly whole_plan: BoughtFigures;
  readonly left_visits: number;
  readonly left_hours: number;
  readonly left_risk: number;
  readonly left_first_due: string | null;
  /** Visits with a running deadline that the budget does not hold. */
  readonly deadlines_missed: number;
  readonly risk_without_visit: number;
}

export function budgetFigures(desk: BudgetDesk, choice: WorkChoice): BudgetFigures {
  const whole = choice.whole.risk;
  const figures = ({ units, hours, money, debrisM3, risk }: Bought): BoughtFigures => ({
    visits: units.reduce((sum, { visitIds }) => sum + visitIds.length, 0),
    hours: fixed(hours, 2),
    cost: fixed(money, 2),
    debris_m3: fixed(debrisM3, 1),
    risk_removed: fixed(risk, 2),
    risk_removed_share: whole > 0 ? fixed(risk / whole, 4) : 0,
    deadlines: units.filter(({ deadline }) => deadline !== null).length,
  });
  const sumLeft = (of: (unit: Bought["units"][number]) => number) =>
    choice.left.reduce((sum, unit) => sum + of(unit), 0);
  return {
    chosen: figures(choice.chosen),
    oldest_first: figures(choice.oldestFirst),
    whole_plan: figures(choice.whole),
    left_visits: sumLeft(({ visitIds }) => visitIds.length),
    left_hours: fixed(
      sumLeft(({ hours }) => hours),
      2,
    ),
    left_risk: fixed(
      sumLeft(({ risk }) => risk),
      2,
    ),
    left_first_due: choice.left[0]?.due ?? null,
    deadlines_missed: choice.deadlinesMissed.length,
    risk_without_visit: fixed(desk.riskWithoutVisit, 2),
  };
}

const fixed = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;
