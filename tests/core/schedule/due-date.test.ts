import { describe, expect, it } from "vitest";
import { dueDate, nextWindow } from "../../../src/core/schedule/due-date.ts";
import { seasonWindows } from "../../../src/core/schedule/season-windows.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { standard } from "../prescription/scene.ts";

// Deciduous in the north: open 16 June to 14 September and 1 November to 31 March.
const rules = standard.seasons.filter(({ id }) => id === "first-flush" || id === "fall-hardening");
const seasons = seasonWindows(rules, false, isoDate("2026-07-01"), 20);
const due = (from: string, reachedOn: string, waits = false) =>
  dueDate(seasons, isoDate(from), isoDate(reachedOn), waits);

describe("inside a window", () => {
  it("is due by its end, or earlier when the minimum is reached", () => {
    expect(due("2026-07-01", "2027-05-01")).toEqual({
      due: "2026-09-14",
      windowStart: "2026-07-01",
      windowEnd: "2026-09-14",
    });
    expect(due("2026-07-01", "2026-08-10")?.due).toBe("2026-08-10");
  });

  it("is never due before the as-of date", () => {
    expect(due("2026-07-01", "2020-01-01")?.due).toBe("2026-07-01");
  });

  it("counts the first and the last day as inside", () => {
    expect(due("2026-06-16", "2030-01-01")?.due).toBe("2026-09-14");
    expect(due("2026-09-14", "2030-01-01")?.due).toBe("2026-09-14");
    expect(due("2026-12-31", "2030-01-01")?.due).toBe("2027-03-31");
  });
});

describe("outside a window", () => {
  it("is due at the end of the last window before the minimum is reached", () => {
    // 1 October 2026 is closed. Reached on 1 May 2028: the winter that ends on 31 March 2028 is the last.
    expect(due("2026-10-01", "2028-05-01")).toEqual({
      due: "2028-03-31",
      windowStart: "2027-11-01",
      windowEnd: "2028-03-31",
    });
    // Reached inside a window: by that day.
    expect(due("2026-10-01", "2028-01-15")?.due).toBe("2028-01-15");
  });

  it("is due at the end of the next one where none comes before", () => {
    expect(due("2026-10-01", "2026-10-10")).toEqual({
      due: "2027-03-31",
      windowStart: "2026-11-01",
      windowEnd: "2027-03-31",
    });
    expect(due("2026-10-01", "2026-01-01")?.due).toBe("2027-03-31");
  });
});

it("waits for the last window where there is nothing to cut yet", () => {
  expect(due("2026-07-01", "2028-05-01", true)?.due).toBe("2028-03-31");
});

it("gives a tree without rules a year", () => {
  const any = seasonWindows([], false, isoDate("2026-07-01"), 20);
  // 365 days from 1 July 2026 end on 30 June 2027.
  expect(dueDate(any, isoDate("2026-07-01"), isoDate("2029-01-01"), false)).toEqual({
    due: "2027-06-30",
    windowStart: "2026-07-01",
    windowEnd: "2027-06-30",
  });
  expect(nextWindow(any, isoDate("2026-07-01"))?.due).toBe("2027-06-30");
});

it("has no date where the rules leave none", () => {
  const closed = seasonWindows(
    [{ ...rules[0]!, avoidFrom: "01-01", avoidTo: "12-31" }],
    false,
    isoDate("2026-07-01"),
    20,
  );
  expect(dueDate(closed, isoDate("2026-07-01"), isoDate("2027-01-01"), false)).toBeNull();
  expect(nextWindow(closed, isoDate("2026-07-01"))).toBeNull();
});
