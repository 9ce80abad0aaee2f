import { describe, expect, it } from "vitest";
import { isMissing } from "../../../src/core/units/is-missing.ts";
import { parseShare } from "../../../src/core/units/parse-share.ts";
import { parseSpeedKmh } from "../../../src/core/units/parse-speed.ts";

describe("isMissing", () => {
  it.each([
    undefined,
    null,
    "",
    "  ",
    "N/A",
    "na",
    "-",
    "unknown",
    "Unknown ",
    "-999",
    -999,
    -1,
    "-1.0",
    Number.NaN,
    "None",
  ])("knows %s as missing", (value) => expect(isMissing(value)).toBe(true));
  it.each([0, "0", false, "N", "Acer", -2, "-2", {}, []])("takes %s as a value", (value) =>
    expect(isMissing(value)).toBe(false),
  );
});

describe("parseShare", () => {
  it("reads percent and shares", () => {
    expect(parseShare(20, "percent")).toBe(0.2);
    expect(parseShare("20 %", "share")).toBe(0.2);
    expect(parseShare("20percent", "share")).toBe(0.2);
    expect(parseShare("0,25", "share")).toBe(0.25);
  });
  it("refuses what is no share", () => {
    for (const value of [120, -1, "120%", "lots", null, true]) expect(parseShare(value, "percent")).toBeNull();
    expect(parseShare(20, "share")).toBeNull();
  });
});

describe("parseSpeedKmh", () => {
  it("reads bare numbers in the column's unit and lets a named unit outrank it", () => {
    expect(parseSpeedKmh(50, "km/h")).toBe(50);
    expect(parseSpeedKmh("50", "km/h")).toBe(50);
    // 1 mile is 1.609344 km, exact.
    expect(parseSpeedKmh(30, "mph")).toBeCloseTo(48.28032, 9);
    expect(parseSpeedKmh("30 mph", "km/h")).toBeCloseTo(48.28032, 9);
    expect(parseSpeedKmh("50km/h", "mph")).toBe(50);
  });
  it("refuses what is no speed", () => {
    for (const value of ["signals", "none", "walk", 0, -5, 400, "", "30 knots", null])
      expect(parseSpeedKmh(value, "km/h")).toBeNull();
  });
});
