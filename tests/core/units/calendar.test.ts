import { expect, it } from "vitest";
import { dateOfDay, dayNumber, type IsoDate } from "../../../src/core/units/calendar.ts";

const DAY_MS = 86_400_000;
/** The same by the language's own dates. */
const byLanguage = (day: number): string => new Date(day * DAY_MS).toISOString().slice(0, 10);

it("numbers every day of five centuries as the language's dates do, there and back", () => {
  const different: number[] = [];
  for (let day = dayNumber("1700-01-01" as IsoDate); day < dayNumber("2200-01-01" as IsoDate); day += 1) {
    const date = byLanguage(day);
    if (dateOfDay(day) !== date || dayNumber(date as IsoDate) !== day) different.push(day);
  }
  expect(different).toEqual([]);
});

it.each([
  ["1000-01-01", -354_285],
  ["1600-02-29", -135_081],
  ["1969-12-31", -1],
  ["1970-01-01", 0],
  ["2000-02-29", 11_016],
  ["2024-12-31", 20_088],
  ["9999-12-31", 2_932_896],
] as const)("numbers %s", (date, day) => {
  expect(Date.parse(`${date}T00:00:00Z`) / DAY_MS).toBe(day);
  expect(dayNumber(date as IsoDate)).toBe(day);
  expect(dateOfDay(day)).toBe(date);
});

it("cuts fractions off toward the earlier day and refuses what is no day", () => {
  expect(dateOfDay(0.9)).toBe("1970-01-01");
  expect(dateOfDay(-0.1)).toBe("1969-12-31");
  expect(() => dateOfDay(Number.NaN)).toThrow(RangeError);
  expect(() => dateOfDay(Number.POSITIVE_INFINITY)).toThrow(RangeError);
});
