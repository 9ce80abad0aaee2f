import type { Plan } from "../model/plan.ts";
import type { Visit } from "../model/prescription.ts";
import { CREWS } from "../model/terms.ts";
import type { IsoDate } from "../units/calendar.ts";
import type { BudgetUnit } from "./budget-unit.ts";
import type { PlanRisk } from "./plan-risk.ts";
import type { Rates } from "./rates.ts";
import { visitCost } from "./visit-cost.ts";

/** How work is divided. `zones` keeps each zone whole; visits in no zone are units of their own. */
export type DividedBy = "visits" | "zones";

/**
 * All visits of a plan as units of work, in plan order: every visit is in exactly one. `until` leaves out work whose dates begin after it.
 */
export function budgetUnits(
  plan: Plan,
  risk: PlanRisk,
  rates: Rates,
  by: DividedBy,
  until: IsoDate | null = null,
): BudgetUnit[] {
  const hasLift = plan.options.zoning?.hasLift ?? true;
  const seen = firstSeen(plan);
  const zoneOf = new Map<string, string>();
  if (by === "zones") for (const zone of plan.zones) for (const id of zone.visitIds) zoneOf.set(id, zone.zoneId);
  const units = new Map<string, BudgetUnit[]>();
  plan.prescriptions.forEach(({ visits }, row) => {
    let before: string | null = null;
    for (const visit of visits) {
      const id = zoneOf.get(visit.visitId) ?? visit.visitId;
      // Later visits of a tree begin later still.
      if (until !== null && visit.windowStart > until) break;
      const one: BudgetUnit = {
        id,
        kind: id === visit.visitId ? "visit" : "zone",
        visitIds: [visit.visitId],
        crew: visit.crew,
        ...visitCost(plan.trees[row]!, visit, rates, hasLift),
        risk: risk.ofVisit.get(visit.visitId) ?? 0,
        due: visit.due,
        deadline: visit.urgency === "now" ? visit.due : null,
        oldestOn: oldestOf(visit, seen, plan.options.asOf),
        after: before === null || before === id ? [] : [before],
      };
      const list = units.get(id);
      if (list === undefined) units.set(id, [one]);
      else list.push(one);
      before = id;
    }
  });
  return [...units.values()].map(together);
}

/** Visits of one unit added up; crew and reach are the greatest, dates the earliest. */
function together(parts: readonly BudgetUnit[]): BudgetUnit {
  const [first] = parts;
  if (parts.length === 1) return first!;
  const sum = (of: (part: BudgetUnit) => number) => parts.reduce((total, part) => total + of(part), 0);
  const earliest = (dates: readonly IsoDate[]): IsoDate => [...dates].sort()[0]!;
  const deadlines = parts.flatMap(({ deadline }) => (deadline === null ? [] : [deadline]));
  return {
    ...first!,
    visitIds: parts.flatMap(({ visitIds }) => visitIds),
    crew: CREWS[Math.max(...parts.map(({ crew }) => CREWS.indexOf(crew)))]!,
    hours: sum(({ hours }) => hours),
    debrisM3: sum(({ debrisM3 }) => debrisM3),
    reachM: Math.max(...parts.map(({ reachM }) => reachM)),
    money: sum(({ money }) => money),
    risk: sum(({ risk }) => risk),
    due: earliest(parts.map(({ due }) => due)),
    deadline: deadlines.length === 0 ? null : earliest(deadlines),
    oldestOn: earliest(parts.map(({ oldestOn }) => oldestOn)),
    after: [...new Set(parts.flatMap(({ after }) => after))],
  };
}

const firstSeen = (plan: Plan): ReadonlyMap<string, IsoDate> =>
  new Map(plan.conflicts.map(({ conflictId, firstSeen: seen }) => [conflictId, seen]));

function oldestOf({ tasks }: Visit, seen: ReadonlyMap<string, IsoDate>, asOf: IsoDate): IsoDate {
  let oldest = asOf;
  for (const { conflictIds } of tasks) {
    for (const id of conflictIds) {
      const date = seen.get(id);
      if (date !== undefined && date < oldest) oldest = date;
    }
  }
  return oldest;
}
