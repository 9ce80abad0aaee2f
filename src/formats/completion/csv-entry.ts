import { NOT_DONE_REASONS, type NotDoneReason, OUTCOMES, type Outcome } from "../../core/plan/completion/completion.ts";
import type { IsoDate } from "../../core/units/calendar.ts";
import { parseDate } from "../../core/units/parse-date.ts";
import { parseDecimal, parseLengthM } from "../../core/units/parse-length.ts";
import { parseShare } from "../../core/units/parse-share.ts";
import type { CompletionColumn, FoundColumns } from "./csv-columns.ts";

/** A row of a completion by hand, read but not yet looked up in the plan; empty cells are null. */
export interface CsvEntry {
  readonly line: number;
  readonly tree: string | null;
  readonly visit: string | null;
  readonly outcome: Outcome;
  readonly reason: NotDoneReason | null;
  readonly date: IsoDate;
  readonly who: string;
  readonly crownBaseM: number | null;
  readonly headroomM: number | null;
  readonly doseShare: number | null;
  readonly crewHours: number | null;
  readonly notes: string;
  readonly photos: readonly string[];
  readonly plan: string | null;
  readonly revision: number | null;
  readonly zone: string | null;
  readonly report: string | null;
  readonly written: string | null;
}

const OUTCOME_WORDS: Readonly<Record<string, Outcome>> = {
  yes: "done",
  y: "done",
  x: "done",
  complete: "done",
  completed: "done",
  finished: "done",
  partial: "partly",
  part: "partly",
  "partly done": "partly",
  no: "not-done",
  n: "not-done",
  "not done": "not-done",
  open: "not-done",
};

/** A row as an entry, or what is wrong with it, a sentence each; null for a row that says nothing of its outcome. */
export function csvEntry(
  cells: readonly string[],
  line: number,
  columns: FoundColumns,
): { entry: CsvEntry } | { faults: string[] } | null {
  const faults: string[] = [];
  const textOf = (column: CompletionColumn): string => (cells[columns.get(column)?.at ?? -1] ?? "").trim();
  const fault = (column: CompletionColumn, expected: string): null => {
    const name = columns.get(column)?.name ?? column;
    faults.push(`Line ${line}: ${name} is "${textOf(column).slice(0, 60)}"; expected ${expected}.`);
    return null;
  };
  const lengthM = (column: CompletionColumn): number | null => {
    const text = textOf(column);
    if (text === "") return null;
    const unit = columns.get(column)?.unit ?? null;
    if (unit === null && parseDecimal(text) !== null)
      return fault(
        column,
        "a length with its unit, in the cell or in the column's name, such as 4.6 m or crown_base_after_ft",
      );
    const valueM = parseLengthM(text, unit ?? "m");
    return valueM === null || valueM < 0 || valueM > 130
      ? fault(column, "a height up to 130 m")
      : Math.round(valueM * 1000) / 1000;
  };
  const outcomeText = textOf("outcome").toLowerCase();
  if (outcomeText === "") return null;
  const outcome =
    OUTCOMES.find((one) => one === outcomeText.replace(/\s+/g, "-")) ??
    (Object.hasOwn(OUTCOME_WORDS, outcomeText) ? OUTCOME_WORDS[outcomeText]! : fault("outcome", OUTCOMES.join(", ")));
  const reasonText = textOf("reason").toLowerCase().replace(/\s+/g, "-");
  const reason =
    reasonText === ""
      ? null
      : (NOT_DONE_REASONS.find((one) => one === reasonText) ?? fault("reason", NOT_DONE_REASONS.join(", ")));
  if (outcome !== null && outcome !== "done" && reasonText === "")
    fault("reason", `a reason: ${NOT_DONE_REASONS.join(", ")}`);
  const parsed = parseDate(textOf("date"), null);
  const date =
    "date" in parsed && parsed.filledIn === "nothing" ? parsed.date : fault("date", "a whole date such as 2027-03-12");
  const doseText = textOf("dose_taken");
  const doseShare =
    doseText === "" ? null : (parseShare(doseText, "percent") ?? fault("dose_taken", "a percentage from 0 to 100"));
  const hoursText = textOf("crew_hours");
  const hours = hoursText === "" ? null : parseDecimal(hoursText);
  if (hoursText !== "" && (hours === null || hours < 0 || hours > 10_000)) fault("crew_hours", "hours, 0 to 10000");
  const revisionText = textOf("revision");
  const revision = revisionText === "" ? null : Number(revisionText);
  if (revision !== null && !(Number.isSafeInteger(revision) && revision >= 1))
    fault("revision", "a whole number from 1");
  if (textOf("tree") === "" && textOf("visit") === "") faults.push(`Line ${line}: neither tree nor visit is given.`);
  const orNull = (column: CompletionColumn): string | null => (textOf(column) === "" ? null : textOf(column));
  const read = {
    crownBaseM: lengthM("crown_base_after"),
    headroomM: lengthM("headroom_after"),
  };
  if (faults.length > 0 || outcome === null || date === null) return { faults };
  return {
    entry: {
      line,
      tree: orNull("tree"),
      visit: orNull("visit"),
      outcome,
      reason: outcome === "done" ? null : reason,
      date,
      who: textOf("who"),
      ...read,
      doseShare: doseShare === null ? null : Math.round(doseShare * 1000) / 1000,
      crewHours: hours,
      notes: textOf("notes"),
      photos: textOf("photos")
        .split(/[;\n]/)
        .map((one) => one.trim())
        .filter((one) => one !== ""),
      plan: orNull("plan"),
      revision,
      zone: orNull("zone"),
      report: orNull("report"),
      written: orNull("written"),
    },
  };
}
