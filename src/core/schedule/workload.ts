import type { Crew } from "../model/terms.ts";
import { CREWS } from "../model/terms.ts";
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
  const sums = new WorkloadSums();
  sums.add(partLoads(visits));
  return sums.rows();
}

/** The visits of some trees as columns, in tree order: plain data that {@link WorkloadSums} adds up. */
export interface PartLoads {
  /** Months and crews that occur, and for each visit its place among them. */
  readonly keys: readonly string[];
  readonly keyOf: Uint16Array;
  /** Place in `VISIT_CAUSES`. */
  readonly cause: Uint8Array;
  readonly hours: Float64Array;
  readonly personHours: Float64Array;
}

/** {@link PartLoads} of some visits. */
export function partLoads(
  visits: readonly Pick<ForecastVisit, "due" | "crew" | "cause" | "hours" | "personHours">[],
): PartLoads {
  const places = new Map<string, number>();
  const keyOf = Uint16Array.from(visits, ({ due, crew }) => {
    const key = `${due.slice(0, 7)} ${CREWS.indexOf(crew)}`;
    const place = places.get(key) ?? places.size;
    places.set(key, place);
    return place;
  });
  return {
    keys: [...places.keys()],
    keyOf,
    cause: Uint8Array.from(visits, ({ cause }) => VISIT_CAUSES.indexOf(cause)),
    hours: Float64Array.from(visits, ({ hours }) => hours),
    personHours: Float64Array.from(visits, ({ personHours }) => personHours),
  };
}

/** Adds up visits one by one in tree order, as sums of fractions depend on their order. */
export class WorkloadSums {
  readonly #rows = new Map<string, { visits: number; personHours: number; hoursByCause: Record<VisitCause, number> }>();

  add({ keys, keyOf, cause, hours, personHours }: PartLoads): void {
    for (let at = 0; at < keyOf.length; at += 1) {
      const row = this.#rowOf(keys[keyOf[at]!]!);
      row.visits += 1;
      row.personHours += personHours[at]!;
      row.hoursByCause[VISIT_CAUSES[cause[at]!]!] += hours[at]!;
    }
  }

  rows(): WorkloadRow[] {
    return [...this.#rows]
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

  #rowOf(key: string) {
    let row = this.#rows.get(key);
    if (row === undefined) {
      row = { visits: 0, personHours: 0, hoursByCause: { planned: 0, return: 0, growth: 0, training: 0 } };
      this.#rows.set(key, row);
    }
    return row;
  }
}
