import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundCrown } from "../../../../src/core/crown/crown.ts";
import { gapToSpanCases } from "../../../../src/core/crown/wire/gap-to-span-cases.ts";
import { parabolaTensionN } from "../../../../src/core/crown/wire/parabola-sag.ts";
import { sweptPolylines } from "../../../../src/core/crown/wire/swept-polylines.ts";
import { type SweptWire, stillWire, wirePointInto } from "../../../../src/core/crown/wire/swept-wire.ts";
import { LOAD_CASE_IDS, LOAD_CASES, type LoadCaseId, RULE_CASES } from "../../../../src/core/model/load-cases.ts";
import { acsrConductor } from "../../../../src/core/surroundings/conductors/acsr-table.ts";
import { assumedSag } from "../../../../src/core/surroundings/conductors/assumed-sag.ts";
import { changedTensionN } from "../../../../src/core/surroundings/conductors/change-of-state.ts";
import { type SpanInCase, type SpanInput, sweptSpan } from "../../../../src/core/surroundings/conductors/swept-span.ts";
import { blowOut } from "../../../../src/core/surroundings/conductors/wire-swing.ts";
import { metersFromFeet } from "../../../../src/core/units/length.ts";

const GIVEN: SpanInput = {
  ax: 0,
  ay: 0,
  az: 10,
  bx: 60,
  by: 0,
  bz: 10,
  use: "supply",
  sagM: 1,
  sagTemperatureC: null,
  conductor: acsrConductor("4/0"),
  stringM: null,
  rulingSpanM: null,
};
const inCase = (id: LoadCaseId, given: Partial<SpanInput> = {}): SpanInCase =>
  sweptSpan({ ...GIVEN, ...given }, [id]).cases[0]!;
const sagOf = (id: LoadCaseId, given: Partial<SpanInput> = {}): number => inCase(id, given).wire.swungSagM;

describe("a span of 60 m of 4/0 with 1 m of sag at 60 F", () => {
  it("has that sag in still air at 60 F", () => expect(sagOf("still")).toBeCloseTo(1, 10));

  it("lengthens by heat: without pull the sag would be sqrt(1 + 3/8 L^2 alpha dt) = 1.41 m at 130 F", () => {
    // alpha of 4/0: (6 x 10 x 12.8 + 29 x 6.5) / 89 = 10.75e-6 per F; 3/8 x 3600 x 10.75e-6 x 70 = 1.016; sqrt(2.016) = 1.420 m.
    expect(sagOf("maximum-temperature")).toBeLessThan(1.42);
    // The pull falls from 1918 N by some 550 N, and 550 / 11.0e6 of 60 m is 3 mm of the 45 mm grown: sqrt(1 + 1.016 x 42 / 45) = 1.396 m.
    expect(sagOf("maximum-temperature")).toBeGreaterThan(1.39);
    expect(sagOf("maximum-temperature")).toBeLessThan(1.402);
    expect(sagOf("hot-air")).toBeLessThan(sagOf("maximum-temperature"));
  });

  it("swings by its load in wind, hangs as still when it does not blow", () => {
    const { wire, load } = inCase("wind-6-psf");
    expect((wire.swingRad * 180) / Math.PI).toBeCloseTo(43.94, 1);
    expect(wire.stillSagM).toBeCloseTo(1, 10);
    expect(wire.swungSagM).toBeGreaterThan(1);
    expect(load.resultantNPerM).toBeGreaterThan(load.verticalNPerM);
    expect(inCase("maximum-temperature").wire.swingRad).toBe(0);
  });

  it("carries ice in heavy loading, at rest as well", () => {
    const { wire } = inCase("heavy-loading");
    expect(wire.stillSagM).toBeGreaterThan(0.6);
    expect(wire.swungSagM).toBeGreaterThan(wire.stillSagM);
  });

  it("starts from the temperature its sag was stated for", () => {
    const hotC = LOAD_CASES["maximum-temperature"].temperatureC;
    expect(sagOf("maximum-temperature", { sagTemperatureC: hotC })).toBeCloseTo(1, 10);
    expect(sagOf("still", { sagTemperatureC: hotC })).toBeLessThan(1);
  });

  it("counts the slope of its chord in heat", () => {
    const hot = inCase("maximum-temperature", { bz: 30 });
    const weight = hot.load.verticalNPerM;
    const wire = acsrConductor("4/0")!;
    const strungN = parabolaTensionN(60, weight, 1, 20);
    const [cold, warm] = [LOAD_CASES.still, LOAD_CASES["maximum-temperature"]].map(({ temperatureC }) => ({
      loadNPerM: weight,
      temperatureC,
    }));
    expect(hot.tensionN).toBeCloseTo(changedTensionN(60, wire, strungN, cold!, warm!, 20), 6);
  });

  it("sags by its ruling span as all of them do: by the squares of the lengths", () => {
    const shorter = { bx: 30, sagM: 0.25, rulingSpanM: 60 };
    expect(sagOf("maximum-temperature", shorter)).toBeCloseTo(sagOf("maximum-temperature") / 4, 10);
  });
});

describe("what is not known", () => {
  it("is assumed and said", () => {
    const span = sweptSpan({ ...GIVEN, sagM: null, conductor: null }, ["still"]);
    expect(span.sagBasis).toBe("assumed");
    expect(span.conductorBasis).toBe("assumed");
    expect(span.assumptions.join()).toMatch(/sag: .*General Order 95.*conductor: 1\/0 6\/1/);
    expect(sweptSpan(GIVEN, ["still"]).assumptions).toEqual([]);
  });

  it("of sag follows from the example: 5.30 ft in 300 ft, 1 % of 100 ft, the table for communication", () => {
    expect(assumedSag(metersFromFeet(300), "supply").sagM).toBeCloseTo(metersFromFeet(5.3), 12);
    expect(assumedSag(metersFromFeet(100), "supply").sagM).toBeCloseTo(metersFromFeet(1), 12);
    expect(assumedSag(metersFromFeet(100), "communication").sagM).toBeCloseTo(metersFromFeet(4.5 / 12), 12);
    // Beyond the table by the square: half of 100 ft is a quarter of 4.5 in.
    expect(assumedSag(metersFromFeet(50), "communication").sagM).toBeCloseTo(metersFromFeet(4.5 / 48), 12);
  });

  it("refuses what is no span", () => {
    expect(() => sweptSpan({ ...GIVEN, bx: 0 }, ["still"])).toThrow("one place");
    expect(() => sweptSpan({ ...GIVEN, sagM: -1 }, ["still"])).toThrow("got -1 m");
    expect(() => sweptSpan({ ...GIVEN, sagM: Number.NaN }, ["still"])).toThrow(RangeError);
  });
});

describe("load cases", () => {
  it("never combine the greatest temperature with wind", () => {
    for (const { temperatureC, windPa } of Object.values(LOAD_CASES))
      expect(temperatureC > 16 && windPa > 0).toBe(false);
    expect(
      Object.values(RULE_CASES)
        .flat()
        .every((id) => LOAD_CASE_IDS.includes(id)),
    ).toBe(true);
  });
});

describe("the swept wire", () => {
  const at = { xM: 0, yM: 0, zM: 0 };
  it("begins and ends at its attachments, and hangs below by its sag", () => {
    const wire = stillWire(0, 0, 10, 30, 40, 14, 2);
    wirePointInto(at, wire, 0, 0);
    expect(at).toEqual({ xM: 0, yM: 0, zM: 10 });
    wirePointInto(at, wire, 0.5, 0);
    expect(at).toEqual({ xM: 15, yM: 20, zM: 10 });
    wirePointInto(at, wire, 1, 0);
    expect(at).toEqual({ xM: 30, yM: 40, zM: 14 });
  });

  it("swings to the left by a positive angle, as the blow-out has it", () => {
    const wire: SweptWire = { ...stillWire(0, 0, 10, 60, 0, 10, 2), swingRad: 0.8, stringM: 1 };
    wirePointInto(at, wire, 0.5, 0.8);
    const { acrossM, belowM } = blowOut(2, 0.8, 1);
    expect(at.yM).toBeCloseTo(acrossM, 12);
    expect(at.zM).toBeCloseTo(10 - belowM, 12);
  });

  it("as lines leaves no gap wider than the step", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const wire = inCase("wind-6-psf", { bz: 13, stringM: 0.8, sagM: 2 }).wire;
    const lines = sweptPolylines(wire, 0.3);
    expect(lines.length % 2).toBe(1);
    fc.assert(
      fc.property(share, share, (along, across) => {
        wirePointInto(at, wire, along, (2 * across - 1) * wire.swingRad);
        let least = Number.POSITIVE_INFINITY;
        for (const line of lines)
          for (let p = 0; p < line.length; p += 3)
            least = Math.min(least, Math.hypot(line[p]! - at.xM, line[p + 1]! - at.yM, line[p + 2]! - at.zM));
        expect(least).toBeLessThan(0.3 * Math.SQRT1_2 + 1e-9);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

describe("the nearest case to a crown", () => {
  const all = sweptSpan({ ...GIVEN, sagM: 1.5 }, ["still", "maximum-temperature", "wind-6-psf"]);
  it("is heat for a crown under the wire", () => {
    const gap = gapToSpanCases(roundCrown(7, 3, 2, "ellipsoid"), all, 30, 0, 0, 10)!;
    expect(gap.caseId).toBe("maximum-temperature");
    expect(gap.gapM).toBeLessThan(10 - 1.5 - 7);
  });
  it("is wind for a crown beside it", () => {
    expect(gapToSpanCases(roundCrown(14, 3, 2, "ellipsoid"), all, 30, 5, 0, 10)!.caseId).toBe("wind-6-psf");
  });
  it("is none out of reach", () => {
    expect(gapToSpanCases(roundCrown(14, 3, 2, "ellipsoid"), all, 30, 50, 0, 10)).toBeNull();
  });
  it("is no farther when more cases are asked", () => {
    const gapIn = (ids: readonly LoadCaseId[]): number =>
      gapToSpanCases(roundCrown(9, 3, 2, "cone"), sweptSpan(GIVEN, ids), 20, 3, 0, 20)!.gapM;
    expect(gapIn(LOAD_CASE_IDS)).toBeLessThanOrEqual(gapIn(["still"]));
  });
});
