import { expect, test } from "vitest";
import { monthBars } from "../../../src/app/months/month-bars.ts";
import { partHours, splitParts, usedParts } from "../../../src/app/months/month-split.ts";
import { AS_OF, smallPlan } from "../small-plan.ts";

const bars = monthBars(
  smallPlan(20).prescriptions.flatMap((one) => one.visits),
  AS_OF,
);

test.each(["urgency", "crew"] as const)("the layers by %s add up to the bar", (split) => {
  for (const bar of bars) {
    const sum = splitParts(split).reduce((hours, { key }) => hours + partHours(bar, key), 0);
    expect(sum).toBeCloseTo(bar.hours, 9);
  }
});

test("only layers with work are named", () => {
  const used = usedParts("crew", bars).map(({ key }) => key);
  const crews = new Set(smallPlan(20).prescriptions.flatMap((one) => one.visits.map((visit) => visit.crew)));
  expect(new Set(used)).toEqual(crews);
});
