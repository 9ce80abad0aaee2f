import { describe, expect, it } from "vitest";
import { parseDate } from "../../../src/core/units/parse-date.ts";

const exact = (date: string) => ({ date, filledIn: "nothing" });

describe("parseDate", () => {
  it.each([
    ["2024-03-01", "2024-03-01"],
    ["2024/3/1", "2024-03-01"],
    ["2024.03.01", "2024-03-01"],
    ["20240301", "2024-03-01"],
    [20240301, "2024-03-01"],
    ["2024-03-01T23:30:00-08:00", "2024-03-01"],
    ["2024-03-01 00:00:00", "2024-03-01"],
    ["3/14/2024", "2024-03-14"],
    ["14/3/2024", "2024-03-14"],
    ["5/5/2024", "2024-05-05"],
    ["2024-02-29", "2024-02-29"],
    // 1551398400000 ms = 17,956 days after 1970-01-01; 2019-03-01 is day 17,956 (49 years of 365 days, 12 leap days, 59 days).
    [1551398400000, "2019-03-01"],
    ["1551398400000", "2019-03-01"],
  ])("reads %s as %s", (value, date) => {
    expect(parseDate(value, false)).toEqual(exact(date));
  });

  it("fills in what a bare year or month leaves open, and says so", () => {
    expect(parseDate(2019, false)).toEqual({ date: "2019-07-01", filledIn: "month-and-day" });
    expect(parseDate("2019", false)).toEqual({ date: "2019-07-01", filledIn: "month-and-day" });
    expect(parseDate("2019-03", false)).toEqual({ date: "2019-03-15", filledIn: "day" });
  });

  it("takes 3/4/2024 as a date only where the month is known to come first", () => {
    expect(parseDate("3/4/2024", false)).toEqual({ fault: "ambiguous" });
    expect(parseDate("3/4/2024", true)).toEqual(exact("2024-03-04"));
  });

  it.each(["2024-02-30", "2023-02-29", "2024-13-01", "20241301", "13/13/2024", "0000-01-01"])(
    "calls %s impossible",
    (text) => {
      expect(parseDate(text, false)).toEqual({ fault: "impossible" });
    },
  );

  it.each(["Spring 2021", "10-15", "3/4/24", "yesterday", "", "2024-03-01 tomorrow", Number.NaN, -5, true, {}, "1e4"])(
    "refuses %s",
    (value) => {
      expect(parseDate(value, true)).toEqual({ fault: "not-a-date" });
    },
  );

  it("stays quick on long hostile texts", () => {
    const started = performance.now();
    for (const text of ["1".repeat(50_000), `${" ".repeat(50_000)}2024-01-01`, `2024-${"-".repeat(50_000)}`])
      parseDate(text, true);
    // A linear reader needs microseconds; the bound only tells it from a quadratic one.
    expect(performance.now() - started).toBeLessThan(200);
  });
});
