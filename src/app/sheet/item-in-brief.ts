import { type DisplayUnits, formatShare } from "../../core/units/format-length.ts";
import type { TreeEntry, WorkItem } from "../tree-filter.ts";
import { workInBrief } from "./work-in-brief.ts";

/** What a tree gets at one of its visits in a few words; where all its visits are done and none is forecast, that. */
export function itemInBrief(
  { prescription, work }: TreeEntry,
  item: WorkItem | undefined,
  units: DisplayUnits,
): string {
  if (item === undefined) {
    return work.some(({ isDone }) => isDone) ? "Done as planned" : workInBrief(prescription, undefined, units);
  }
  if (item.visit !== null) return workInBrief(prescription, item.visit, units);
  if (item.cause === "training") return "Forecast: training of the young tree";
  return item.doseShare === null
    ? "Forecast: grows into a clearance"
    : `Forecast: return, ${formatShare(item.doseShare)} of the crown`;
}
