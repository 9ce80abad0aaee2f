import type { Plan } from "../../model/plan.ts";
import type { Prescription } from "../../model/prescription.ts";
import { DEFECTS } from "../../model/terms.ts";
import type { Tree } from "../../model/trees.ts";
import {
  type ArboristWord,
  MEASURED_LENGTHS,
  type MeasuredLength,
  type MeasurementValue,
  WORD_KINDS,
} from "../../model/word.ts";
import { dayNumber } from "../../units/calendar.ts";

/** Longest text of a word, in characters. */
export const MOST_WORD_TEXT = 2000;
/** Longest window in days that dates may span: longer is no date. Our policy. */
const MOST_WINDOW_DAYS = 3 * 366;
/** Kinds that must say why: they decide something against or instead of the rules. */
const NEEDS_WHY: readonly string[] = ["option", "dates", "do-not-prune", "referral-resolved"];
/** Limits of belief in meters, those of an inventory's columns. Our policy. */
const BELIEVED: Readonly<Record<MeasuredLength, readonly [number, number]>> = {
  height: [0.5, 100],
  "crown-base": [0, 100],
  "crown-radius": [0.05, 25],
  headroom: [0.2, 30],
  dbh: [0.005, 5],
};

/** Why a word cannot be taken, in a sentence; null when it can. */
export function wordFault(word: ArboristWord, tree: Tree, prescription: Prescription, plan: Plan): string | null {
  if (!WORD_KINDS.includes(word.kind)) return `Nobody knows a word of the kind ${String(word.kind).slice(0, 40)}.`;
  if (word.by.trim() === "") return "It does not say who said it.";
  if (NEEDS_WHY.includes(word.kind) && word.why.trim() === "") return "It does not say why.";
  if (word.by.length > 200 || word.why.length > MOST_WORD_TEXT)
    return `Its text is longer than ${MOST_WORD_TEXT} characters.`;
  if (word.visitId !== null && !word.visitId.startsWith(`${tree.id}/v`)) {
    return `Visit ${word.visitId.slice(0, 80)} is not one of tree ${tree.id}.`;
  }
  const isPlanned = word.visitId === null || prescription.visits.some(({ visitId }) => visitId === word.visitId);
  switch (word.kind) {
    case "option":
      return optionFault(word.value.remedy, prescription);
    case "dates": {
      const { windowStart, windowEnd, due } = word.value;
      if (windowEnd < windowStart) return "Its dates end before they begin.";
      if (dayNumber(windowEnd) - dayNumber(windowStart) > MOST_WINDOW_DAYS)
        return "Its dates span more than three years.";
      if (due !== null && (due < windowStart || due > windowEnd)) return "Its due date lies outside its dates.";
      if (windowEnd < plan.options.asOf) return `Its dates have passed: the plan is of ${plan.options.asOf}.`;
      if (!isPlanned) return `The plan has no visit ${word.visitId!.slice(0, 80)}.`;
      return prescription.visits.length === 0
        ? "No visit is planned for this tree that dates could be given for."
        : null;
    }
    case "do-not-prune":
      if (word.value.until !== null && word.value.until < word.on) return "It ends before it was said.";
      return isPlanned ? null : `The plan has no visit ${word.visitId!.slice(0, 80)}.`;
    case "note":
      return textFault(word.value.text, "The note is empty.");
    case "referral-resolved":
      if (prescription.refer === null) return "The tree is not referred.";
      if (word.value.code !== null && word.value.code !== prescription.refer.code) {
        return `The tree is referred for another reason, ${prescription.refer.code}.`;
      }
      return textFault(word.value.decision, "It does not say what was decided.");
    case "measurement":
      return measurementFault(word.value);
    case "inspected": {
      const own = new Set(plan.conflicts.flatMap(({ treeId, conflictId }) => (treeId === tree.id ? [conflictId] : [])));
      const unknown = word.value.conflictIds.find((id) => !own.has(id));
      return unknown === undefined ? null : `The tree has no conflict ${unknown.slice(0, 80)}.`;
    }
  }
}

function optionFault(remedy: string, { options }: Prescription): string | null {
  const own = options.filter((option) => option.remedy === remedy);
  if (own.length === 0) {
    const computed = [...new Set(options.map((option) => option.remedy))].join(", ");
    return computed === ""
      ? "No option is computed for this tree, as no conflict has to be cured."
      : `It is none of the options computed: ${computed}.`;
  }
  const topping = own.find(
    ({ leadersToM, ruledOutBy }) => leadersToM !== undefined && ruledOutBy?.startsWith("would be topping"),
  );
  if (own.every(({ liveCrownRatioAfter }) => liveCrownRatioAfter <= 0)) {
    return "It would leave no live crown, which is removal and not pruning.";
  }
  return topping !== undefined && own.length === 1 ? "It would be topping, which is never an option." : null;
}

function measurementFault(value: MeasurementValue): string | null {
  if (value.of === "planted") return null;
  if (value.of === "defect")
    return DEFECTS.includes(value.defect) ? null : `No defect is called ${String(value.defect).slice(0, 40)}.`;
  if (!MEASURED_LENGTHS.includes(value.of)) return `Nobody measures ${String(value.of).slice(0, 40)}.`;
  const [leastM, mostM] = BELIEVED[value.of];
  return value.valueM >= leastM && value.valueM <= mostM
    ? null
    : `${value.valueM} m is not believed of its ${value.of.replace("-", " ")}: ${leastM} to ${mostM} m.`;
}

const textFault = (text: string, empty: string): string | null =>
  text.trim() === ""
    ? empty
    : text.length > MOST_WORD_TEXT
      ? `Its text is longer than ${MOST_WORD_TEXT} characters.`
      : null;
