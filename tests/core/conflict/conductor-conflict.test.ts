import { describe, expect, it } from "vitest";
import { sweptPolylines } from "../../../src/core/crown/wire/swept-polylines.ts";
import { stillWire } from "../../../src/core/crown/wire/swept-wire.ts";
import { readWireInto, WIRE_STRIDE } from "../../../src/core/crown/wire/wire-columns.ts";
import { RAY_COUNT } from "../../../src/core/model/conflict.ts";
import type { RuleCases } from "../../../src/core/model/load-cases.ts";
import { toPlane } from "../../../src/core/plane/plane.ts";
import type { Standard } from "../../../src/core/standard/standard.ts";
import { randomFrom } from "../../fuzz/random.ts";
import { shipped } from "../standard/shipped.ts";
import { at, features, line, only, point, STANDARD, search, type TreeGiven } from "./scene.ts";

const FT = 0.3048;
/** A sphere of 5 m about a point 10 m up. */
const BALL: TreeGiven = { heightM: 15, baseM: 5, radiusM: 5, error: 0 };

/**
 * A span of 100 m, its wire drawn as tight as any is (0.1 % of sag, 0.1 m) unless a sag is given. It runs east at a distance north of the
 * trunk, its middle beside it.
 */
const conductors = (y: number, properties: Record<string, unknown> = {}): ReturnType<typeof features> =>
  features("conductors", {
    geometry: line([
      [-50, y],
      [50, y],
    ]),
    properties: {
      id: "L",
      voltage: 12_000,
      attachment_height_1: 10,
      attachment_height_2: 10,
      sag: 0,
      conductor: "4/0 6/1 ACSR",
      ...properties,
    },
  });

/** The common standard with its conductor rule held in other load cases. */
const inCases = (loadCases: RuleCases): Standard => ({
  ...STANDARD,
  rules: STANDARD.rules.map((rule) => (rule.kind === "conductor" ? { ...rule, loadCases } : rule)),
});
const STILL = inCases("still");

describe("a wire at rest", () => {
  it("is measured in space from the crown", () => {
    const level = search([BALL], { conductors: conductors(8) }, STILL);
    // 8 - 5, to the centimeter of the search.
    expect(level.settings[0]!.conductor!.crownGapM).toBeCloseTo(3, 2);
    const sagging = search([BALL], { conductors: conductors(8, { sag: 1 }) }, STILL);
    // Over the tree the wire is 9 m up: sqrt(64 + 1) - 5.
    expect(sagging.settings[0]!.conductor!.crownGapM).toBeCloseTo(Math.sqrt(65) - 5, 2);
    expect(sagging.settings[0]!.conductor!.heightM).toBeCloseTo(9, 3);
    expect(sagging.conflicts).toEqual([]);
  });

  it("is a hazard below the legal minimum, with all that lies nearer than the clear-to to be freed", () => {
    const { conflicts, settings } = search([BALL], { conductors: conductors(5.3) }, STILL);
    const conflict = only(conflicts, "conductor");
    expect(conflict.measuredM).toBeCloseTo(0.3, 2);
    expect([conflict.hazard, conflict.certainty]).toEqual(["conductor-minimum", "probable"]);
    expect([conflict.spanId, conflict.loadCase]).toEqual(["L/1", "still"]);
    expect(conflict.region.lowM).toBeCloseTo(9.9 - 10 * FT, 3);
    expect(conflict.region.fromM[0]).toBeCloseTo((5.3 - 10 * FT) / Math.cos((1.5 * Math.PI) / 180), 3);
    expect(settings[0]!.conductor!.approachM).toBeCloseTo(10 * FT, 9);
    // 29 CFR 1926.1408 Table A, up to 50 kV.
    expect(settings[0]!.conductor!.equipmentM).toBeCloseTo(10 * FT, 9);
    expect(settings[0]!.conductor!.bearingDeg).toBeCloseTo(0, 3);
  });

  it("is confirmed where heights, sag, voltage and crown are measured and every crown shape holds it", () => {
    // At 10 m, half way up, the narrowest shape, a cone, is 2.5 m wide: the wire at 1 m runs through all of them.
    const through = only(search([BALL], { conductors: conductors(1) }).conflicts, "conductor");
    expect([through.certainty, through.doubt]).toEqual(["confirmed", null]);
    const given: [Record<string, unknown>, string][] = [
      [{ sag: null }, "sag is assumed"],
      [{ attachment_height_1: null, attachment_height_2: null }, "height of the conductor is assumed"],
      [{ voltage: null }, "voltage is not recorded"],
      [{ insulation: "tree wire" }, "tree wire, which some rules exempt"],
      [{ insulation: "ABC" }, "aerial cable, which rules for bare wire mostly exempt"],
    ];
    for (const [change, doubt] of given) {
      const unsure = only(search([BALL], { conductors: conductors(1, change) }).conflicts, "conductor");
      expect([unsure.certainty, unsure.doubt!.includes(doubt)], doubt).toEqual(["probable", true]);
    }
  });

  it("needs no type of wire to be confirmed at rest, and one for what heat does", () => {
    const atRest = search([BALL], { conductors: conductors(1, { conductor: null }) });
    expect(only(atRest.conflicts, "conductor").certainty).toBe("confirmed");
    // Over the crown: only the hot wire comes down to it.
    const over = { attachment_height_1: 16.6, attachment_height_2: 16.6, sag: 1 };
    const unknown = only(
      search([BALL], { conductors: conductors(0, { ...over, conductor: null }) }).conflicts,
      "conductor",
    );
    expect([unknown.loadCase, unknown.certainty]).toEqual(["maximum-temperature", "probable"]);
    expect(unknown.doubt).toContain("type of wire is assumed");
    // In which weather it comes nearest is a figure of its own, no doubt.
    expect(unknown.doubt).not.toContain("earest");
  });
});

describe("load cases", () => {
  // The middle of the span hangs 17 - 1 = 16 m up in still air, 1 m over the top of the ball.
  const over = conductors(0, { attachment_height_1: 17, attachment_height_2: 17, sag: 1 });

  it("let heat bring a wire down to a crown that the still wire clears", () => {
    expect(search([BALL], { conductors: over }, STILL).conflicts).toEqual([]);
    const hot = only(search([BALL], { conductors: over }).conflicts, "conductor");
    // 4.263 N/m pull 4.263 x 100^2 / 8 = 5329 N; E A is 11.0e6 N, alpha dt 10.75e-6 x 70 = 7.525e-4. At 130 F the pull H solves
    // H^2 (H - 5329 + 4.263^2 100^2 11.0e6 / (24 x 5329^2) + 8278) = 4.263^2 100^2 11.0e6 / 24 = 8.33e10, H = 3054 N: 5329 / 3054 = 1.745 m.
    expect(hot.loadCase).toBe("maximum-temperature");
    expect(hot.measuredM).toBeCloseTo(2 - 1.745, 2);
    expect([hot.certainty, hot.doubt]).toEqual(["confirmed", null]);
    // Between the wire and the top of the crown below it.
    expect(hot.nearest!.thing.heightM - hot.nearest!.crown.heightM).toBeCloseTo(hot.measuredM, 2);
    const unsure = conductors(0, { attachment_height_1: 17, attachment_height_2: 17, sag: 1, insulation: "covered" });
    expect(only(search([BALL], { conductors: unsure }).conflicts, "conductor").loadCase).toBe("maximum-temperature");
    // To the lowest place of the wire less the clear-to of 10 ft.
    expect(hot.region.lowM).toBeCloseTo(15 + hot.measuredM - 10 * FT, 2);
  });

  it("let wind bring a wire over to a crown that it clears at rest", () => {
    // 12 m up less 2 m of sag, 6.2 m from the trunk: 1.2 m from the ball; 6 lb/ft2 swing it by 44 degrees, 2 x sin 44 = 1.4 m.
    const beside = conductors(6.2, { attachment_height_1: 12, attachment_height_2: 12, sag: 2 });
    expect(search([BALL], { conductors: beside }).conflicts).toEqual([]);
    const swung = only(search([BALL], { conductors: beside }, inCases("blow-out")).conflicts, "conductor");
    expect(swung.loadCase).toBe("wind-6-psf");
    expect(swung.measuredM).toBeLessThan(0.2);
    // The region begins nearer to the trunk by the swing, and never at it.
    const first = swung.region.fromM[0]!;
    expect(first).toBeGreaterThan(6.2 - 1.7 - 10 * FT);
    expect(first).toBeLessThan(6.2 - 1.3 - 10 * FT);
    expect(Math.min(...swung.region.fromM)).toBeGreaterThan(0);
  });

  it("do not move the wire that people keep away from in a storm", () => {
    const beside = conductors(6.2, { attachment_height_1: 12, attachment_height_2: 12, sag: 2 });
    const { settings } = search([BALL], { conductors: beside }, inCases("blow-out"));
    expect(settings[0]!.conductor!.crownGapM).toBeCloseTo(1.2, 1);
  });
});

describe("voltages", () => {
  it("below every rule have a setting only, and unknown ones are distribution", () => {
    const low = search([BALL], { conductors: conductors(5.3, { voltage: 400 }) });
    expect(low.conflicts).toEqual([]);
    expect(low.settings[0]!.conductor!.voltageV).toBe(400);
    expect(low.settings[0]!.notChecked).not.toContain("conductor");
    expect(low.around.findings.map(({ code }) => code)).toContain("conductor-low-voltage");
    const dark = search([BALL], { conductors: conductors(5.3, { voltage: null }) });
    // The largest of the standard's table: 24 ft.
    expect(dark.settings[0]!.conductor!.approachM).toBeCloseTo(24 * FT, 9);
    expect(only(dark.conflicts, "conductor").doubt).toContain("voltage is not recorded");
  });

  it("without a rule are told, and leave the tree unchecked", () => {
    const found = search([BALL], { conductors: conductors(7, { voltage: "132 kV" }) });
    expect(found.conflicts).toEqual([]);
    expect(found.settings[0]!.notChecked).toContain("conductor");
    expect(found.findings.map(({ code, feature }) => [code, feature])).toContainEqual(["conductor-without-rule", "t0"]);
    expect(found.around.findings.map(({ code }) => code)).toContain("conductor-without-rule");
    // 132 kV line to line is in the band up to 145 kV: 11 ft 4 in, and 15 ft for equipment.
    expect(found.settings[0]!.conductor!.approachM).toBeCloseTo(11 * FT + 4 * 0.0254, 9);
    expect(found.settings[0]!.conductor!.equipmentM).toBeCloseTo(15 * FT, 9);
  });

  it("take the rule of their class, and its minimum at the place's altitude", () => {
    const standard = shipped("transmission");
    const given = conductors(5.3, { voltage: "11000;132000" });
    const unknown = only(search([BALL], { conductors: given }, standard).conflicts, "conductor");
    expect(unknown.ruleId).toBe("conductor-transmission-138-kv");
    // The class of 138 kV: 3.2 ft at 15,000 ft, 2.3 ft up to 500 ft (from memory, as the profile says).
    expect(unknown.minimumM).toBeCloseTo(3.2 * FT, 9);
    const atSea = { ...standard, conductor: { ...standard.conductor, altitudeM: 0 } };
    expect(only(search([BALL], { conductors: given }, atSea).conflicts, "conductor").minimumM).toBeCloseTo(2.3 * FT, 9);
  });
});

describe("heights", () => {
  it("count from the ground where its elevation is given on both sides", () => {
    const given = conductors(0, { attachment_height_1: 17, attachment_height_2: 17, ground_z_1: 100, ground_z_2: 100 });
    // A tree 1.9 m uphill has the wire 17 - 0.1 - 1.9 = 15 m above its foot, at the top of its crown.
    const uphill = search([{ ...BALL, groundZM: 101.9 }], { conductors: given }, STILL);
    expect(only(uphill.conflicts, "conductor").measuredM).toBeCloseTo(0, 2);
    const level = search([BALL], { conductors: given }, STILL);
    expect(level.settings[0]!.conductor!.heightM).toBeCloseTo(16.9, 2);
  });

  it("come from poles at the vertices, whose own height makes them estimates", () => {
    const layer = features(
      "conductors",
      {
        geometry: line([
          [-50, 0],
          [0, 0],
          [50, 0],
        ]),
        properties: { id: "L", voltage: 12_000, sag: 0 },
      },
      { geometry: point(-50, 1), properties: { attachment_height_1: 12 } },
      { geometry: point(0, 0.5), properties: { height: 20 } },
      { geometry: point(50, 0), properties: { attachment_height_1: 14 } },
    );
    const { settings, around } = search([{ ...BALL, heightM: 9, x: 0, y: 3 }], { conductors: layer }, STILL);
    expect(around.surroundings.features[0]!.heightSource).toContain("estimated");
    // The crown ends at 9 m under a wire that rises to 20 m at the middle pole: the nearest place is down the line.
    expect(settings[0]!.conductor!.heightM).toBeGreaterThan(12);
    expect(settings[0]!.conductor!.heightM).toBeLessThan(20);
  });
});

describe("a tree that falls", () => {
  const strikes = (heightM: number, y: number): boolean =>
    search([{ ...BALL, heightM, baseM: heightM / 2, radiusM: 1 }], { conductors: conductors(y) }, STILL).settings[0]!
      .spans?.[0]?.canStrike ?? false;

  it("strikes a wire within its height of its foot", () => {
    // A wire 10 m up and 17.32 m away is 20 m from the foot.
    expect([strikes(20, 17.2), strikes(20, 17.4)]).toEqual([true, false]);
    // Farther than 30 m for a tall tree: sqrt(40^2 - 10^2) = 38.7 m.
    expect([strikes(40, 38.6), strikes(40, 38.9)]).toEqual([true, false]);
  });
});

describe("what is to be freed about a swept wire", () => {
  it("begins no farther from the trunk than where a place of the wire comes nearer than the clear-to in plan", () => {
    const random = randomFrom(5);
    const between = (low: number, high: number): number => low + ((high - low) * random(2 ** 30)) / 2 ** 30;
    const standard = inCases("blow-out");
    const clearToM = 10 * FT;
    let checked = 0;
    for (let run = 0; run < 12; run += 1) {
      const given = conductors(between(6.5, 8), {
        attachment_height_1: between(11, 15),
        attachment_height_2: between(11, 15),
        sag: between(1, 3),
        insulator_length: between(0, 1),
      });
      const tree = { ...BALL, x: between(-40, 40), radiusM: 6, heightM: 17 };
      const { conflicts, around } = search([tree], { conductors: given }, standard);
      const conflict = conflicts.find(({ kind }) => kind === "conductor");
      if (conflict === undefined) continue;
      const shapes = [...around.surroundings.planes.values()][0]!;
      const [treeX, treeY] = toPlane(shapes.plane, ...(at(tree.x, 0) as [number, number]));
      const wire = stillWire(0, 0, 0, 0, 0, 0, 0);
      const places: [number, number, number][] = [];
      for (let place = 0; place < shapes.spanWire[1]!; place += 1) {
        readWireInto(wire, shapes.wires, place * WIRE_STRIDE);
        for (const points of sweptPolylines(wire, 0.3))
          for (let one = 0; one < points.length; one += 3)
            if (Math.hypot(points[one]! - treeX, points[one + 1]! - treeY) < 12)
              places.push([points[one]! - treeX, points[one + 1]! - treeY, points[one + 2]!]);
      }
      // Where the wire swings over the trunk's own surroundings the rays behind it stay out; not what is asked here.
      if (places.some(([x, y]) => Math.hypot(x, y) < clearToM)) continue;
      for (let ray = 0; ray < RAY_COUNT; ray += 1) {
        const bearing = ((ray + 0.5) * 3 * Math.PI) / 180;
        for (let alongM = 1; alongM < 6; alongM += 1) {
          const [x, y] = [alongM * Math.sin(bearing), alongM * Math.cos(bearing)];
          const nearM = places.reduce((least, [px, py]) => Math.min(least, Math.hypot(px - x, py - y)), Infinity);
          if (nearM >= clearToM) continue;
          checked += 1;
          expect(conflict.region.fromM[ray]!).toBeLessThanOrEqual(alongM + 1e-6);
        }
      }
      const lowest = places.reduce(
        (least, [x, y, z]) => (Math.hypot(x, y) < 6 + clearToM ? Math.min(least, z) : least),
        Number.POSITIVE_INFINITY,
      );
      // The lines of the outline are sampled a meter apart: a wire falls by less than a centimeter between them near its lowest place.
      expect(conflict.region.lowM).toBeLessThanOrEqual(lowest - clearToM + 0.05);
    }
    expect(checked).toBeGreaterThan(500);
  });
});
