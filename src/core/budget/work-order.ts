import { type Budget, type BudgetUnit, spentBy } from "./budget-unit.ts";

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/**
 * Units in the order they are taken: those with a running deadline in due order, then the others by risk removed per hour (or per unit of money), best first. An
 * earlier visit of a tree always comes before a later one. Ties keep the plan's order.
 */
export function bestFirst(units: readonly BudgetUnit[], budget: Budget): BudgetUnit[] {
  const rate = units.map((unit) => {
    const spent = spentBy(unit, budget);
    return spent > 0 ? unit.risk / spent : Number.POSITIVE_INFINITY;
  });
  return ordered(units, (a, b) => byDeadline(units[a]!, units[b]!) || rate[b]! - rate[a]! || a - b);
}

/** Running deadlines before all else, the earlier one first. */
function byDeadline(one: BudgetUnit, other: BudgetUnit): number {
  if (one.deadline === null || other.deadline === null) {
    return Number(one.deadline === null) - Number(other.deadline === null);
  }
  return byText(one.deadline, other.deadline);
}

/** Units as a plain backlog would be worked off: by the day a conflict of theirs was first seen, then by due date, then in the plan's order. */
export const oldestFirst = (units: readonly BudgetUnit[]): BudgetUnit[] =>
  ordered(
    units,
    (a, b) => byText(units[a]!.oldestOn, units[b]!.oldestOn) || byText(units[a]!.due, units[b]!.due) || a - b,
  );

/** Sorted, but for what must wait for others: it comes right behind the last of these, if its own turn is past by then. */
function ordered(units: readonly BudgetUnit[], compare: (a: number, b: number) => number): BudgetUnit[] {
  const indexOf = new Map(units.map(({ id }, at) => [id, at]));
  const sorted = units.map((_, at) => at).sort(compare);
  const isPlaced = new Uint8Array(units.length);
  const waiting = new Map<number, number[]>();
  const result: BudgetUnit[] = [];
  const place = (first: number): void => {
    const stack = [first];
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      if (isPlaced[at] === 1) continue;
      const before = openBefore(at);
      if (before !== null) {
        const list = waiting.get(before);
        if (list === undefined) waiting.set(before, [at]);
        else list.push(at);
        continue;
      }
      isPlaced[at] = 1;
      result.push(units[at]!);
      stack.push(...(waiting.get(at) ?? []).reverse());
    }
  };
  const openBefore = (at: number): number | null => {
    for (const id of units[at]!.after) {
      const before = indexOf.get(id);
      if (before !== undefined && isPlaced[before] === 0) return before;
    }
    return null;
  };
  for (const at of sorted) place(at);
  // Zones that wait for each other, as two trees in the opposite order would have them: they go together in sorted order.
  for (const at of sorted) if (isPlaced[at] === 0) result.push(units[at]!);
  return result;
}
