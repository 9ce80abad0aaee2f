import { beforeAll, describe, expect, it } from "vitest";
import { type BudgetDesk, budgetDesk } from "../../../src/core/budget/plan-budget.ts";
import { SHIPPED_RATES } from "../../../src/core/budget/rates.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { openPlanAlone } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { townPlan } from "./recorded-town.ts";

const DIVIDED = ["visits", "zones"] as const;
let plan: Plan;
beforeAll(async () => {
  plan = await openPlanAlone(memorySource(await townPlan(500)));
}, 120_000);

const deskBy = (by: (typeof DIVIDED)[number]): BudgetDesk =>
  budgetDesk(plan, usCommon(), { by, rates: SHIPPED_RATES, until: null });
const hoursOf = ({ units }: BudgetDesk): number => units.reduce((sum, { hours }) => sum + hours, 0);

describe.each(DIVIDED)("a budget on the sample town, by %s", (by) => {
  it("without a limit is the plan", () => {
    const { chosen, left } = deskBy(by).choose({ hours: Number.POSITIVE_INFINITY });
    const all = plan.prescriptions.flatMap(({ visits }) => visits.map(({ visitId }) => visitId));
    expect(chosen.units.flatMap(({ visitIds }) => visitIds).sort()).toEqual([...all].sort());
    expect(left).toEqual([]);
  });

  it("of half the hours removes more risk than oldest-first and holds every deadline", () => {
    const desk = deskBy(by);
    const { chosen, oldestFirst, deadlinesMissed, whole } = desk.choose({ hours: hoursOf(desk) / 2 });
    expect(chosen.risk).toBeGreaterThan(oldestFirst.risk);
    expect(chosen.risk).toBeGreaterThan(whole.risk / 2);
    expect(deadlinesMissed).toEqual([]);
  });

  it("removes no less with more hours", () => {
    const desk = deskBy(by);
    const risks = [0, 0.1, 0.25, 0.5, 0.75, 1].map(
      (share) => desk.choose({ hours: share * hoursOf(desk) }).chosen.risk,
    );
    expect([...risks].sort((a, b) => a - b)).toEqual(risks);
  });
});
