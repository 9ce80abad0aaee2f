import type { Prescription, Task } from "../model/prescription.ts";
import type { Crew } from "../model/terms.ts";
import type { IsoDate } from "../units/calendar.ts";

/** A visit without its date. */
export interface Stage {
  readonly tasks: readonly Task[];
  /** Share of the live crown the tree has at that visit. */
  readonly doseShare: number;
  readonly crew: Crew;
  readonly hours: number;
  /** Conflicts it works on, whether it cures them or not. */
  readonly conflictIds: readonly string[];
  /** Conflicts still open after it, in words. */
  readonly openAfter: readonly string[];
  /** `any-time` when every task is remedial. */
  readonly timing: "any-time" | "window";
  /** Not before this date, for work that comes round again; absent where only the visit before it counts. */
  readonly notBefore?: IsoDate;
}

/** What one tree gets, before dates: all of a prescription that does not depend on the calendar. */
export interface PrescriptionDraft extends Omit<Prescription, "visits" | "urgency" | "overdue"> {
  readonly stages: readonly Stage[];
  /** Dead, broken and diseased wood, when it may have to come off before the first stage; null when there is none. */
  readonly remedial: Stage | null;
  /** Work other than remedial may not start before this date; null when it may at once. */
  readonly earliest: { readonly date: IsoDate; readonly reason: string } | null;
}
