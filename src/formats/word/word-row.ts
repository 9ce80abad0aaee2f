import type { ColumnUnit } from "../../core/model/column-map.ts";
import { type ClearanceRemedy, DEFECTS, type Defect } from "../../core/model/terms.ts";
import { type ArboristWord, MEASURED_LENGTHS, type MeasuredLength } from "../../core/model/word.ts";
import type { IsoDate } from "../../core/units/calendar.ts";
import { parseDate } from "../../core/units/parse-date.ts";
import { parseDecimal, parseLengthM } from "../../core/units/parse-length.ts";
import type { FoundWordColumn, WordColumn } from "./word-columns.ts";

/** What a row says, without an id made for it. */
export type WordRow =
  | { readonly type: "word"; readonly id: string; readonly word: Omit<ArboristWord, "wordId" | "takenBack"> }
  | {
      readonly type: "take-back";
      readonly wordId: string;
      readonly on: IsoDate;
      readonly by: string;
      readonly why: string;
    };

type Content = Pick<ArboristWord, "kind" | "value">;

const REMEDIES: Readonly<Record<string, ClearanceRemedy>> = {
  shorten: "shorten",
  "remove-limb": "remove-limb",
  "remove-limbs": "remove-limb",
  "remove-low-limbs": "remove-limb",
  lift: "lift",
  raise: "lift",
};
const INSPECTED = {
  conflict: "conflict",
  real: "conflict",
  "no-conflict": "no-conflict",
  none: "no-conflict",
  seen: "seen",
} as const;
/** What a row may be called, beside measurements and defects. */
const KINDS = [
  "option",
  "dates",
  "do-not-prune",
  "note",
  "referral-resolved",
  "may-prescribe",
  "inspected",
  "take-back",
] as const;

/** A row as a word, or why it is none, in a sentence; null for a row that says nothing. */
export function wordRow(
  cells: readonly string[],
  columns: ReadonlyMap<WordColumn, FoundWordColumn>,
): WordRow | { readonly fault: string } | null {
  const textOf = (column: WordColumn): string => (cells[columns.get(column)?.at ?? -1] ?? "").trim();
  const name = slug(textOf("word"));
  if (name === "") return null;
  const on = dateIn(textOf("on"));
  if (on === null) return { fault: `on is "${cut(textOf("on"))}"; expected a whole date such as 2027-03-12` };
  const [by, why] = [textOf("by"), textOf("why")];
  if (name === "take-back") {
    const wordId = textOf("value") || textOf("id");
    return wordId === ""
      ? { fault: "it does not name the word to take back, in value" }
      : { type: "take-back", wordId, on, by, why };
  }
  const treeId = textOf("tree");
  if (treeId === "") return { fault: "no tree is given" };
  const content = contentOf(name, textOf, columns.get("value")?.unit ?? null);
  if ("fault" in content) return content;
  const visitId = textOf("visit") === "" ? null : textOf("visit");
  return {
    type: "word",
    id: textOf("id"),
    word: { treeId, visitId, on, by, why, ...content } as Omit<ArboristWord, "wordId" | "takenBack">,
  };
}

function contentOf(
  name: string,
  textOf: (column: WordColumn) => string,
  unit: ColumnUnit | null,
): Content | { readonly fault: string } {
  const text = textOf("value");
  const length = MEASURED_LENGTHS.find((one) => one === name || `${one}-over-road` === name);
  if (length !== undefined) return lengthOf(length, text, unit);
  const defect = DEFECTS.find((one) => name === one || name === `no-${one}`);
  if (defect !== undefined) return seen(defect, name === defect);
  switch (name) {
    case "option": {
      const remedy = Object.hasOwn(REMEDIES, slug(text)) ? REMEDIES[slug(text)]! : null;
      if (remedy === null) return { fault: `value is "${cut(text)}"; expected shorten, remove-limb or lift` };
      return { kind: "option", value: { remedy, liftToM: null, shortenM: null, doseShare: null, lastsYears: null } };
    }
    case "dates": {
      const [windowStart, windowEnd] = [dateIn(textOf("from")), dateIn(textOf("to"))];
      const due = textOf("due") === "" ? null : dateIn(textOf("due"));
      if (windowStart === null || windowEnd === null)
        return { fault: "dates need from and to, whole dates such as 2027-03-12" };
      if (textOf("due") !== "" && due === null)
        return { fault: `due is "${cut(textOf("due"))}"; expected a whole date` };
      return { kind: "dates", value: { windowStart, windowEnd, due } };
    }
    case "do-not-prune": {
      const until = textOf("to") === "" ? null : dateIn(textOf("to"));
      if (textOf("to") !== "" && until === null)
        return { fault: `to is "${cut(textOf("to"))}"; expected a whole date` };
      return { kind: "do-not-prune", value: { until } };
    }
    case "note":
      return { kind: "note", value: { text } };
    case "referral-resolved":
    case "may-prescribe":
      return {
        kind: "referral-resolved",
        value: { code: null, decision: text, mayPrescribe: name === "may-prescribe" },
      };
    case "planted": {
      const date = dateIn(text);
      return date === null
        ? { fault: `value is "${cut(text)}"; expected a whole date such as 2021-10-30` }
        : { kind: "measurement", value: { of: "planted", date } };
    }
    case "defect":
    case "no-defect": {
      const named = DEFECTS.find((one) => one === slug(text));
      return named === undefined
        ? { fault: `value is "${cut(text)}"; expected one of ${DEFECTS.join(", ")}` }
        : seen(named, name === "defect");
    }
    case "inspected": {
      const found = text === "" ? "seen" : slug(text);
      return Object.hasOwn(INSPECTED, found)
        ? { kind: "inspected", value: { conflictIds: [], found: INSPECTED[found as keyof typeof INSPECTED] } }
        : { fault: `value is "${cut(text)}"; expected conflict, no-conflict or seen` };
    }
    default:
      return {
        fault: `word is "${cut(name)}"; expected one of ${[...KINDS, ...MEASURED_LENGTHS, "planted", "defect", "no-defect"].join(", ")}`,
      };
  }
}

function lengthOf(of: MeasuredLength, text: string, unit: ColumnUnit | null): Content | { readonly fault: string } {
  if (unit === null && parseDecimal(text) !== null) {
    return {
      fault: `value is "${cut(text)}" without a unit; expected a length such as 4.6 m or 15 ft, or a column value_m or value_ft`,
    };
  }
  const valueM = parseLengthM(text, unit ?? "m");
  return valueM === null
    ? { fault: `value is "${cut(text)}"; expected a length such as 4.6 m or 15 ft` }
    : { kind: "measurement", value: { of, valueM: Math.round(valueM * 1000) / 1000 } };
}

const seen = (defect: Defect, isThere: boolean): Content => ({
  kind: "measurement",
  value: { of: "defect", defect, isThere },
});

function dateIn(text: string): IsoDate | null {
  const parsed = parseDate(text, null);
  return "date" in parsed && parsed.filledIn === "nothing" ? parsed.date : null;
}

const slug = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, "-")
    .slice(0, 80);
const cut = (text: string): string => text.slice(0, 60);
