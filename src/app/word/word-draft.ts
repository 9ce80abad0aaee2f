import type { PruningOption } from "../../core/model/prescription.ts";
import { DEFECTS } from "../../core/model/terms.ts";
import { type ArboristWord, MEASURED_LENGTHS } from "../../core/model/word.ts";
import { parseIsoDate } from "../../core/units/calendar.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { parseLengthM } from "../../core/units/parse-length.ts";

/** What can be decided on the sheet. */
export const DECISIONS = ["option", "dates", "do-not-prune", "referral-resolved", "measurement", "note"] as const;
export type Decision = (typeof DECISIONS)[number];

/** What can be measured on the sheet. */
export const MEASURES = [...MEASURED_LENGTHS, "planted", "defect", "no-defect"] as const;
export type Measure = (typeof MEASURES)[number];

/** The fields of the sheet as they stand. */
export interface WordDraft {
  readonly decision: Decision;
  readonly option: number | null;
  readonly from: string;
  readonly to: string;
  readonly until: string;
  readonly text: string;
  readonly mayPrescribe: boolean;
  readonly measure: Measure;
  readonly figure: string;
  readonly by: string;
  readonly on: string;
  readonly why: string;
}

export type DraftContent = Pick<ArboristWord, "kind" | "value">;

/** Decisions that must say why. */
export const needsWhy = ({ decision }: WordDraft): boolean => decision !== "measurement" && decision !== "note";

/** What a draft says, or what is still to be filled in, in a sentence. */
export function contentOf(
  draft: WordDraft,
  options: readonly PruningOption[],
  referral: string | null,
  units: DisplayUnits,
): DraftContent | { readonly missing: string } {
  const content = decided(draft, options, referral, units);
  if ("missing" in content) return content;
  if (draft.by.trim() === "") return { missing: "Say who decides." };
  if (parseIsoDate(draft.on) === null) return { missing: "Give the day." };
  return needsWhy(draft) && draft.why.trim() === "" ? { missing: "Say why." } : content;
}

function decided(
  draft: WordDraft,
  options: readonly PruningOption[],
  referral: string | null,
  units: DisplayUnits,
): DraftContent | { readonly missing: string } {
  switch (draft.decision) {
    case "option": {
      const option = draft.option === null ? undefined : options[draft.option];
      if (option === undefined) return { missing: "Choose an option." };
      const { remedy, liftToM, shortenM, doseShare, lastsYears } = option;
      return { kind: "option", value: { remedy, liftToM, shortenM, doseShare, lastsYears } };
    }
    case "dates": {
      const [windowStart, windowEnd] = [parseIsoDate(draft.from), parseIsoDate(draft.to)];
      if (windowStart === null || windowEnd === null) return { missing: "Give the first and the last day." };
      return { kind: "dates", value: { windowStart, windowEnd, due: null } };
    }
    case "do-not-prune":
      return { kind: "do-not-prune", value: { until: draft.until === "" ? null : parseIsoDate(draft.until) } };
    case "referral-resolved":
      if (draft.text.trim() === "") return { missing: "Say what was decided." };
      return {
        kind: "referral-resolved",
        value: { code: referral, decision: draft.text.trim(), mayPrescribe: draft.mayPrescribe },
      };
    case "note":
      return draft.text.trim() === ""
        ? { missing: "Write the note." }
        : { kind: "note", value: { text: draft.text.trim() } };
    case "measurement":
      return measured(draft, units);
  }
}

function measured({ measure, figure }: WordDraft, units: DisplayUnits): DraftContent | { readonly missing: string } {
  if (measure === "planted") {
    const date = parseIsoDate(figure);
    return date === null ? { missing: "Give the day." } : { kind: "measurement", value: { of: "planted", date } };
  }
  if (measure === "defect" || measure === "no-defect") {
    const defect = DEFECTS.find((one) => one === figure);
    return defect === undefined
      ? { missing: "Choose the defect." }
      : { kind: "measurement", value: { of: "defect", defect, isThere: measure === "defect" } };
  }
  const unit = measure === "dbh" ? (units === "us" ? "in" : "cm") : units === "us" ? "ft" : "m";
  const valueM = figure.trim() === "" ? null : parseLengthM(figure, unit);
  return valueM === null
    ? { missing: "Give the figure." }
    : { kind: "measurement", value: { of: measure, valueM: Math.round(valueM * 1000) / 1000 } };
}
