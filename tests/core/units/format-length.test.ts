import { describe, expect, test } from "vitest";
import {
  formatDiameter,
  formatDiameters,
  formatDose,
  formatLength,
  formatShare,
} from "../../../src/core/units/format-length.ts";

describe("formatLength", () => {
  test.each([
    [4.2672, "metric", "4.3 m"],
    [30.4, "metric", "30 m"],
    [-0.04, "metric", "0.0 m"],
    [-0.3, "metric", "-0.3 m"],
    [4.2672, "us", "14 ft"],
    [4.1148, "us", "13 ft 6 in"],
    [0.4572, "us", "1 ft 6 in"],
    [0.2032, "us", "8 in"],
    // 12.4 m is 40.68 ft.
    [12.4, "us", "41 ft"],
    [1916.3, "us", "6,287 ft"],
    [-1916.3, "metric", "-1,916 m"],
    // 11.99 in rounds to a whole foot, not to "12 in".
    [0.3045, "us", "1 ft"],
    [-0.3048, "us", "-1 ft"],
    [Number.NaN, "us", "unknown"],
  ] as const)("%d m in %s reads %s", (lengthM, units, expected) => {
    expect(formatLength(lengthM, units)).toBe(expected);
  });
});

test("diameters and shares read as a person writes them", () => {
  expect(formatDiameter(0.0381, "us")).toBe("1.5 in");
  expect(formatDiameters([0.03, 0.08], "metric")).toBe("3–8 cm");
  expect(formatDiameters([0.05, 0.05], "metric")).toBe("5 cm");
  expect(formatDiameters([0.001, 0.038], "us")).toBe("up to 1.5 in");
  expect(formatDiameters([0, 0.004], "metric")).toBe("under 1 cm");
  expect(formatShare(0.143)).toBe("14 %");
  expect(formatShare(0.002)).toBe("under 1 %");
  expect(formatShare(0)).toBe("0 %");
  expect([0.143, 0.002, 0].map(formatDose)).toEqual([
    "14 % of the live crown",
    "under 1 % of the live crown",
    "no live wood",
  ]);
});
