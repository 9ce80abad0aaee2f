import { describe, expect, it } from "vitest";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { SIGHT_VEHICLES } from "../../src/core/standard/sight-rules.ts";
import { timeGapS } from "../../src/core/surroundings/sight/time-gap.ts";

/**
 * Sources: TxDOT Roadway Design Manual 13.5.2 Table 13-2, left turn from a stop, with its notes on lanes, and 13.5.3, turn from a yield (read);
 * Kentucky Table 10.1, right turn from a stop, and its page on grades (read); Highway Engineering Handbook Table 2.3A, crossing (read); case F of a
 * passenger car: Green Book chapter 9 as scanned in a city's agenda of 2017 (second-hand). Its trucks are from memory and not tested.
 */
const rules = usCommon().sight;
const seconds = (name: keyof typeof rules.gaps): number[] =>
  SIGHT_VEHICLES.map((vehicle) => rules.gaps[name].seconds[vehicle]);

describe("time gaps of passenger cars, single-unit and combination trucks", () => {
  it("are the published ones", () => {
    expect(seconds("turnAcross")).toEqual([7.5, 9.5, 11.5]);
    expect(seconds("turnNear")).toEqual([6.5, 8.5, 10.5]);
    expect(seconds("crossing")).toEqual([6.5, 8.5, 10.5]);
    expect(seconds("turnFromYield")).toEqual([8, 10, 12]);
    expect(seconds("turnFromMajor")[0]).toBe(5.5);
  });

  it("grow by 0.5 s a lane crossed beyond the first for cars and 0.7 s for trucks; a median counts by its width over 12 ft", () => {
    const truck = { ...rules, vehicle: "combination" as const };
    expect(timeGapS(rules, rules.gaps.turnAcross, 1, 0, null)).toBeCloseTo(8, 9);
    expect(timeGapS(truck, rules.gaps.turnAcross, 2, 0, null)).toBeCloseTo(12.9, 9);
    expect(timeGapS(rules, rules.gaps.turnAcross, 1, 24 * 0.3048, null)).toBeCloseTo(9, 9);
  });

  it("grow on upgrades steeper than 3 percent by 0.2 s a percent for the left turn and 0.1 s for the right turn", () => {
    expect(timeGapS(rules, rules.gaps.turnAcross, 0, 0, 4)).toBeCloseTo(8.3, 9);
    expect(timeGapS(rules, rules.gaps.turnNear, 0, 0, 4)).toBeCloseTo(6.9, 9);
    for (const percent of [3, -8]) expect(timeGapS(rules, rules.gaps.turnAcross, 0, 0, percent)).toBe(7.5);
  });
});
