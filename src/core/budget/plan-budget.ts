import type { Plan } from "../model/plan.ts";
import type { Standard } from "../standard/standard.ts";
import type { IsoDate } from "../units/calendar.ts";
import type { Budget, BudgetUnit } from "./budget-unit.ts";
import { budgetUnits, type DividedBy } from "./budget-units.ts";
import { chooseInOrder, type WorkChoice } from "./choose-work.ts";
import { type PlanRisk, planRisk } from "./plan-risk.ts";
import type { Rates } from "./rates.ts";
import { bestFirst, oldestFirst } from "./work-order.ts";

/** How a budget is to be spent. */
export interface BudgetRequest {
  readonly by: DividedBy;
  readonly rates: Rates;
  /** Leaves out work whose dates begin later; null for all work of the plan. */
  readonly until: IsoDate | null;
}

/** A plan's work ready to be chosen from for any budget. */
export interface BudgetDesk {
  readonly units: readonly BudgetUnit[];
  readonly risk: PlanRisk;
  /** Points that no visit removes: trees referred, to be inspected first, or watched. */
  readonly riskWithoutVisit: number;
  choose(budget: Budget): WorkChoice;
}

export function budgetDesk(plan: Plan, standard: Standard, request: BudgetRequest): BudgetDesk {
  const risk = planRisk(plan, standard);
  const units = budgetUnits(plan, risk, request.rates, request.by, request.until);
  const oldest = oldestFirst(units);
  const best = new Map<string, readonly BudgetUnit[]>();
  return {
    units,
    risk,
    riskWithoutVisit: [...risk.withoutVisit.values()].reduce((sum, points) => sum + points, 0),
    choose: (budget) => {
      const measure = "hours" in budget ? "hours" : "money";
      const order = best.get(measure) ?? bestFirst(units, budget);
      best.set(measure, order);
      return chooseInOrder(units, order, oldest, budget);
    },
  };
}
