import { describe, expect, it } from "vitest";
import { crownVolumeM3 } from "../../../src/core/budget/crown-volume.ts";
import { parseRates, type Rates, SHIPPED_RATES } from "../../../src/core/budget/rates.ts";
import { visitCost } from "../../../src/core/budget/visit-cost.ts";
import type { Visit } from "../../../src/core/model/prescription.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { planOfWork } from "../zone/plan-of-work.ts";

const treeWith = (tree: Partial<Tree>): Tree => planOfWork([{ id: "A", at: [0, 0], tree }]).trees[0]!;
const size = (valueM: number): Tree["height"] => ({
  valueM,
  lowM: valueM,
  highM: valueM,
  basis: "measured",
  source: "test",
});
const round = (radiusM: number): Tree["radii"] => ({
  northM: radiusM,
  eastM: radiusM,
  southM: radiusM,
  westM: radiusM,
});
const visitWith = (visit: Partial<Visit>): Visit =>
  planOfWork([{ id: "A", at: [0, 0], visit }]).prescriptions[0]!.visits[0]!;
const rates: Rates = {
  currency: "USD",
  perCrewHour: { ground: 100, aerial: 200, "line-clearance": 300, utility: 400 },
  debris: { chipsPerCrownM3: 0.01, perM3: 50 },
  lift: [
    { upToM: 10, perHour: 0 },
    { upToM: 15, perHour: 30 },
  ],
  source: "test",
};

describe("the volume of a crown", () => {
  it("is that of the solid: ellipsoid 4/3 pi abc, cone a third of the cylinder", () => {
    const ball = { height: size(9), crownBase: size(1), radii: round(4) };
    expect(crownVolumeM3(treeWith({ ...ball, habit: "ellipsoid" }))).toBeCloseTo((4 / 3) * Math.PI * 64, 9);
    expect(crownVolumeM3(treeWith({ ...ball, habit: "column" }))).toBeCloseTo(Math.PI * 16 * 8, 9);
    expect(crownVolumeM3(treeWith({ ...ball, habit: "cone" }))).toBeCloseTo((Math.PI * 16 * 8) / 3, 9);
  });

  it("adds a quarter of an ellipse for each quadrant", () => {
    const radii = { northM: 1, eastM: 2, southM: 3, westM: 4 };
    // pi/4 (1*2 + 2*3 + 3*4 + 4*1) = 6 pi, times 5 m of a column.
    const tree = treeWith({ height: size(7), crownBase: size(2), radii, habit: "column" });
    expect(crownVolumeM3(tree)).toBeCloseTo(30 * Math.PI, 9);
  });
});

describe("the cost of a visit", () => {
  const tree = treeWith({ height: size(12), crownBase: size(2), radii: round(1), habit: "column" });

  it("is hours by crew and lift, and chips", () => {
    const cost = visitCost(tree, visitWith({ crew: "aerial", hours: 2, doseShare: 0.2 }), rates, true);
    // A column of 10 m on pi m2, a fifth of it, a hundredth of that in chips; no task says how high: the top, 12 m.
    expect(cost.debrisM3).toBeCloseTo(Math.PI * 10 * 0.2 * 0.01, 12);
    expect(cost.reachM).toBe(12);
    expect(cost.money).toBeCloseTo(2 * (200 + 30) + Math.PI * 0.02 * 50, 9);
  });

  it("has no lift on the ground and for crews that climb; above the last row that row holds", () => {
    const visit = visitWith({ crew: "line-clearance", hours: 1, doseShare: 0 });
    expect(visitCost(tree, visit, rates, false).money).toBe(300);
    expect(visitCost(tree, visitWith({ crew: "ground", hours: 1, doseShare: 0 }), rates, true).money).toBe(100);
    const tall = treeWith({ height: size(40) });
    expect(visitCost(tall, visit, rates, true).money).toBe(330);
  });
});

describe("rates", () => {
  it("ship as estimates, and a file may name some of them", () => {
    const parsed = parseRates({ perCrewHour: { ground: 99 }, source: "Contract 7" });
    if ("faults" in parsed) throw new Error(parsed.faults.join());
    expect(parsed.rates).toEqual({
      ...SHIPPED_RATES,
      perCrewHour: { ...SHIPPED_RATES.perCrewHour, ground: 99 },
      source: "Contract 7",
    });
  });

  it("are refused with the member that is wrong", () => {
    for (const [json, fault] of [
      [[], /JSON object/],
      [{ perCrewHour: { ground: -1 } }, /perCrewHour\.ground/],
      [{ perCrewHour: { gardener: 3 } }, /perCrewHour/],
      [{ currency: "dollars" }, /currency/],
      [
        {
          lift: [
            { upToM: 9, perHour: 1 },
            { upToM: 3, perHour: 2 },
          ],
        },
        /ascending/,
      ],
      [{ hourly: 3 }, /hourly|nrecognized/],
    ] as const) {
      const parsed = parseRates(json);
      expect("faults" in parsed ? parsed.faults.join(" ") : "taken").toMatch(fault);
    }
  });
});
