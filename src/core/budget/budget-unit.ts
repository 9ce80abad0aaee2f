import type { Crew } from "../model/terms.ts";
import type { IsoDate } from "../units/calendar.ts";

/** Work that is taken whole or left whole: a visit, or a work zone. */
export interface BudgetUnit {
  /** Id of the visit or zone. */
  readonly id: string;
  readonly kind: "visit" | "zone";
  readonly visitIds: readonly string[];
  readonly crew: Crew;
  readonly hours: number;
  readonly debrisM3: number;
  /** Height in meters that a lift must reach. */
  readonly reachM: number;
  readonly money: number;
  /** Points that it removes. */
  readonly risk: number;
  readonly due: IsoDate;
  /** The earliest deadline of a hazard in it; null where none runs. */
  readonly deadline: IsoDate | null;
  /** When the oldest of its conflicts was first seen; the plan's date for work on no conflict. */
  readonly oldestOn: IsoDate;
  /** Units that come before it: an earlier visit of the same tree. */
  readonly after: readonly string[];
}

/** What a budget is counted in. */
export type Budget = { readonly hours: number } | { readonly money: number };

export const spentBy = (unit: BudgetUnit, budget: Budget): number => ("hours" in budget ? unit.hours : unit.money);
export const limitOf = (budget: Budget): number => ("hours" in budget ? budget.hours : budget.money);
