import { CREWS, type Crew } from "../../core/model/terms.ts";
import type { ForecastMonth } from "./forecast-months.ts";
import type { Month, MonthBar } from "./month-bars.ts";

/** Work of one calendar year. */
export interface YearAhead {
  readonly year: string;
  readonly plannedHours: number;
  readonly forecastHours: number;
  /** Planned and forecast together. */
  readonly hoursByCrew: Readonly<Record<Crew, number>>;
}

/** The months added up by calendar year, years ascending; the first and the last year are as far as the months go. */
export function yearsAhead(bars: readonly MonthBar[], forecast: ReadonlyMap<Month, ForecastMonth> | null): YearAhead[] {
  const years = new Map<string, { plannedHours: number; forecastHours: number; hoursByCrew: Record<Crew, number> }>();
  for (const bar of bars) {
    const year = bar.month.slice(0, 4);
    const more = forecast?.get(bar.month);
    const sum = years.get(year) ?? {
      plannedHours: 0,
      forecastHours: 0,
      hoursByCrew: Object.fromEntries(CREWS.map((crew) => [crew, 0])) as Record<Crew, number>,
    };
    sum.plannedHours += bar.hours;
    sum.forecastHours += more?.hours ?? 0;
    for (const crew of CREWS) sum.hoursByCrew[crew] += bar.hoursByCrew[crew] + (more?.hoursByCrew[crew] ?? 0);
    years.set(year, sum);
  }
  return [...years].map(([year, sum]) => ({ year, ...sum }));
}
