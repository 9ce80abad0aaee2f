import { describe, expect, it } from "vitest";
import { crownOf } from "../../../src/core/crown/crown.ts";
import { rayRadiiM } from "../../../src/core/crown/dose.ts";
import { cutFor } from "../../../src/core/prescription/cut.ts";
import { divideIntoStages, totalDoseShare } from "../../../src/core/prescription/stages.ts";
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
    // 15 percent first. In the year and a half to the next visit 0.12 m a year grow and sink back, 0.18 m or 1.8 percent: 13.2 are
    // found cut, and 25.72 - 13.2 = 12.52 of the 86.8 there come off. Halving stops within 2.572 m / 2^14.
    expect(stages[0]!.doseShare).toBeCloseTo(0.15, 3);
    expect(stages[1]!.doseShare).toBeCloseTo(0.1252 / 0.868, 3);
    // Together 15 + 12.52: what grew back is paid for twice.
    expect(totalDoseShare(stages)).toBeCloseTo(0.2752, 3);
    expect(stages[0]!.parts[0]!.cut.belowM).toBeCloseTo(3.5, 2);
    expect(stages[0]!.open).toHaveLength(1);
    expect(stages[1]!.open).toHaveLength(0);
  });

  it("stops at three stages and at the ceiling over years", () => {
    const three = divideIntoStages(subject, [lift], () => 0.05, standard);
    expect(three.stages).toHaveLength(3);
    expect(three.isComplete).toBe(false);
    // 5; then 3.2 found, + 5 % of 96.8 = 8.04; then 6.24 found, + 5 % of 93.76 = 10.928 percent: 1.093 m above the base.
    expect(three.farthest!.belowM).toBeCloseTo(2 + 1.093, 2);
    const lower = { ...standard, pruning: { ...standard.pruning, multiYearCeilingShare: 0.2 } };
    const capped = divideIntoStages(subject, [lift], () => 0.15, lower);
    expect(capped.isComplete).toBe(false);
    // 15, then 20 - 15 = 5 more from the 13.2 that are found: 18.2 percent, 1.82 m above the base.
    expect(capped.farthest!.belowM).toBeCloseTo(3.82, 2);
  });

  it("stops where regrowth eats the gain", () => {
    // 1 percent is 0.1 m a season; 0.18 m grows and droops back.
    const { stages, isComplete } = divideIntoStages(subject, [lift], () => 0.01, standard);
    expect(stages).toHaveLength(0);
    expect(isComplete).toBe(false);
  });

  it("cuts again what has grown back on a finished side, and says so", () => {
    const wall = cutFor(
      subject,
      conflict("building-side", 0.2, { distanceM: 4, bearingDeg: 270 }),
      "shorten",
      0,
      standard,
    );
    // The wall first: in the first visit it is all done, in the second only its regrowth comes off, beside the rest of the lift.
    const { stages, isComplete } = divideIntoStages(subject, [wall, lift], () => 0.2, standard);
    expect(isComplete).toBe(true);
    const [first, second] = stages;
    expect(first!.parts.map(({ isRegrowth }) => isRegrowth)).toEqual([false, false]);
    expect(second!.parts.map(({ isRegrowth }) => isRegrowth)).toEqual([true, false]);
    expect(second!.parts[0]!.cut).toBe(wall);
    expect(second!.parts[0]!.doseShare).toBeGreaterThan(0);
    // What was there at first and what has grown since came off: more than the cuts alone.
    const once = divideIntoStages(subject, [wall, lift], () => 1, standard);
    expect(totalDoseShare(stages)).toBeGreaterThan(totalDoseShare(once.stages) + 0.01);
  });

  it("has done with the others what they leave nothing of", () => {
    const walk = cutFor(subject, conflict("walkway", 2), "lift", 0, standard);
    // The lift over the lane stops at 3.5 m, well over the 2.74 m of the walk, which is therefore no longer open.
    const { stages } = divideIntoStages(subject, [lift, walk], () => 0.15, standard);
    expect(stages[0]!.open.map((cut) => cut.conflict.kind)).toEqual(["roadway"]);
    expect(stages[0]!.parts[1]!.isRegrowth).toBe(false);
    // A difference of two equal doses.
    expect(stages[0]!.parts[1]!.doseShare).toBeCloseTo(0, 12);
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
