import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { FIELDS } from "../../../src/core/model/column-map.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import { features, line, OPTIONS, point, STANDARD, search } from "../conflict/scene.ts";

const LINE = line([
  [0, 0],
  [60, 0],
  [140, 0],
]);
const build = (...given: Parameters<typeof features>[1][]): ReturnType<typeof buildSurroundings> =>
  buildSurroundings({ conductors: features("conductors", ...given) }, {}, STANDARD, OPTIONS);
const wireOf = (properties: Record<string, unknown>) => build({ geometry: LINE, properties }).surroundings.features[0]!;

describe("a line's wire", () => {
  it("takes its sag as given, from tension and weight, or from the published example, and says which", () => {
    expect(wireOf({ sag: "3 ft" }).wire!.sagSource).toBe("as recorded, of the longest span");
    expect(wireOf({ tension: "1200 lb", weight: "0.2921 lb/ft" }).wire!.sagSource).toBe("from tension and weight");
    expect(wireOf({ tension: "1200 lb", conductor: "4/0" }).wire!.sagSource).toBe("from tension and weight");
    expect(wireOf({ tension: "1200 lb" }).wire!.sagSource).toContain("example of 5.30 ft in 300 ft");
  });

  it("hangs as deep as tension and weight say", () => {
    // 4.263 N/m on 80 m at 3410 N: 4.263 x 80^2 / (8 x 3410) = 1.000 m.
    const { settings } = search([{ heightM: 4, baseM: 1, radiusM: 1, x: 100, y: 3 }], {
      conductors: features("conductors", {
        geometry: LINE,
        properties: { voltage: 12_000, attachment_height_1: 10, tension: 3410.4, conductor: "4/0", id: "L" },
      }),
    });
    // At rest, the hot wire is the nearer one to a crown below it: at 130 F it hangs lower than 9 m.
    expect(settings[0]!.conductor!.heightM).toBeLessThan(9);
    expect(settings[0]!.conductor!.heightM).toBeGreaterThan(8.2);
  });

  it("names its spans after the line, or after the span it is", () => {
    expect(wireOf({ id: "L" }).wire!.spanIds).toEqual(["L/1", "L/2"]);
    expect(wireOf({ id: "L", span: "S7" }).wire!.spanIds).toEqual(["S7/1", "S7/2"]);
    const short = line([
      [0, 0],
      [60, 0],
    ]);
    const twice = build(
      { geometry: short, properties: { span: "S7" } },
      { geometry: short, properties: { span: "S7" } },
    );
    expect(twice.surroundings.features.map(({ wire }) => wire!.spanIds)).toEqual([["S7"], ["S7~2"]]);
  });

  it("takes higher supports for higher voltages where none are known", () => {
    const heights = [12_000, 115_000, 230_000, 500_000].map((voltage) => wireOf({ voltage }).heightM! / 0.3048);
    expect(heights.map((feet) => Number(feet.toFixed(6)))).toEqual([30, 50, 65, 90]);
    expect(wireOf({}).heightM! / 0.3048).toBeCloseTo(30, 9);
  });

  it("is told to be implausible where it sags too deep, and then assumed", () => {
    const { findings, surroundings } = build({ geometry: LINE, properties: { sag: 60, voltage: 12_000 } });
    expect(findings.map(({ code }) => code)).toContain("sag-implausible");
    expect(surroundings.features[0]!.wire!.sagSource).toContain("assumed");
  });

  it("has values that cannot be true told, each once", () => {
    const { findings } = build({
      geometry: LINE,
      properties: { tension: "1e9", weight: 900, attachment_height_1: -3 },
    });
    const told = findings.filter(({ code }) => code === "conductor-value-unusable");
    expect(told.map(({ field, value }) => [field, value])).toEqual([
      ["weight", "900"],
      ["tension", "1e9"],
      ["attachment_height_1", "-3"],
    ]);
  });

  it("of messages has no rule, and no voltage", () => {
    const { surroundings, findings } = build({ geometry: LINE, properties: { communication: "line" } });
    expect([surroundings.features[0]!.wire!.ruleId, surroundings.features[0]!.voltageV]).toEqual([null, null]);
    expect(findings.map(({ code }) => code)).not.toContain("conductor-voltage-unknown");
  });
});

describe("any values of a line", () => {
  it("are read without a throw, and every span is counted", () => {
    const odd = fc.constantFrom<unknown>(
      null,
      "",
      "x",
      "-1",
      0,
      -5,
      1e-12,
      1e12,
      "1e300",
      Number.MAX_VALUE,
      "11000;132000",
      "abc",
      "4/0 6/1",
      "9999 lb",
      "0.0001 N/m",
      "60 F",
      true,
      [],
      {},
      "0 ft",
      "12 in",
      "99999 ft",
    );
    const fields = Object.fromEntries(FIELDS.conductors.map((field) => [field, odd]));
    const places = fc.array(fc.tuple(fc.integer({ min: -3, max: 3 }), fc.integer({ min: 0, max: 2 })), {
      minLength: 2,
      maxLength: 6,
    });
    fc.assert(
      fc.property(fc.record(fields), places, fc.constantFrom(1, 40, 900), (properties, corners, scaleM) => {
        const geometry = line(corners.map(([x, y]) => [x * scaleM, y * scaleM] as const));
        const pole = { geometry: point(0, 0), properties };
        const { conflicts, around } = search([{ heightM: 12, baseM: 3, radiusM: 4 }], {
          conductors: features("conductors", { geometry, properties }, pole),
        });
        for (const { measuredM, region } of conflicts)
          expect([Number.isFinite(measuredM), region.highM >= region.lowM]).toEqual([true, true]);
        const { wire } = around.surroundings.features[0]!;
        if (wire !== undefined) expect(wire.spanIds.length).toBe(corners.length - 1);
      }),
      { seed: 9, numRuns: 1500 },
    );
  });
});
