import { CREWS, type Crew } from "../../core/model/terms.ts";
import type { ForecastVisit, VisitCause } from "../../core/schedule/forecast-visits.ts";
import { type Month, monthOf } from "./month-bars.ts";

/** Why a visit that is not in the plan yet is expected. */
export const FORECAST_CAUSES = ["return", "growth", "training"] as const satisfies readonly VisitCause[];
export type ForecastCause = (typeof FORECAST_CAUSES)[number];

/** Work of one month that is forecast beyond the plan's own visits. */
export interface ForecastMonth {
  readonly visits: number;
  readonly hours: number;
  readonly hoursByCause: Readonly<Record<ForecastCause, number>>;
  readonly hoursByCrew: Readonly<Record<Crew, number>>;
}

/** Forecast work by due month: returns, first visits to what grows in, and the training of young trees. The plan's own visits are left out, the bars have them. */
export function forecastMonths(visits: Iterable<ForecastVisit>): ReadonlyMap<Month, ForecastMonth> {
  const months = new Map<
    Month,
    { visits: number; hours: number; hoursByCause: Record<ForecastCause, number>; hoursByCrew: Record<Crew, number> }
  >();
  for (const { cause, due, hours, crew } of visits) {
    if (cause === "planned") continue;
    const month = monthOf(due);
    let sum = months.get(month);
    if (sum === undefined) {
      sum = {
        visits: 0,
        hours: 0,
        hoursByCause: { return: 0, growth: 0, training: 0 },
        hoursByCrew: Object.fromEntries(CREWS.map((one) => [one, 0])) as Record<Crew, number>,
      };
      months.set(month, sum);
    }
    sum.visits += 1;
    sum.hours += hours;
    sum.hoursByCause[cause] += hours;
    sum.hoursByCrew[crew] += hours;
  }
  return months;
}
