import { describe, expect, it } from "vitest";
import { parseDate, provenOrder } from "../../../src/core/units/parse-date.ts";

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
    ["14.3.2024", "2024-03-14"],
    // Where points stand between, the day comes first.
    ["3.4.2024", "2024-04-03"],
    ["14 March 2024", "2024-03-14"],
    ["14-Mar-2024", "2024-03-14"],
    ["Mar 14, 2024", "2024-03-14"],
    ["March 14th, 2024", "2024-03-14"],
    ["1st Sept. 2024", "2024-09-01"],
    // 1551398400000 ms = 17,956 days after 1970-01-01; 2019-03-01 is day 17,956 (49 years of 365 days, 12 leap days, 59 days).
    [1551398400000, "2019-03-01"],
    ["1551398400000", "2019-03-01"],
  ])("reads %s as %s", (value, date) => {
    expect(parseDate(value, null)).toEqual(exact(date));
  });

  it("fills in what a bare year or month leaves open, and says so", () => {
    expect(parseDate(2019, null)).toEqual({ date: "2019-07-01", filledIn: "month-and-day" });
    expect(parseDate("2019", null)).toEqual({ date: "2019-07-01", filledIn: "month-and-day" });
    expect(parseDate("2019-03", null)).toEqual({ date: "2019-03-15", filledIn: "day" });
    expect(parseDate("March 2019", null)).toEqual({ date: "2019-03-15", filledIn: "day" });
  });

  it.each([
    ["3/14/24", "2024-03-14"],
    ["14.03.24", "2024-03-14"],
    ["3/14/69", "1969-03-14"],
    ["3/14/68", "2068-03-14"],
  ] as const)("takes a year of two digits as 1969 to 2068 and says so: %s", (value, date) => {
    expect(parseDate(value, null)).toEqual({ date, filledIn: "century" });
  });

  it("takes 3/4/2024 as a date only where the month is known to come first", () => {
    expect(parseDate("3/4/2024", null)).toEqual({ fault: "ambiguous" });
    expect(parseDate("3/4/2024", "month-first")).toEqual(exact("2024-03-04"));
    expect(parseDate("3/4/2024", "day-first")).toEqual(exact("2024-04-03"));
    // An order given for a column does not turn a date round that cannot be meant so.
    expect(parseDate("3/14/2024", "day-first")).toEqual(exact("2024-03-14"));
  });

  it.each(["2024-02-30", "2023-02-29", "2024-13-01", "20241301", "13/13/2024", "0000-01-01", "31 Feb 2024"])(
    "calls %s impossible",
    (text) => {
      expect(parseDate(text, null)).toEqual({ fault: "impossible" });
    },
  );

  it.each([
    "Spring 2021",
    "10-15",
    "10-11-12",
    "Mar 14",
    "14 15 March 2024",
    "March",
    "yesterday",
    "",
    "2024-03-01 tomorrow",
    Number.NaN,
    -5,
    true,
    {},
    "1e4",
  ])("refuses %s", (value) => {
    expect(parseDate(value, "month-first")).toEqual({ fault: "not-a-date" });
  });

  it("tells which order a text proves", () => {
    expect(["14/3/2024", "3/14/2024", "3/4/2024", "2024-14-03", "32/1/2024", 14, "soon"].map(provenOrder)).toEqual([
      "day-first",
      "month-first",
      null,
      null,
      null,
      null,
      null,
    ]);
  });

  it("stays quick on long hostile texts", () => {
    const started = performance.now();
    for (const text of ["1".repeat(50_000), `${" ".repeat(50_000)}2024-01-01`, `2024-${"-".repeat(50_000)}`])
      parseDate(text, "month-first");
    // A linear reader needs microseconds; the bound only tells it from a quadratic one.
    expect(performance.now() - started).toBeLessThan(200);
  });
});
