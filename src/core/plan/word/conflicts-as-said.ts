import type { ConflictRecord } from "../../model/conflict.ts";
import type { InspectedWord } from "../../model/word.ts";
import type { WordsOfTree } from "../../model/words-in-force.ts";
import type { Standard } from "../../standard/standard.ts";
import { addDays, type IsoDate } from "../../units/calendar.ts";

/**
 * The conflicts of one tree after somebody stood before it: those found real are confirmed, those found not to be there are left out for a pruning cycle,
 * after which crowns have grown; possible ones count as probable where the referral for inspection was decided so.
 */
export function conflictsAsSaid<Record extends ConflictRecord>(
  conflicts: readonly Record[],
  said: WordsOfTree,
  standard: Standard,
  asOf: IsoDate,
): Record[] {
  const mayPrescribe = said.resolved.some(({ value }) => value.code === "inspect-first" && value.mayPrescribe);
  return conflicts.flatMap((conflict) => {
    const last = said.inspected.filter((word) => isAbout(word, conflict)).at(-1);
    if (last?.value.found === "no-conflict" && holds(last, standard, asOf)) return [];
    if (last?.value.found === "conflict") {
      return [{ ...conflict, certainty: "confirmed" as const, doubt: null }];
    }
    return conflict.certainty === "possible" && mayPrescribe
      ? [{ ...conflict, certainty: "probable" as const, doubt: "Its inspection was decided to be prescribed for." }]
      : [conflict];
  });
}

const isAbout = ({ value }: InspectedWord, { conflictId, certainty }: ConflictRecord): boolean =>
  value.found !== "seen" &&
  (value.conflictIds.length === 0 ? certainty === "possible" : value.conflictIds.includes(conflictId));

const holds = ({ on }: InspectedWord, standard: Standard, asOf: IsoDate): boolean =>
  asOf <= addDays(on, Math.round(standard.pruning.cycleYears * 365.25));
