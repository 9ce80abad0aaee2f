import type { Plan } from "../model/plan.ts";
import type { WorkChoice } from "./choose-work.ts";
import type { BudgetDesk } from "./plan-budget.ts";

/** Columns of the budget's table, one row a visit. */
export const BUDGET_COLUMNS = [
  "order",
  "choice",
  "oldest_first",
  "zone",
  "visit",
  "tree",
  "species",
  "street",
  "crew",
  "due",
  "deadline",
  "hours",
  "risk",
  "risk_per_hour",
  "cost",
  "debris_m3",
  "reach_m",
] as const;

export type BudgetCell = string | number | boolean | null;

/**
 * What a budget buys and what stays open, a row a visit: first what is chosen, in the order it is taken, then the rest by due date. `choice` says why:
 * `deadline`, `best-ratio` or `left`. Cost, debris and reach are of the whole unit, a zone's only in its first row, so that the column adds up.
 */
export function budgetRows(plan: Plan, desk: BudgetDesk, choice: WorkChoice): BudgetCell[][] {
  const visits = new Map(
    plan.prescriptions.flatMap(({ visits: own }) => own.map((visit) => [visit.visitId, visit] as const)),
  );
  const plain = new Set(choice.oldestFirst.units.map(({ id }) => id));
  const taken = choice.chosen.units.length;
  const zones = new Map(plan.zones.flatMap(({ zoneId, visitIds }) => visitIds.map((id) => [id, zoneId] as const)));
  return [...choice.chosen.units, ...choice.left].flatMap((unit, at) =>
    unit.visitIds.map((visitId, place): BudgetCell[] => {
      const visit = visits.get(visitId)!;
      const tree = plan.trees[visit.treeRow]!;
      const risk = desk.risk.ofVisit.get(visitId) ?? 0;
      const isFirst = place === 0;
      return [
        at < taken ? at + 1 : null,
        at >= taken ? "left" : unit.deadline === null ? "best-ratio" : "deadline",
        plain.has(unit.id),
        zones.get(visitId) ?? null,
        visitId,
        visit.treeId,
        tree.species,
        tree.street,
        visit.crew,
        visit.due,
        visit.urgency === "now" ? visit.due : null,
        fixed(visit.hours, 3),
        fixed(risk, 3),
        visit.hours > 0 ? fixed(risk / visit.hours, 3) : null,
        isFirst ? fixed(unit.money, 2) : null,
        isFirst ? fixed(unit.debrisM3, 3) : null,
        isFirst ? fixed(unit.reachM, 1) : null,
      ];
    }),
  );
}

const fixed = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;
