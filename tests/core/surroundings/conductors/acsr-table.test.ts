import { describe, expect, it } from "vitest";
import {
  ACSR_TABLE,
  acsrConductor,
  acsrOf,
  circularMils,
} from "../../../../src/core/surroundings/conductors/acsr-table.ts";
import { compositeStretch, METALS } from "../../../../src/core/surroundings/conductors/conductor-metals.ts";

describe("a size as people write it", () => {
  it.each([
    ["4/0", null, "4/0 6/1"],
    [" 4/0 AWG", null, "4/0 6/1"],
    ["#2", "6/1", "2 6/1"],
    ["2 awg", " 7 / 1", "2 7/1"],
    ["795k", "26/7", "795 26/7"],
    ["397.5 kcmil", "30/7", "397.5 30/7"],
    ["266.8 MCM", null, "266.8 26/7"],
  ])("%s %s is %s", (size, stranding, name) => expect(acsrConductor(size, stranding)?.name).toBe(name));

  it.each([
    ["795", null],
    ["2", null],
    ["4/0", "7/1"],
    ["500", null],
    ["", null],
    ["constructor", null],
  ])("%s %s is not told", (size, stranding) => expect(acsrConductor(size, stranding)).toBeNull());
});

describe("circular mils", () => {
  it("follow from the definition of the gauge: 4/0 is 460 mil thick, 36 is 5", () => {
    expect(circularMils("4/0")).toBeCloseTo(460 ** 2, 6);
    expect(circularMils("36")).toBeCloseTo(25, 9);
    expect(circularMils("1/0")).toBeCloseTo(105_534, -1);
    expect(circularMils("795")).toBe(795_000);
  });

  it("leave some steel in every row", () => {
    for (const row of ACSR_TABLE) {
      const steelIn2 = row.areaIn2 - (circularMils(row.size) * Math.PI) / 4e6;
      expect(steelIn2 / row.areaIn2).toBeGreaterThan(0.08);
      expect(steelIn2 / row.areaIn2).toBeLessThan(0.25);
    }
  });
});

describe("several metals that stretch together", () => {
  it("add up by area: 6 parts of aluminum, 1 of steel", () => {
    const mm2 = 1e-6;
    const wire = compositeStretch([
      { metal: METALS.aluminum, areaM2: 6 * mm2 },
      { metal: METALS.steelSolid, areaM2: mm2 },
    ]);
    // (6 x 10 + 29) / 7 = 12.714e6 psi; (60 x 12.8 + 29 x 6.5) / 89 = 10.747e-6 per F.
    expect(wire.stiffnessN / wire.areaM2 / 6894.757 / 1e6).toBeCloseTo(12.714, 3);
    expect((wire.expansionPerK * 5) / 9 / 1e-6).toBeCloseTo(10.747, 3);
  });
  it("refuse none", () => expect(() => compositeStretch([])).toThrow("some area"));
  it("of one metal are that metal", () => {
    const wire = compositeStretch([{ metal: METALS.copper, areaM2: 1e-4 }]);
    expect(wire.stiffnessN).toBeCloseTo(METALS.copper.modulusPa * 1e-4, 3);
    expect(wire.expansionPerK).toBeCloseTo(METALS.copper.expansionPerK, 12);
  });
});

it("every row weighs what it is made of: aluminum 1.17 and steel 3.4 lb/ft per in2, to 5 %", () => {
  // Densities of 2.70 and 7.78 g/cm3 from memory; strands run 1 to 3 % longer than the wire.
  for (const row of ACSR_TABLE) {
    const aluminumIn2 = (circularMils(row.size) * Math.PI) / 4e6;
    const lbFt = 1.17 * aluminumIn2 + 3.373 * (row.areaIn2 - aluminumIn2);
    expect(Math.abs(lbFt / row.weightLbFt - 1)).toBeLessThan(0.05);
    expect(acsrOf(row).stiffnessN).toBeGreaterThan(0);
  }
});
