import type { Crew } from "../model/terms.ts";
import { CREWS } from "../model/terms.ts";
import type { IsoDate } from "../units/calendar.ts";
import { type ForecastVisit, VISIT_CAUSES, type VisitCause } from "./forecast-visits.ts";

/** Work of one crew in one month, by why it is expected. */
export interface WorkloadRow {
  /** Calendar month, `YYYY-MM`. */
  readonly month: string;
  readonly crew: Crew;
  readonly visits: number;
  /** Crew-hours. */
  readonly hours: number;
  /** Hours of all people in the crews together. */
  readonly personHours: number;
  /** Crew-hours. */
  readonly hoursByCause: Readonly<Record<VisitCause, number>>;
}

/** Work by month of the due date and by crew, months ascending, crews in their order; months without work are left out. */
export function workload(visits: readonly ForecastVisit[]): WorkloadRow[] {
  const rows = new Map<string, { visits: number; personHours: number; hoursByCause: Record<VisitCause, number> }>();
  for (const visit of visits) {
    const key = keyOf(visit.due, visit.crew);
    let row = rows.get(key);
    if (row === undefined) {
      row = { visits: 0, personHours: 0, hoursByCause: { planned: 0, return: 0, growth: 0, training: 0 } };
      rows.set(key, row);
    }
    row.visits += 1;
    row.personHours += visit.personHours;
    row.hoursByCause[visit.cause] += visit.hours;
  }
  return [...rows]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([key, row]) => {
      const [month = "", crew = "0"] = key.split(" ");
      return {
        month,
        crew: CREWS[Number(crew)]!,
        ...row,
        hours: VISIT_CAUSES.reduce((sum, cause) => sum + row.hoursByCause[cause], 0),
      };
    });
}

const keyOf = (due: IsoDate, crew: Crew): string => `${due.slice(0, 7)} ${CREWS.indexOf(crew)}`;
