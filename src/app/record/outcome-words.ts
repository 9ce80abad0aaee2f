import type { NotDoneReason, Outcome, VisitCompletion } from "../../core/plan/completion/completion.ts";
import type { RecordStatus } from "../../core/plan/record/record-preview.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { type DisplayUnits, formatLength, formatShare } from "../../core/units/format-length.ts";

const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  done: "Done",
  partly: "Partly done",
  "not-done": "Not done",
};

const REASON_WORDS: Readonly<Record<NotDoneReason, string>> = {
  "vehicle-in-the-way": "vehicle in the way",
  "no-access": "no access",
  nest: "active nest",
  "conductor-too-near": "conductor too near",
  weather: "weather",
  equipment: "equipment",
  "out-of-time": "out of time",
  "more-than-planned": "needs more than planned",
  "tree-gone": "tree is gone",
  "not-needed": "not needed",
  other: "another reason",
};

/** Headings of the groups that visits are shown in, in this order: what asks for a decision first. */
export const STATUS_WORDS: Readonly<Record<RecordStatus, string>> = {
  conflict: "Two reports differ",
  "needs-decision": "To decide",
  take: "Will be recorded",
  refused: "Cannot be recorded",
  "already-taken": "Recorded already",
};

/** What a report says of a visit: `Done 3 Mar 2027 by R. Alder. Crown base 9 ft, 12 % taken.` */
export function entryWords(entry: VisitCompletion, units: DisplayUnits): string {
  const { outcome, reason, date, who, crownBaseM, headroomM, doseShare } = entry;
  const why = reason === null ? "" : `: ${REASON_WORDS[reason]}`;
  const figures = [
    ...(crownBaseM === null ? [] : [`crown base ${formatLength(crownBaseM, units)}`]),
    ...(headroomM === null ? [] : [`headroom ${formatLength(headroomM, units)}`]),
    ...(doseShare === null ? [] : [`${formatShare(doseShare)} of the live crown taken`]),
  ].join(", ");
  const head = `${OUTCOME_WORDS[outcome]} ${formatDate(date)}${who === "" ? "" : ` by ${who}`}${why}.`;
  return figures === "" ? head : `${head} ${figures.slice(0, 1).toUpperCase()}${figures.slice(1)}.`;
}
