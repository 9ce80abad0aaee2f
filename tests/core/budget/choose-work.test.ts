import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { BudgetUnit } from "../../../src/core/budget/budget-unit.ts";
import { chooseWork } from "../../../src/core/budget/choose-work.ts";
import { type IsoDate, isoDate } from "../../../src/core/units/calendar.ts";

const unit = (id: string, hours: number, risk: number, more: Partial<BudgetUnit> = {}): BudgetUnit => ({
  id,
  kind: "visit",
  visitIds: [id],
  crew: "aerial",
  hours,
  debrisM3: 0,
  reachM: 5,
  money: hours * 100,
  risk,
  due: isoDate("2027-03-31"),
  deadline: null,
  oldestOn: isoDate("2026-11-02"),
  after: [],
  ...more,
});
const ids = (units: readonly BudgetUnit[]): string[] => units.map(({ id }) => id);
const day = (at: number): IsoDate => isoDate(`2026-12-${String((at % 28) + 1).padStart(2, "0")}`);

/** The most risk that any choice within the hours removes; every subset is tried. */
function bestOfAll(units: readonly BudgetUnit[], hours: number): number {
  let best = 0;
  for (let mask = 0; mask < 2 ** units.length; mask += 1) {
    const some = units.filter((_, at) => (mask >> at) % 2 === 1);
    const names = new Set(ids(some));
    if (some.some(({ after }) => after.some((id) => !names.has(id)))) continue;
    if (some.reduce((sum, one) => sum + one.hours, 0) > hours + 1e-9) continue;
    best = Math.max(
      best,
      some.reduce((sum, one) => sum + one.risk, 0),
    );
  }
  return best;
}

const someUnits = (most: number): fc.Arbitrary<BudgetUnit[]> =>
  fc
    .array(
      fc.record({
        hours: fc.integer({ min: 1, max: 20 }),
        risk: fc.integer({ min: 0, max: 100 }),
        due: fc.nat(27),
        isHazard: fc.integer({ min: 0, max: 5 }),
        follows: fc.boolean(),
      }),
      { minLength: 1, maxLength: most },
    )
    .map((list) =>
      list.map(({ hours, risk, due, isHazard, follows }, at) =>
        unit(`v${at}`, hours / 4, risk, {
          due: day(due),
          deadline: isHazard === 0 ? day(due) : null,
          after: follows && at > 0 ? [`v${at - 1}`] : [],
        }),
      ),
    );

describe("choosing within a budget", () => {
  it("keeps deadlines first, in due order, then takes the best ratio", () => {
    const units = [
      unit("poor", 1, 1),
      unit("good", 1, 9),
      unit("late deadline", 1, 2, { deadline: day(20), due: day(20) }),
      unit("early deadline", 1, 0.1, { deadline: day(3), due: day(3) }),
    ];
    const { chosen, left, deadlinesMissed } = chooseWork(units, { hours: 3 });
    expect(ids(chosen.units)).toEqual(["early deadline", "late deadline", "good"]);
    expect(ids(left)).toEqual(["poor"]);
    expect(deadlinesMissed).toEqual([]);
    expect(ids(chooseWork(units, { hours: 1 }).deadlinesMissed)).toEqual(["late deadline"]);
  });

  it("counts in money where the budget is money", () => {
    const units = [unit("dear", 1, 7, { money: 1000 }), unit("cheap", 2, 8, { money: 100 })];
    expect(ids(chooseWork(units, { money: 1000 }).chosen.units)).toEqual(["cheap"]);
    expect(ids(chooseWork(units, { hours: 1 }).chosen.units)).toEqual(["dear"]);
  });

  it("never takes a later visit without the earlier one", () => {
    const units = [unit("first", 2, 1), unit("second", 1, 50, { after: ["first"] }), unit("other", 1, 2)];
    expect(ids(chooseWork(units, { hours: 1 }).chosen.units)).toEqual(["other"]);
    expect(ids(chooseWork(units, { hours: 3 }).chosen.units).sort()).toEqual(["first", "second"]);
  });

  it("is everything when the budget holds everything", () => {
    fc.assert(
      fc.property(someUnits(30), (units) => {
        const hours = units.reduce((sum, one) => sum + one.hours, 0);
        for (const budget of [{ hours: Number.POSITIVE_INFINITY }, { hours }, { money: hours * 100 }]) {
          const { chosen, left } = chooseWork(units, budget);
          expect(ids(chosen.units).sort()).toEqual(ids(units).sort());
          expect(left).toEqual([]);
        }
      }),
    );
  });

  it("keeps to the budget, parts all work in two, and is never worse than oldest-first where no deadline runs", () => {
    fc.assert(
      fc.property(someUnits(30), fc.double({ min: 0, max: 1, noNaN: true }), (units, share) => {
        const free = units.map((one) => ({ ...one, deadline: null }));
        const hours = share * units.reduce((sum, one) => sum + one.hours, 0);
        const choice = chooseWork(free, { hours });
        expect(choice.chosen.hours).toBeLessThanOrEqual(hours + 1e-5);
        expect([...ids(choice.chosen.units), ...ids(choice.left)].sort()).toEqual(ids(units).sort());
        expect(choice.chosen.risk).toBeGreaterThanOrEqual(choice.oldestFirst.risk);
        const names = new Set(ids(choice.chosen.units));
        for (const one of choice.chosen.units) expect(one.after.every((id) => names.has(id))).toBe(true);
      }),
    );
  });

  it("lacks at most what its largest unit removes of the best choice there is, where nothing waits for anything", () => {
    // Greedy by ratio is at most one unit from the bound of the divisible knapsack (Dantzig 1957).
    fc.assert(
      fc.property(someUnits(10), fc.double({ min: 0, max: 1, noNaN: true }), (units, share) => {
        const free = units.map((one) => ({ ...one, deadline: null, after: [] }));
        const hours = share * units.reduce((sum, one) => sum + one.hours, 0);
        const largest = Math.max(...free.map(({ risk }) => risk));
        expect(chooseWork(free, { hours }).chosen.risk).toBeGreaterThanOrEqual(bestOfAll(free, hours) - largest);
      }),
      { numRuns: 60 },
    );
  });
});
