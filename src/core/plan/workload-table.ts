import type { WorkloadRow } from "../schedule/workload.ts";
import { rounded } from "./bough-properties.ts";
import type { Table } from "./plan-tables.ts";

/** One row a month and crew, hours also by why the work is expected. */
export const workloadTable = (rows: readonly WorkloadRow[]): Table => ({
  header: ["month", "crew", "visits", "hours", "planned_hours", "return_hours", "growth_hours"],
  rows: rows.map(({ month, crew, visits, hours, hoursByCause }) => [
    month,
    crew,
    visits,
    rounded(hours, 2),
    rounded(hoursByCause.planned, 2),
    rounded(hoursByCause.return, 2),
    rounded(hoursByCause.growth, 2),
  ]),
});
