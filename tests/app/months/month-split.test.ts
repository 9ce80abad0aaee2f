import { expect, test } from "vitest";
import { monthBars } from "../../../src/app/months/month-bars.ts";
import { partHours, splitParts } from "../../../src/app/months/month-split.ts";
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
