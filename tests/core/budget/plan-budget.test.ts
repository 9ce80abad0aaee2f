import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { budgetFigures } from "../../../src/core/budget/budget-figures.ts";
import { BUDGET_COLUMNS, budgetRows } from "../../../src/core/budget/budget-table.ts";
import { budgetDesk } from "../../../src/core/budget/plan-budget.ts";
import { SHIPPED_RATES } from "../../../src/core/budget/rates.ts";
import type { ConflictRecord } from "../../../src/core/model/conflict.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import type { Task, Visit } from "../../../src/core/model/prescription.ts";
import { CONFLICT_KINDS, HAZARDS } from "../../../src/core/model/terms.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { addDays, isoDate } from "../../../src/core/units/calendar.ts";
import { planOfWork, type Work } from "../zone/plan-of-work.ts";

const STANDARD = usCommon();
const AS_OF = isoDate("2026-11-02");
const request = { by: "visits", rates: SHIPPED_RATES, until: null } as const;

const task = (conflictIds: readonly string[], doseShare: number, remedy: Task["remedy"] = "shorten"): Task => ({
  taskId: conflictIds.join(),
  cause: "",
  conflictIds,
  objective: "clearance",
  remedy,
  where: "",
  bearingDeg: null,
  belowM: 4.5,
  targetM: 4.5,
  how: "",
  cut: "reduction",
  method: "hand",
  timing: "window",
  doseShare,
  limbDiameterM: [0.01, 0.02],
});
const conflict = (
  conflictId: string,
  treeId: string,
  treeRow: number,
  more: Partial<ConflictRecord>,
): ConflictRecord => ({
  conflictId,
  treeId,
  treeRow,
  kind: "roadway",
  withLayer: "roads",
  withId: "r",
  withName: null,
  ruleId: "roadway-headroom",
  measuredM: 4,
  minimumM: 4,
  clearToM: 4.5,
  encroachmentM: 0,
  distanceM: 3,
  bearingDeg: 0,
  admits: ["shorten"],
  certainty: "confirmed",
  basis: "measured",
  doubt: null,
  reachedOn: AS_OF,
  firstSeen: AS_OF,
  hazard: null,
  datumM: 0,
  spanId: null,
  loadCase: null,
  encroachment: null,
  ...more,
});

/** A plan of works with conflicts; each work's first two visits are `A/1` and `A/2`. */
const planWith = (works: readonly Work[], conflicts: readonly ConflictRecord[]): Plan =>
  planOfWork(works, { conflicts });

describe("the risk that visits remove", () => {
  it("is shared among the visits of one conflict by the crown they take, and what none does is told apart", () => {
    const plan = planWith(
      [{ id: "A", at: [0, 0] }],
      [
        conflict("c", "A", 0, { encroachmentM: 2 }),
        conflict("later", "A", 0, { certainty: "probable", reachedOn: addDays(AS_OF, 913) }),
        conflict("possible", "A", 0, { certainty: "possible" }),
      ],
    );
    const [first, second] = plan.prescriptions[0]!.visits as [Visit, Visit];
    const visits = [
      { ...first, tasks: [task(["c"], 0.15)] },
      { ...second, tasks: [task(["c"], 0.05), task(["later"], 0.05)] },
    ];
    const staged = { ...plan, prescriptions: [{ ...plan.prescriptions[0]!, visits }] };
    const { risk, riskWithoutVisit } = budgetDesk(staged, STANDARD, request);
    // Half of the minimum lacking: 1.5 points, three quarters of it by the first visit; the later one is open in half of the cycle of five years.
    expect(risk.ofVisit.get("A/1")).toBeCloseTo(1.125, 9);
    expect(risk.ofVisit.get("A/2")).toBeCloseTo(0.375 + 0.8 * (1 - 913 / 365.25 / 5), 9);
    expect(riskWithoutVisit).toBeCloseTo(0.2, 12);
  });

  it("counts defects for the visit with their tasks, under what the crown reaches over", () => {
    const setting = { walkDistanceM: 1, road: { withId: "x", name: null, distanceM: 20, speedKmh: null } };
    const plan = planWith([{ id: "A", at: [0, 0], tree: { defects: ["hanger", "decay"] }, setting }], []);
    const visits = [{ ...plan.prescriptions[0]!.visits[0]!, tasks: [task([], 0, "remedial")] }];
    const { risk } = budgetDesk({ ...plan, prescriptions: [{ ...plan.prescriptions[0]!, visits }] }, STANDARD, request);
    expect(risk.ofVisit.get("A/1")).toBe(12);
  });
});

const someWork = fc.record({
  hours: fc.integer({ min: 3, max: 12 }),
  dueIn: fc.integer({ min: -200, max: 900 }),
  kind: fc.constantFrom(...CONFLICT_KINDS),
  certainty: fc.constantFrom("confirmed" as const, "probable" as const),
  lacking: fc.double({ min: 0, max: 3, noNaN: true }),
  hazard: fc.option(fc.constantFrom(...HAZARDS), { freq: 5 }),
  seenBefore: fc.integer({ min: 0, max: 700 }),
});

type SomeWork = typeof someWork extends fc.Arbitrary<infer Value> ? Value : never;

function randomPlan(list: readonly SomeWork[]): Plan {
  const works = list.map(({ hours, dueIn, hazard }, at): Work => {
    const due = hazard === null ? addDays(AS_OF, dueIn) : addDays(AS_OF, 14);
    const overdue = due < AS_OF;
    const urgency = hazard === null ? "next-window" : "now";
    return {
      id: `t${at}`,
      at: [at * 10, 0],
      visit: { hours: hours / 10, due, overdue, urgency, tasks: [task([`c${at}`], 0.1)] },
    };
  });
  const conflicts = list.map(({ kind, certainty, lacking, hazard, seenBefore }, at) =>
    conflict(`c${at}`, `t${at}`, at, {
      kind,
      certainty,
      hazard,
      encroachmentM: hazard === null ? lacking / 3 : lacking,
      firstSeen: addDays(AS_OF, -seenBefore),
    }),
  );
  return planWith(works, conflicts);
}

describe("a budget of half the hours", () => {
  it("removes more risk than oldest-first on random plans", () => {
    fc.assert(
      fc.property(fc.array(someWork, { minLength: 40, maxLength: 90 }), (list) => {
        const desk = budgetDesk(randomPlan(list), STANDARD, request);
        const hours = desk.units.reduce((sum, unit) => sum + unit.hours, 0);
        const { chosen, oldestFirst } = desk.choose({ hours: hours / 2 });
        expect(chosen.risk).toBeGreaterThan(oldestFirst.risk);
      }),
      { numRuns: 100, seed: 20261102 },
    );
  });
});

describe("the table of a budget", () => {
  it("has every visit once, and adds up to the figures", () => {
    const list = fc.sample(someWork, { seed: 7, numRuns: 30 });
    const plan = randomPlan(list);
    const desk = budgetDesk(plan, STANDARD, request);
    const choice = desk.choose({ hours: 9 });
    const rows = budgetRows(plan, desk, choice);
    const column = (name: (typeof BUDGET_COLUMNS)[number]) => rows.map((row) => row[BUDGET_COLUMNS.indexOf(name)]);
    const visits = plan.prescriptions.flatMap((one) => one.visits.map(({ visitId }) => visitId));
    expect([...column("visit")].sort()).toEqual([...visits].sort());
    const figures = budgetFigures(desk, choice);
    const sum = (name: (typeof BUDGET_COLUMNS)[number], isLeft: boolean): number =>
      rows
        .filter((row) => (row[1] === "left") === isLeft)
        .reduce((total, row) => total + Number(row[BUDGET_COLUMNS.indexOf(name)]), 0);
    // Rows are rounded to thousandths and cents.
    expect(sum("risk", false)).toBeCloseTo(figures.chosen.risk_removed, 0);
    expect(sum("hours", true)).toBeCloseTo(figures.left_hours, 1);
    expect(sum("cost", false)).toBeCloseTo(figures.chosen.cost, 0);
    expect(column("order").filter((order) => order !== null)).toEqual(choice.chosen.units.map((_, at) => at + 1));
  });
});

describe("work zones", () => {
  it("are kept whole, with visits in no zone beside them", () => {
    const plan = planWith(
      ["A", "B", "C"].map((id, at) => ({ id, at: [at * 20, 0] })),
      [],
    );
    const zone = { zoneId: "z", visitIds: ["A/1", "C/1"] } as unknown as Plan["zones"][number];
    const { units } = budgetDesk({ ...plan, zones: [zone] }, STANDARD, { ...request, by: "zones" });
    expect(units.map(({ id, visitIds, after }) => [id, visitIds, after])).toEqual([
      ["z", ["A/1", "C/1"], []],
      ["A/2", ["A/2"], ["z"]],
      ["B/1", ["B/1"], []],
      ["B/2", ["B/2"], ["B/1"]],
      ["C/2", ["C/2"], ["z"]],
    ]);
  });
});
