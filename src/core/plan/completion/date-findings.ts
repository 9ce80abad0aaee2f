import type { Finding } from "../../model/finding.ts";
import { addDays, type IsoDate, isoDate } from "../../units/calendar.ts";
import type { VisitCompletion } from "./completion.ts";
import { completionFinding } from "./completion-finding.ts";

/** Days by which a date may lie after the day in UTC on which its file was written: east of Greenwich it is the next day already. */
const ZONE_DAYS = 1;

/**
 * Dates of work that a person should look at, as a tree is planned on from the day of its last work: after the file was written (`exportedAt`, in
 * UTC), and before the plan was made.
 */
export function dateFindings({ treeId, date }: VisitCompletion, exportedAt: string, asOf: IsoDate): Finding[] {
  const written = exportedAt.slice(0, 10);
  const doubt =
    date > addDays(isoDate(written), ZONE_DAYS)
      ? `The work is dated ${date}, the report was written on ${written}.`
      : date < asOf
        ? `The work is dated ${date}, before the plan's own date, ${asOf}.`
        : null;
  if (doubt === null) return [];
  return [
    completionFinding("completion-date-doubtful", "warning", treeId, "date", date, {
      reason: doubt,
      whatToDo: "Ask the crew for the day: the tree's next dates are counted from it.",
    }),
  ];
}
