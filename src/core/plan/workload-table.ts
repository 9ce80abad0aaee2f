import type { WorkloadRow } from "../schedule/workload.ts";
import { rounded } from "./bough-properties.ts";
import type { Table } from "./plan-tables.ts";

/** One row a month and crew: crew-hours, also by why the work is expected, and the hours of all people in the crews. */
export const workloadTable = (rows: readonly WorkloadRow[]): Table => ({
  header: [
    "month",
    "crew",
    "visits",
    "crew_hours",
    "person_hours",
    "planned_hours",
    "return_hours",
    "growth_hours",
    "training_hours",
  ],
  rows: rows.map(({ month, crew, visits, hours, personHours, hoursByCause }) => [
    month,
    crew,
    visits,
    rounded(hours, 2),
    rounded(personHours, 2),
    rounded(hoursByCause.planned, 2),
    rounded(hoursByCause.return, 2),
    rounded(hoursByCause.growth, 2),
    rounded(hoursByCause.training, 2),
  ]),
});
