// Source: California Public Utilities Commission, General Order 95, Appendix B, Table 23 (ACSR, bare), read: sizes, diameters, weights and the
// load columns. Load columns typed from the table: wind of 8 lb/ft2 and its resultant; weight with half an inch of ice of 57 lb/ft3, 6 lb/ft2 on
// the iced wire and their resultant. The last two columns, 6 lb/ft2 without ice, are arithmetic on the table's diameter and weight.
import { describe, expect, it, test } from "vitest";
import { ACSR_TABLE, acsrConductor, acsrOf } from "../../src/core/surroundings/conductors/acsr-table.ts";
import { type WireLoad, wireLoad } from "../../src/core/surroundings/conductors/wire-load.ts";
import { swingAngleRad } from "../../src/core/surroundings/conductors/wire-swing.ts";
import { newtonsPerMeter, pascalsFromPsf } from "../../src/core/units/force.ts";
import { metersFromInches } from "../../src/core/units/length.ts";

type Loads = readonly [h8: number, r8: number, wi: number, hi: number, ri: number, h6: number, angleDeg: number];
const LOADS: readonly (readonly [size: string, stranding: string, loads: Loads])[] = [
  ["795", "30/19", [0.76, 1.449, 2.2538, 1.07, 2.495, 0.57, 24.79]],
  ["795", "26/7", [0.7387, 1.319, 2.0928, 1.054, 2.343, 0.554, 26.88]],
  ["795", "54/7", [0.7287, 1.256, 2.0135, 1.0465, 2.269, 0.5465, 28.11]],
  ["397.5", "30/7", [0.5374, 0.821, 1.4327, 0.903, 1.694, 0.403, 33.0]],
  ["397.5", "26/7", [0.522, 0.756, 1.3442, 0.8915, 1.613, 0.3915, 35.62]],
  ["266.8", "26/7", [0.428, 0.564, 1.0769, 0.821, 1.354, 0.321, 41.19]],
  ["4/0", "6/1", [0.3754, 0.476, 0.9531, 0.7815, 1.232, 0.2815, 43.94]],
  ["3/0", "6/1", [0.3347, 0.407, 0.8546, 0.751, 1.138, 0.251, 47.3]],
  ["2/0", "6/1", [0.298, 0.35, 0.7725, 0.7235, 1.058, 0.2235, 50.58]],
  ["1/0", "6/1", [0.2653, 0.303, 0.704, 0.699, 0.992, 0.199, 53.81]],
  ["2", "7/1", [0.2167, 0.242, 0.6202, 0.6625, 0.907, 0.1625, 56.59]],
  ["2", "6/1", [0.2107, 0.23, 0.599, 0.658, 0.89, 0.158, 59.9]],
  ["4", "7/1", [0.1713, 0.184, 0.5381, 0.6285, 0.827, 0.1285, 62.32]],
  ["4", "6/1", [0.1667, 0.176, 0.524, 0.625, 0.816, 0.125, 65.26]],
  ["6", "6/1", [0.132, 0.137, 0.4702, 0.599, 0.762, 0.099, 69.91]],
];

/** The table's rounding: its load columns agree with its own diameters and weights to a thousandth. */
const TOLERANCE_LB_FT = 0.001;
const inPoundsFeet = (loadNPerM: number): number => loadNPerM / newtonsPerMeter(1);
const under = (size: string, stranding: string, psf: number, iceIn: number): WireLoad =>
  wireLoad(acsrConductor(size, stranding)!, pascalsFromPsf(psf), metersFromInches(iceIn));

describe("every row of the table", () => {
  it("is in the code", () => {
    expect(ACSR_TABLE.map((row) => [row.size, `${row.aluminum}/${row.steel}`])).toEqual(
      LOADS.map(([size, stranding]) => [size, stranding]),
    );
  });

  test.each(LOADS)("%s %s carries the loads printed", (size, stranding, [h8, r8, wi, hi, ri, h6, angleDeg]) => {
    const blown = under(size, stranding, 8, 0);
    const iced = under(size, stranding, 6, 0.5);
    const breeze = under(size, stranding, 6, 0);
    const found = [
      blown.windNPerM,
      blown.resultantNPerM,
      iced.verticalNPerM,
      iced.windNPerM,
      iced.resultantNPerM,
      breeze.windNPerM,
    ].map(inPoundsFeet);
    for (const [at, wanted] of [h8, r8, wi, hi, ri, h6].entries())
      expect(Math.abs(found[at]! - wanted)).toBeLessThan(TOLERANCE_LB_FT);
    // The angle is stated to a hundredth of a degree.
    expect(Math.abs((swingAngleRad(breeze) * 180) / Math.PI - angleDeg)).toBeLessThan(0.006);
  });
});

describe("what the rows are made of", () => {
  // AWG and kcmil are definitions: aluminum of 6/1 strands is 6/7 of the area, as all seven are alike. The printed area has four decimals, so
  // the steel of the smallest size, 0.0034 in2, is known to 2 %.
  test.each(ACSR_TABLE.filter(({ aluminum, steel }) => aluminum === 6 && steel === 1))(
    "$size 6/1 is a seventh steel",
    (row) => {
      const wire = acsrOf(row);
      const metals = (6 * 10e6 + 29e6) / 7;
      const psi = wire.stiffnessN / wire.areaM2 / (4.4482216152605 / 0.0254 ** 2);
      expect(Math.abs(psi / metals - 1)).toBeLessThan(0.01);
    },
  );
});
