import { type Remedy, unreachable } from "../../model/terms.ts";
import type { ArboristWord, MeasuredLength, MeasurementValue } from "../../model/word.ts";
import { formatDate } from "../../units/format-date.ts";
import { type DisplayUnits, formatDiameter, formatLength, formatShare } from "../../units/format-length.ts";
import { writtenSentence } from "../../units/written-sentence.ts";

const REMEDY_WORDS: Partial<Record<Remedy, string>> = {
  shorten: "cut back branch tips",
  "remove-limb": "remove low limbs",
  lift: "lift all round",
};

const LENGTH_WORDS: Readonly<Record<MeasuredLength, string>> = {
  height: "Height",
  "crown-base": "Crown base",
  "crown-radius": "Crown radius",
  headroom: "Headroom over the road",
  dbh: "Trunk diameter",
};

/** What a word says, one plain sentence without who and when. */
export function wordSays(word: ArboristWord, units: DisplayUnits): string {
  switch (word.kind) {
    case "option": {
      const { remedy, doseShare } = word.value;
      const took = doseShare === null ? "" : `, which took ${formatShare(doseShare)} of the crown when it was chosen`;
      return `Chosen: ${REMEDY_WORDS[remedy] ?? remedy}${took}.`;
    }
    case "dates": {
      const { windowStart, windowEnd, due } = word.value;
      const dueWords = due === null || due === windowEnd ? "" : `, due ${formatDate(due)}`;
      return `Dates: ${formatDate(windowStart)} to ${formatDate(windowEnd)}${dueWords}.`;
    }
    case "do-not-prune":
      return word.value.until === null ? "Do not prune." : `Do not prune until ${formatDate(word.value.until)}.`;
    case "note":
      return `Note: ${writtenSentence(word.value.text)}`;
    case "referral-resolved": {
      const { decision, mayPrescribe } = word.value;
      return `Referral decided: ${writtenSentence(decision)}${mayPrescribe ? " The rules may prescribe." : ""}`;
    }
    case "measurement":
      return measurementWords(word.value, units);
    case "inspected": {
      const { found, conflictIds } = word.value;
      const which = conflictIds.length === 0 ? "" : ` (${conflictIds.length})`;
      return found === "seen"
        ? "Inspected."
        : found === "conflict"
          ? `Inspected: the conflict is real${which}.`
          : `Inspected: there is no conflict${which}.`;
    }
    default:
      return unreachable(word);
  }
}

function measurementWords(value: MeasurementValue, units: DisplayUnits): string {
  if (value.of === "planted") return `Planted ${formatDate(value.date)}.`;
  if (value.of === "defect") return `${value.isThere ? "Defect" : "No defect"}: ${value.defect.replaceAll("-", " ")}.`;
  const length = value.of === "dbh" ? formatDiameter(value.valueM, units) : formatLength(value.valueM, units);
  return `${LENGTH_WORDS[value.of]}: ${length}.`;
}
