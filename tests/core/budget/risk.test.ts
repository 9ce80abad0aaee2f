import { describe, expect, it } from "vitest";
import { type RiskFacts, riskPoints } from "../../../src/core/budget/risk.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { resolveStandard } from "../../../src/core/standard/resolve-standard.ts";

const rules = usCommon().risk;
const unit: RiskFacts = {
  fault: "below-minimum",
  certainty: "confirmed",
  shortfallShare: 0,
  overdueYears: 0,
  exposure: "local-residential",
  openShare: 1,
};
const points = (facts: Partial<RiskFacts>): number => riskPoints({ ...unit, ...facts }, rules);

describe("the risk of one fault", () => {
  it("is 1 for a confirmed branch just below its minimum over a residential street", () => {
    expect(points({})).toBe(1);
  });

  it("multiplies the weights that the standard states", () => {
    // Hidden sign 20, probable 0.8, collector 2, half of the minimum lacking 1.5, a year overdue 1.5, open in half of the cycle.
    const facts = { fault: "sign-hidden", certainty: "probable", exposure: "collector" } as const;
    expect(points({ ...facts, shortfallShare: 0.5, overdueYears: 1, openShare: 0.5 })).toBeCloseTo(
      20 * 0.8 * 2 * 1.5 * 1.5 * 0.5,
      12,
    );
  });

  it("never falls when any of its parts gets worse", () => {
    const steps: Partial<RiskFacts>[][] = [
      [{ certainty: "possible" }, { certainty: "probable" }, { certainty: "confirmed" }],
      [0, 0.2, 0.9, 1, 4].map((shortfallShare) => ({ shortfallShare })),
      [-1, 0, 0.5, 2, 30].map((overdueYears) => ({ overdueYears })),
      [0, 0.3, 1, 2].map((openShare) => ({ openShare })),
      [{ fault: "training" }, { fault: "below-minimum" }, { fault: "vehicle-height" }, { fault: "sign-hidden" }],
      [
        { exposure: "elsewhere" },
        { exposure: "local-residential" },
        { exposure: "collector" },
        { exposure: "freeway" },
      ],
    ];
    for (const row of steps) {
      const risks = row.map(points);
      expect([...risks].sort((a, b) => a - b)).toEqual(risks);
    }
  });

  it("counts what is lacking and what is overdue up to a bound", () => {
    expect(points({ shortfallShare: 7 })).toBe(points({ shortfallShare: 1 }));
    expect(points({ overdueYears: 100 })).toBe(1 + rules.overdueMost);
  });

  it("takes the weights of a city's own standard", () => {
    const resolved = resolveStandard({
      extends: "us-common",
      title: "A city that weighs walks",
      risk: { exposureWeights: { walkway: 5 } },
    });
    if ("faults" in resolved) throw new Error(resolved.faults.join("\n"));
    expect(riskPoints({ ...unit, exposure: "walkway" }, resolved.standard.risk)).toBe(5);
    expect(resolved.standard.changes.map(({ path, from, to }) => [path, from, to])).toEqual([
      ["risk.exposureWeights.walkway", 1, 5],
    ]);
  });
});
