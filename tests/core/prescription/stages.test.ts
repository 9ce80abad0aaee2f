import { describe, expect, it } from "vitest";
import { crownOf } from "../../../src/core/crown/crown.ts";
import { rayRadiiM } from "../../../src/core/crown/dose.ts";
import { cutFor } from "../../../src/core/prescription/cut.ts";
import { divideIntoStages } from "../../../src/core/prescription/stages.ts";
import { conflict, standard, traits, tree } from "./scene.ts";

// A column loses its dose in proportion to the lift: from 2 m, a depth of 10 m, each meter takes 10 percent.
const column = tree({ habit: "column", baseM: 2, traits: traits({ radiusGrowthMPerYear: 0 }) });
const subject = { tree: column, crown: crownOf(column), radiiM: rayRadiiM(crownOf(column)) };
const lift = cutFor(subject, conflict("roadway", 2), "lift", 0, standard);

describe("dividing work over seasons", () => {
  it("is one visit when the limit holds all of it", () => {
    // To 4.572 m: 25.72 percent.
    const { stages, isComplete } = divideIntoStages(subject, [lift], () => 0.26, standard);
    expect(isComplete).toBe(true);
    expect(stages.map((stage) => stage.doseShare)).toEqual([expect.closeTo(0.2572, 9)]);
  });

  it("counts each stage on the crown that is left", () => {
    const { stages, isComplete } = divideIntoStages(subject, [lift], () => 0.15, standard);
    expect(isComplete).toBe(true);
    // 15 percent first; then 25.72 - 15 = 10.72 of the 85 left = 12.61 percent. Halving stops within 2.572 m / 2^14.
    expect(stages[0]!.doseShare).toBeCloseTo(0.15, 3);
    expect(stages[1]!.doseShare).toBeCloseTo(0.1072 / 0.85, 3);
    expect(stages[0]!.parts[0]!.cut.belowM).toBeCloseTo(3.5, 2);
    expect(stages[0]!.open).toHaveLength(1);
    expect(stages[1]!.open).toHaveLength(0);
  });

  it("stops at three stages and at the ceiling over years", () => {
    const three = divideIntoStages(subject, [lift], () => 0.05, standard);
    expect(three.stages).toHaveLength(3);
    expect(three.isComplete).toBe(false);
    // 1 - 0.95^3 = 14.26 percent: 1.426 m above the base.
    expect(three.farthest!.belowM).toBeCloseTo(2 + 1.426, 2);
    const lower = { ...standard, pruning: { ...standard.pruning, multiYearCeilingShare: 0.2 } };
    const capped = divideIntoStages(subject, [lift], () => 0.15, lower);
    expect(capped.isComplete).toBe(false);
    expect(capped.farthest!.belowM).toBeLessThanOrEqual(4 + 1e-9);
  });

  it("stops where regrowth eats the gain", () => {
    // 1 percent is 0.1 m a season; 0.12 m grows and droops back.
    const { stages, isComplete } = divideIntoStages(subject, [lift], () => 0.01, standard);
    expect(stages).toHaveLength(0);
    expect(isComplete).toBe(false);
  });

  it("finishes the first cut before it begins the next, and shares the dose out", () => {
    const wall = cutFor(
      subject,
      conflict("building-side", 0.2, { distanceM: 4, bearingDeg: 270 }),
      "shorten",
      0,
      standard,
    );
    const { stages } = divideIntoStages(subject, [lift, wall], () => 0.26, standard);
    expect(stages[0]!.parts[0]!.cut).toBe(lift);
    for (const stage of stages) {
      const sum = stage.parts.reduce((total, part) => total + part.doseShare, 0);
      expect(sum).toBeCloseTo(stage.doseShare, 9);
    }
  });
});
