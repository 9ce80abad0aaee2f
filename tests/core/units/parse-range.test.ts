import { describe, expect, it } from "vitest";
import { METERS_PER_FOOT, METERS_PER_INCH } from "../../../src/core/units/length.ts";
import { parseLengthRangeM } from "../../../src/core/units/parse-range.ts";

const FT = METERS_PER_FOOT;
const IN = METERS_PER_INCH;

describe("parseLengthRangeM", () => {
  it.each([
    ["10-20 ft", 10 * FT, 20 * FT],
    ["10 ft - 20 ft", 10 * FT, 20 * FT],
    ['6-12"', 6 * IN, 12 * IN],
    [`6" – 12"`, 6 * IN, 12 * IN],
    [`5' 6" - 6'`, 5.5 * FT, 6 * FT],
    ["10 to 20", 10, 20],
    ["2,5-3,5 m", 2.5, 3.5],
    ["0-3 m", 0, 3],
    ["under 10 m", 0, 10],
    ["up to 30 ft", 0, 30 * FT],
    ["<5", 0, 5],
    // An open class ends at one and a half times its beginning.
    ["> 30 cm", 0.3, 0.45],
    ["over 60 ft", 60 * FT, 90 * FT],
    ["30+", 30, 45],
    ["30+ ft", 30 * FT, 45 * FT],
    [">= 2 m", 2, 3],
  ])("reads %s as an interval around its middle", (text, lowM, highM) => {
    const range = parseLengthRangeM(text, "m")!;
    // Sums of exact factors: only the last bits of a double can differ.
    expect(range.lowM).toBeCloseTo(lowM, 12);
    expect(range.highM).toBeCloseTo(highM, 12);
    expect(range.valueM).toBeCloseTo((lowM + highM) / 2, 12);
  });

  it("takes the column's unit for bare numbers", () => {
    expect(parseLengthRangeM("6-12", "in")).toEqual({ valueM: (6 * IN + 12 * IN) / 2, lowM: 6 * IN, highM: 12 * IN });
  });

  it.each([
    "",
    "-",
    "-5",
    "20-10",
    "10-10",
    "a-b",
    "10-",
    "over",
    "over the road",
    "10-20-30",
    "5 m",
    "1e3-2e3",
    7,
    null,
  ])("does not take %s for a class", (value) => {
    expect(parseLengthRangeM(value, "m")).toBeNull();
  });

  it("refuses long texts unread", () => {
    expect(parseLengthRangeM(`${" ".repeat(300)}1-2`, "m")).toBeNull();
  });
});
