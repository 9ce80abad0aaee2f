import { describe, expect, test } from "vitest";
import { sentenceInUnits } from "../../../src/core/units/sentence-in-units.ts";

describe("a sentence in the other units", () => {
  test.each([
    // 10 ft are 3.048 m, 14 ft 4.2672 m, 13 ft 6 in 4.1148 m.
    ["Branches hang 10 ft over the lane; 14 ft is needed.", "Branches hang 3.0 m over the lane; 4.3 m is needed."],
    ["Legal height is 13 ft 6 in.", "Legal height is 4.1 m."],
    // 8 in are 20.32 cm, 3 to 8 in 7.62 to 20.32 cm; 25 mph are 40.2336 km/h.
    ["The trunk is within 8 in of the wall; limbs 3–8 in.", "The trunk is within 20 cm of the wall; limbs 8–20 cm."],
    ["Posted 25 mph, 1 Chapel Street in 2027.", "Posted 40 km/h, 1 Chapel Street in 2027."],
    ["Within 10\u00a0ft of a conductor.", "Within 3.0 m of a conductor."],
    // Nothing here is a length.
    [
      "Rule 19-14 in 3 visits, 25 % at 5 footpaths, 2 inner limbs.",
      "Rule 19-14 in 3 visits, 25 % at 5 footpaths, 2 inner limbs.",
    ],
  ])("to metric: %s", (us, metric) => {
    expect(sentenceInUnits(us, "us", "metric")).toBe(metric);
    expect(sentenceInUnits(us, "us", "us")).toBe(us);
  });

  test.each([
    // 4.3 m are 169.29 in, 14 ft 1 in; 21 m are 68.9 ft; 20 cm are 7.87 in, 8 to 20 cm 3.15 to 7.87 in; 40 km/h are 24.85 mph.
    ["Branches hang 4.3 m over; span of 21 m.", "Branches hang 14 ft 1 in over; span of 69 ft."],
    ["Limbs 8–20 cm, posted 40 km/h.", "Limbs 3–8 in, posted 25 mph."],
    ["A 3 m/s wind and 5 min of work.", "A 3 m/s wind and 5 min of work."],
  ])("to US units: %s", (metric, us) => {
    expect(sentenceInUnits(metric, "metric", "us")).toBe(us);
  });

  test("a long text of digits and blanks takes no time to speak of", () => {
    const text = `${"1".repeat(50_000)} ${" ".repeat(50_000)}in`;
    expect(sentenceInUnits(text, "us", "metric")).toBe(text);
  });
});
