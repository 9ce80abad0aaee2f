import { expect, it } from "vitest";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { formatDate } from "../../../src/core/units/format-date.ts";

it("writes a date without a leading zero, the month in English", () => {
  expect(formatDate(isoDate("2027-03-12"))).toBe("12 Mar 2027");
  expect(formatDate(isoDate("2026-12-01"))).toBe("1 Dec 2026");
});
