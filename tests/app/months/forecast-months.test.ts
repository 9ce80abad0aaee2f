import { describe, expect, test } from "vitest";
import { forecastInPieces } from "../../../src/app/months/forecast-in-pieces.ts";
import { forecastMonths } from "../../../src/app/months/forecast-months.ts";
import { monthBars } from "../../../src/app/months/month-bars.ts";
import { yearsAhead } from "../../../src/app/months/years-ahead.ts";
import type { ForecastVisit } from "../../../src/core/schedule/forecast-visits.ts";
import { forecastVisits } from "../../../src/core/schedule/forecast-visits.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { smallPlan } from "../small-plan.ts";

const visit = (due: string, cause: ForecastVisit["cause"], hours: number): ForecastVisit => ({
  treeId: "T",
  treeRow: 0,
  cause,
  due: isoDate(due),
  crew: "aerial",
  hours,
  personHours: 3 * hours,
  doseShare: null,
});

describe("forecastMonths", () => {
  test("adds up returns and growth by month, and leaves the plan's own visits to the bars", () => {
    const months = forecastMonths([
      visit("2030-03-01", "return", 2),
      visit("2030-03-31", "growth", 1.5),
      visit("2030-03-15", "planned", 9),
      visit("2031-01-01", "return", 1),
    ]);
    expect([...months.keys()]).toEqual(["2030-03", "2031-01"]);
    expect(months.get("2030-03")).toMatchObject({ visits: 2, hours: 3.5, hoursByCause: { return: 2, growth: 1.5 } });
    expect(months.get("2030-03")?.hoursByCrew.aerial).toBe(3.5);
  });
});

test("the months with a forecast are among the bars, with no planned hours of their own", () => {
  const bars = monthBars([], isoDate("2026-11-02"), ["2030-03"]);
  expect(bars.at(-1)).toMatchObject({ month: "2030-03", hours: 0, visits: 0 });
  expect(bars[0]?.month).toBe("2026-11");
});

test("yearsAhead adds planned and forecast work up by year and crew", () => {
  const forecast = forecastMonths([visit("2027-05-01", "return", 4), visit("2027-06-01", "growth", 1)]);
  const years = yearsAhead(monthBars([], isoDate("2026-11-02"), [...forecast.keys()]), forecast);
  expect(years.map(({ year }) => year)).toEqual(["2026", "2027"]);
  expect(years[1]).toMatchObject({ plannedHours: 0, forecastHours: 5 });
  expect(years[1]?.hoursByCrew.aerial).toBe(5);
});

test("the forecast in pieces is the whole forecast", async () => {
  const plan = smallPlan(60);
  const { trees, prescriptions, conflicts, settings, options } = plan;
  const whole = forecastVisits(trees, prescriptions, conflicts, settings, usCommon(), options);
  expect(await forecastInPieces(plan, usCommon(), () => true)).toEqual(whole);
  expect(whole.length).toBeGreaterThan(0);
});
