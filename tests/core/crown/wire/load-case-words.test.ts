import { describe, expect, test } from "vitest";
import { loadCaseWords, nearestCaseSentence } from "../../../../src/core/crown/wire/load-case-words.ts";
import { LOAD_CASE_IDS } from "../../../../src/core/model/load-cases.ts";

describe("the words of a load case", () => {
  test("tell weather in the reader's units", () => {
    expect(LOAD_CASE_IDS.map((id) => loadCaseWords(id, "us"))).toEqual([
      "at rest at 60 °F",
      "at rest at 130 °F",
      "at rest at 120 °F",
      // sqrt(6 / 0.00256) = 48.4 mph and sqrt(8 / 0.00256) = 55.9 mph.
      "in a wind of 48 mph (6 lb/ft²) at 60 °F",
      "in a wind of 56 mph (8 lb/ft²) at 60 °F",
      "in a wind of 56 mph (8 lb/ft²) at 25 °F",
      "with 0.5 in of ice around it in a wind of 48 mph (6 lb/ft²) at 0 °F",
    ]);
    expect(LOAD_CASE_IDS.map((id) => loadCaseWords(id, "metric"))).toEqual([
      "at rest at 16 °C",
      "at rest at 54 °C",
      "at rest at 49 °C",
      // 6 x 47.88 = 287 Pa, sqrt(287 / 0.613) = 21.6 m/s; 8 x 47.88 = 383 Pa, 25.0 m/s.
      "in a wind of 78 km/h (287 Pa) at 16 °C",
      "in a wind of 90 km/h (383 Pa) at 16 °C",
      "in a wind of 90 km/h (383 Pa) at -4 °C",
      "with 13 mm of ice around it in a wind of 78 km/h (287 Pa) at -18 °C",
    ]);
  });

  test("make a sentence about the wire", () => {
    expect(nearestCaseSentence("maximum-temperature", "us")).toBe("Nearest with the wire at rest at 130 °F.");
  });
});
