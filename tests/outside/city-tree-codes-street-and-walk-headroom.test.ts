// Sources, all read: tree codes of seven US cities, height in feet kept clear over streets and over walks; FHWA Mitigation Strategies for
// Design Exceptions, Table 19 (minimum vertical clearance of collectors and local streets 14 ft); International Fire Code 503.2.1 in a
// fire-access checklist (13 ft 6 in); California Vehicle Code 35250 (double-deck bus 14 ft 3 in). The foot above the bus is our policy.
import { expect, it, test } from "vitest";
import { ruleOf, shipped } from "../core/standard/shipped.ts";

const FT = 0.3048;

test.each([
  ["Vermillion SD 90.79", 16, 8],
  ["Ankeny IA chapter 166", 15, 8],
  ["Clive IA", 15, 8],
  ["Clyde OH", 15, 10],
  ["ecode360 43128703", 14, 8],
  ["Farmers Branch TX 56-81", 14, 7],
  ["Miamisburg OH", 12, 8],
])("%s: %i ft over streets, %i ft over walks", (place, streetFt, walkFt) => {
  const standard = shipped(`city-street-${streetFt}-walk-${walkFt}`);
  const street = ruleOf(standard, "roadway-headroom");
  const walk = ruleOf(standard, "walkway-headroom");
  expect(street.minimumM).toBeCloseTo(streetFt * FT, 9);
  expect(walk.minimumM).toBeCloseTo(walkFt * FT, 9);
  const [city = ""] = place.split(/ (?:[A-Z]{2}|\d)/);
  for (const { source } of [street, walk]) expect(source).toMatchObject({ known: "read" });
  expect(street.source.title).toContain(city);
});

it("14 ft over streets where no city says more, as Table 19 has it for collectors and local streets", () => {
  expect(ruleOf(shipped("us-common"), "roadway-headroom").minimumM).toBeCloseTo(14 * FT, 9);
});

it("13 ft 6 in over fire lanes", () => {
  expect(ruleOf(shipped("fire-lanes"), "fire-lane-headroom").minimumM).toBeCloseTo(13.5 * FT, 9);
});

it("a foot over a double-deck bus of 14 ft 3 in", () => {
  expect(ruleOf(shipped("bus-streets"), "roadway-headroom").minimumM).toBeCloseTo(15.25 * FT, 9);
  expect(ruleOf(shipped("us-common"), "bus-route-headroom").minimumM).toBeCloseTo(15.25 * FT, 9);
});

it("ecode360 43128703 sets 8 ft over bike paths too", () => {
  expect(ruleOf(shipped("city-street-14-walk-8"), "bikeway-headroom").minimumM).toBeCloseTo(8 * FT, 9);
});
