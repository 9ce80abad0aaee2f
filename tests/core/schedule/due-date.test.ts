import { describe, expect, it } from "vitest";
import { dueDate, nextWindow } from "../../../src/core/schedule/due-date.ts";
import { type SeasonWindows, seasonWindows } from "../../../src/core/schedule/season-windows.ts";
import { dayNumber, isoDate } from "../../../src/core/units/calendar.ts";
import { standard } from "../prescription/scene.ts";

// Deciduous in the north: open 16 June to 14 September and 1 November to 31 March.
const rules = standard.seasons.filter(({ id }) => id === "first-flush" || id === "fall-hardening");
const seasons = seasonWindows(rules, false, isoDate("2026-07-01"), 20);
const due = (from: string, reachedOn: string) => dueDate(seasons, isoDate(from), isoDate(reachedOn));

describe("a minimum already reached", () => {
  it("is cured by the end of the window that is open", () => {
    expect(due("2026-07-01", "2026-07-01")).toEqual({
      due: "2026-09-14",
      windowStart: "2026-07-01",
      windowEnd: "2026-09-14",
    });
    expect(due("2026-07-01", "2020-01-01")?.due).toBe("2026-09-14");
  });

  it("counts the first and the last day of a window as inside", () => {
    expect(due("2026-06-16", "2026-01-01")?.due).toBe("2026-09-14");
    // 1 to 14 September are 14 days.
    expect(due("2026-09-01", "2026-01-01")?.due).toBe("2026-09-14");
    expect(due("2026-12-31", "2026-01-01")?.due).toBe("2027-03-31");
  });

  it("passes over a window with less than two weeks left, in which no crew can be sent", () => {
    const winter = { due: "2027-03-31", windowStart: "2026-11-01", windowEnd: "2027-03-31" };
    expect(due("2026-09-02", "2026-01-01")).toEqual(winter);
    expect(due("2026-09-14", "2026-01-01")).toEqual(winter);
  });

  it("waits for the next window where none is open", () => {
    // 1 October 2026 is closed.
    expect(due("2026-10-01", "2026-01-01")).toEqual({
      due: "2027-03-31",
      windowStart: "2026-11-01",
      windowEnd: "2027-03-31",
    });
  });
});

describe("a minimum still to be reached", () => {
  it("is due at the end of the last window before, also where one is open now", () => {
    // Reached on 1 May 2028: the winter that ends on 31 March 2028 is the last.
    const last = { due: "2028-03-31", windowStart: "2027-11-01", windowEnd: "2028-03-31" };
    expect(due("2026-10-01", "2028-05-01")).toEqual(last);
    expect(due("2026-07-01", "2028-05-01")).toEqual(last);
  });

  it("is due on that day where a window holds it", () => {
    expect(due("2026-10-01", "2028-01-15")?.due).toBe("2028-01-15");
    expect(due("2026-07-01", "2026-08-10")?.due).toBe("2026-08-10");
  });

  it("is due at the end of the next window where none comes before", () => {
    expect(due("2026-10-01", "2026-10-10")?.due).toBe("2027-03-31");
  });
});

it("gives a tree without rules half a year, or the year before the minimum is reached", () => {
  const any = seasonWindows([], false, isoDate("2026-07-01"), 20);
  // 180 days from 1 July 2026 end on 27 December; 365 days that end on 1 January 2029 begin on 3 January 2028 (2028 has 366 days).
  expect(dueDate(any, isoDate("2026-07-01"), isoDate("2026-07-01"))?.due).toBe("2026-12-27");
  expect(dueDate(any, isoDate("2026-07-01"), isoDate("2029-01-01"))).toEqual({
    due: "2029-01-01",
    windowStart: "2028-01-03",
    windowEnd: "2029-01-01",
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
  expect(dueDate(closed, isoDate("2026-07-01"), isoDate("2027-01-01"))).toBeNull();
  expect(nextWindow(closed, isoDate("2026-07-01"))).toBeNull();
});

describe("the days at the edges", () => {
  const day = (text: string): number => dayNumber(isoDate(text));
  const windows = (...runs: readonly (readonly [string, string])[]): SeasonWindows => ({
    ...seasons,
    windows: runs.map(([start, end]) => ({ startDay: day(start), endDay: day(end) })),
  });
  const anyTime: SeasonWindows = { ...windows(), isAnyTime: true };

  it("a tree without rules may be worked on for 365 days, the first counted", () => {
    expect(dueDate(anyTime, isoDate("2026-07-01"), isoDate("2026-07-01"))).toMatchObject({
      windowStart: "2026-07-01",
      windowEnd: "2027-06-30",
    });
    expect(nextWindow(anyTime, isoDate("2026-07-01"))).toEqual({
      due: "2027-06-30",
      windowStart: "2026-07-01",
      windowEnd: "2027-06-30",
    });
  });

  it("a window that opens on the day a minimum is reached holds that day", () => {
    const two = windows(["2026-07-01", "2026-07-31"], ["2026-10-01", "2026-10-31"]);
    expect(dueDate(two, isoDate("2026-07-01"), isoDate("2026-10-01"))).toEqual({
      due: "2026-10-01",
      windowStart: "2026-10-01",
      windowEnd: "2026-10-31",
    });
    expect(dueDate(two, isoDate("2026-07-01"), isoDate("2026-09-30"))?.due).toBe("2026-07-31");
  });

  it("a window that ends on the day asked from is still open, and one that ended the day before is not", () => {
    const two = windows(["2026-06-01", "2026-07-01"], ["2026-10-01", "2026-10-10"]);
    // Reached on 2 July: the last window before it has its last day on 1 July.
    expect(dueDate(two, isoDate("2026-07-01"), isoDate("2026-07-02"))?.due).toBe("2026-07-01");
    expect(nextWindow(two, isoDate("2026-07-01"))).toMatchObject({ windowStart: "2026-07-01", due: "2026-07-01" });
    expect(nextWindow(two, isoDate("2026-07-02"))?.due).toBe("2026-10-10");
  });

  it("a window as long as asked for is long enough, and one a day shorter is not", () => {
    const ten = windows(["2026-10-01", "2026-10-10"], ["2027-01-01", "2027-01-31"]);
    expect(nextWindow(ten, isoDate("2026-07-01"), 10)?.due).toBe("2026-10-10");
    expect(nextWindow(ten, isoDate("2026-07-01"), 11)?.due).toBe("2027-01-31");
  });
});
