import { type Budget, type BudgetUnit, limitOf, spentBy } from "./budget-unit.ts";
import { bestFirst, oldestFirst } from "./work-order.ts";

/** What a budget buys, in the order it is taken. */
export interface Bought {
  readonly units: readonly BudgetUnit[];
  readonly hours: number;
  readonly money: number;
  readonly debrisM3: number;
  readonly risk: number;
}

/** A choice of work within a budget, beside the plain one. */
export interface WorkChoice {
  readonly chosen: Bought;
  /** What stays open, by due date. */
  readonly left: readonly BudgetUnit[];
  /** Work with a running deadline that the budget does not hold, by due date. */
  readonly deadlinesMissed: readonly BudgetUnit[];
  readonly oldestFirst: Bought;
  readonly whole: Bought;
}

/** Rounding of a sum of hours: far below a minute, so that a budget of exactly the plan's hours holds the plan. */
const SLACK = 1e-6;

/**
 * The work that a budget is best spent on: running deadlines first, in due order, then the best risk removed per hour or amount. What does not fit is passed over
 * for what does. Where filling up in plain order would remove more, as can happen when the last large unit does not fit, that is taken: so the choice
 * is never worse than oldest-first behind the same deadlines. Not promised: the best of all choices, which nobody can find for a city.
 */
export function chooseWork(units: readonly BudgetUnit[], budget: Budget): WorkChoice {
  return chooseInOrder(units, bestFirst(units, budget), oldestFirst(units), budget);
}

/** The same for orders made before, so that a slider need not sort again. */
export function chooseInOrder(
  units: readonly BudgetUnit[],
  best: readonly BudgetUnit[],
  oldest: readonly BudgetUnit[],
  budget: Budget,
): WorkChoice {
  const plainRest = [
    ...best.filter(({ deadline }) => deadline !== null),
    ...oldest.filter(({ deadline }) => deadline === null),
  ];
  const [byRate, byAge] = [filled(best, budget), filled(plainRest, budget)];
  const chosen = byAge.risk > byRate.risk ? byAge : byRate;
  const taken = new Set(chosen.units.map(({ id }) => id));
  const left = units
    .filter(({ id }) => !taken.has(id))
    .sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : b.risk - a.risk));
  return {
    chosen,
    left,
    deadlinesMissed: left.filter(({ deadline }) => deadline !== null),
    oldestFirst: filled(oldest, budget),
    whole: boughtOf(best),
  };
}

/** Takes units in order while they fit; never one whose earlier visit was not taken. Where all fit, all are taken. */
function filled(order: readonly BudgetUnit[], budget: Budget): Bought {
  const limit = limitOf(budget) + SLACK;
  const whole = boughtOf(order);
  if (("hours" in budget ? whole.hours : whole.money) <= limit) return whole;
  const known = new Set(order.map(({ id }) => id));
  const taken = new Set<string>();
  const units: BudgetUnit[] = [];
  let spent = 0;
  for (const unit of order) {
    const cost = spentBy(unit, budget);
    if (spent + cost > limit) continue;
    if (unit.after.some((id) => known.has(id) && !taken.has(id))) continue;
    spent += cost;
    taken.add(unit.id);
    units.push(unit);
  }
  return boughtOf(units);
}

function boughtOf(units: readonly BudgetUnit[]): Bought {
  let [hours, money, debrisM3, risk] = [0, 0, 0, 0];
  for (const unit of units) {
    hours += unit.hours;
    money += unit.money;
    debrisM3 += unit.debrisM3;
    risk += unit.risk;
  }
  return { units, hours, money, debrisM3, risk };
}
