import { describe, expect, test } from "vitest";
import { monthBars } from "../../../src/app/months/month-bars.ts";
import { niceCeiling } from "../../../src/app/months/nice-ceiling.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, smallPlan } from "../small-plan.ts";

const visits = smallPlan(20).prescriptions.flatMap((one) => one.visits);

describe("monthBars", () => {
  test("loses no hour and no visit", () => {
    const bars = monthBars(visits, AS_OF);
    // Every visit of the small plan takes 1.5 h.
    expect(bars.reduce((sum, bar) => sum + bar.hours, 0)).toBeCloseTo(visits.length * 1.5, 9);
    expect(bars.reduce((sum, bar) => sum + bar.visits, 0)).toBe(visits.length);
  });

  test("starts in the month of the plan and has every month to the last one with work", () => {
    const bars = monthBars(visits, AS_OF);
    expect(bars[0]?.month).toBe("2026-11");
    expect(bars[2]?.month).toBe("2027-01");
    const last = visits
      .map((visit) => visit.due.slice(0, 7))
      .sort()
      .at(-1);
    expect(bars.at(-1)?.month).toBe(last);
  });

  test("shows a year when there is less, and ten years when there is more", () => {
    expect(monthBars([], AS_OF)).toHaveLength(12);
    expect(monthBars([{ ...visits[0]!, due: isoDate("2050-01-01") }], AS_OF)).toHaveLength(120);
  });

  test("counts overdue work in the first month", () => {
    const bars = monthBars([{ ...visits[0]!, due: isoDate("2025-03-01") }], AS_OF);
    expect(bars[0]).toMatchObject({ month: "2026-11", visits: 1, hours: 1.5 });
  });
});

test.each([
  [0, 1],
  [0.3, 0.4],
  [1.5, 2],
  [3, 4],
  [4.5, 5],
  [196, 200],
  [501, 1000],
])("a scale for %d ends at %d", (value, end) => {
  expect(niceCeiling(value)).toBeCloseTo(end, 9);
});
