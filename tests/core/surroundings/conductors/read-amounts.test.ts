import { describe, expect, it } from "vitest";
import { alongLine } from "../../../../src/core/surroundings/conductors/along-line.ts";
import {
  parseTemperatureC,
  parseTensionN,
  parseWeightNPerM,
} from "../../../../src/core/surroundings/conductors/parse-amount.ts";
import { conductorByWeight, parseConductor } from "../../../../src/core/surroundings/conductors/parse-conductor.ts";

describe("amounts of a wire", () => {
  it("take a unit in the text before the column's", () => {
    expect(parseTensionN("8 kN", "N")).toBe(8000);
    // A pound-force is 0.45359237 x 9.80665 N.
    expect(parseTensionN("1000 lb", "N")).toBeCloseTo(4448.2216, 4);
    expect(parseTensionN(2.5, "kN")).toBe(2500);
    // 4/0 6/1 weighs 0.2921 lb/ft, 0.2921 x 4.4482216 / 0.3048 N/m.
    expect(parseWeightNPerM("0.2921 lb/ft", "N/m")).toBeCloseTo(4.2629, 4);
    expect(parseWeightNPerM(0.5, "kg/m")).toBeCloseTo(4.903325, 9);
    expect(parseTemperatureC("60 F", "C")).toBeCloseTo(15.5556, 4);
    expect(parseTemperatureC("15 °C", "F")).toBe(15);
  });

  it("are null where they are none", () => {
    expect([parseTensionN("8 m", "N"), parseTensionN("-5", "N"), parseTensionN("much", "N")]).toEqual([
      null,
      null,
      null,
    ]);
    expect([parseWeightNPerM("0", "N/m"), parseWeightNPerM(null, "N/m")]).toEqual([null, null]);
    expect([parseTemperatureC("500 F", "C"), parseTemperatureC("1".repeat(80), "C")]).toEqual([null, null]);
  });
});

describe("types of conductors", () => {
  it("are read as people write them", () => {
    for (const text of ["4/0 6/1 ACSR", "ACSR 4/0", "#4/0 AWG (6/1)", "6/1 4/0"])
      expect(parseConductor(text)?.name, text).toBe("4/0 6/1");
    expect(parseConductor("795 kcmil 26/7")?.name).toBe("795 26/7");
    // Three strandings, none named; a material the table has not.
    expect([parseConductor("795"), parseConductor("4/0 copper weld"), parseConductor(null)]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it("are told by weight, keeping the weight", () => {
    const found = conductorByWeight(4.3);
    expect([found.name, found.weightNPerM]).toEqual(["4/0 6/1", 4.3]);
  });
});

describe("heights along a line", () => {
  const along = (...known: (number | null)[]): number[] | null => {
    const heights = alongLine(known, [10, 30, 20, 40].slice(0, known.length - 1));
    return heights === null ? null : [...heights];
  };

  it("run evenly between known ones and stay beyond the last", () => {
    expect(along(10, null, 14)).toEqual([10, 11, 14]);
    expect(along(null, 8, null, 10, null)).toEqual([8, 8, 9.2, 10, 10]);
    expect(along(null, null, 7)).toEqual([7, 7, 7]);
    expect(along(null, null)).toBeNull();
  });
});
