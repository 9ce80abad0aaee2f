import type { Crown } from "../../core/crown/crown.ts";
import type { TreeOnDate } from "../../core/schedule/tree-on-date.ts";
import type { IsoDate } from "../../core/units/calendar.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { type TreeMark, treeMarks, zoneByTree } from "./tree-marks.ts";

/** How the trees of a plan stand on a date, by row; `Outlook.on` of the core makes one. */
export interface DatedTrees {
  readonly date: IsoDate;
  treeOn(row: number): TreeOnDate;
  crownOn(row: number): Crown;
}

/** What features are made from: a plan, the date it is shown for, and the marks that follow from both. */
export interface PlanLook {
  readonly opened: OpenedPlan;
  /** Null for the plan's own date. */
  readonly dated: DatedTrees | null;
  readonly marks: readonly TreeMark[];
}

/** A plan as it is shown for a date; null without a plan. */
export const planLook = (opened: OpenedPlan | null, dated: DatedTrees | null = null): PlanLook | null =>
  opened === null ? null : { opened, dated, marks: treeMarks(opened.plan, dated) };

/** The same trees in other zones: only marks of trees whose zone is another are made anew, and are the only ones that are other objects. */
export function rezonedLook(before: PlanLook, opened: OpenedPlan): PlanLook {
  const zoneOf = zoneByTree(opened.plan);
  const marks = before.marks.map((mark): TreeMark => {
    const zone = zoneOf.get(mark.tree) ?? "";
    return zone === mark.zone ? mark : { ...mark, zone };
  });
  return { opened, dated: before.dated, marks };
}
