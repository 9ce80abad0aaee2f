// Sources, all read: FHWA Mitigation Strategies for Design Exceptions, Table 3, lane widths in feet (freeway 12; arterial rural 11 to 12, urban
// 10 to 12; collector 10 to 12; local 9 to 12; shoulders, curbs and parking not included); Minneapolis street design guide, parking lane 8 ft
// with its gutter, 7 ft in tight residential streets; Residential Streets, Fig. 2-14, as printed in a council packet of 1993 (access street 22
// to 24 ft of pavement, subcollector 26 ft, 28 ft if parked on both sides, collector 8 + 10 + 10 + 8 = 36 ft); International Fire Code 503.2.1 in
// a fire-access checklist (20 ft wide, 13 ft 6 in high); National Land Survey of Finland on Puttonen et al. 2016 (birches of about 5 m droop
// up to 10 cm overnight, other species up to 20 cm).
import { expect, it, test } from "vitest";
import type { RoadClass } from "../../src/core/model/surroundings.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { buildSurroundings } from "../../src/core/surroundings/build-surroundings.ts";
import { features, line, OPTIONS } from "../core/conflict/scene.ts";
import { ruleOf, shipped } from "../core/standard/shipped.ts";

const FT = 0.3048;
const STANDARD = usCommon();

test.each<[RoadClass, number, number]>([
  ["freeway", 12, 12],
  ["major-arterial", 10, 12],
  ["minor-arterial", 10, 12],
  ["rural-two-lane", 9, 12],
  ["collector", 10, 12],
  ["local-residential", 9, 12],
  ["local-access", 9, 12],
  ["service-alley", 9, 12],
])("lanes of the class %s are %i to %i ft wide in Table 3", (roadClass, leastFt, mostFt) => {
  const { laneM } = STANDARD.widths[roadClass];
  expect(laneM).toBeGreaterThanOrEqual(leastFt * FT - 1e-9);
  expect(laneM).toBeLessThanOrEqual(mostFt * FT + 1e-9);
});

it("no lane is taken narrower or wider than Table 3 has any", () => {
  expect(STANDARD.ways.laneMinM).toBeCloseTo(9 * FT, 9);
  expect(STANDARD.ways.laneMaxM).toBeCloseTo(12 * FT, 9);
});

it("parallel parking takes 8 ft, 7 ft at least", () => {
  const { minM, typicalM, maxM } = STANDARD.ways.parking.parallel;
  expect([minM, typicalM, maxM].map((widthM) => Number((widthM / FT).toFixed(9)))).toEqual([7, 8, 8]);
});

it("two lanes of 10 ft between two parking lanes make the 36 ft of Fig. 2-14", () => {
  const [street] = widthsOf({ class: "local-residential", lanes: 2, parking: "both" });
  expect(street!.typicalM).toBeCloseTo(36 * FT, 9);
});

it("the streets of Fig. 2-14 lie within the widths assumed for their classes", () => {
  const inside = (roadClass: RoadClass, widthFt: number): boolean => {
    const { minM, maxM } = STANDARD.widths[roadClass];
    return minM <= widthFt * FT + 1e-9 && widthFt * FT <= maxM + 1e-9;
  };
  for (const accessFt of [22, 24]) expect(inside("local-access", accessFt)).toBe(true);
  for (const subcollectorFt of [26, 28]) expect(inside("local-residential", subcollectorFt)).toBe(true);
  expect(inside("collector", 36)).toBe(true);
});

it("a fire lane keeps 20 ft of width and 13 ft 6 in of height", () => {
  const fire = shipped("fire-lanes");
  expect(fire.ways.fireLane.minM).toBeCloseTo(20 * FT, 9);
  const rule = ruleOf(fire, "fire-lane-headroom");
  expect(rule.minimumM).toBeCloseTo(13.5 * FT, 9);
  expect(rule.floor?.minimumM).toBeCloseTo(13.5 * FT, 9);
});

it("wet branches hang 10 cm lower, which is in the target and not in the minimum", () => {
  const rain = STANDARD.droopAllowances.find(({ load }) => load === "rain");
  expect(rain?.amountM).toBeCloseTo(0.1, 9);
  expect(rain?.source.known).toBe("read");
});

function widthsOf(...roads: readonly Record<string, unknown>[]) {
  const street = line([
    [0, 0],
    [50, 0],
  ]);
  const layers = { roads: features("roads", ...roads.map((properties) => ({ geometry: street, properties }))) };
  return buildSurroundings(layers, {}, STANDARD, OPTIONS).surroundings.features.map(({ width }) => width!);
}
