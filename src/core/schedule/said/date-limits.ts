import type { ConflictRecord } from "../../model/conflict.ts";
import type { Visit } from "../../model/prescription.ts";
import type { Tree } from "../../model/trees.ts";
import type { SeasonRule, Standard } from "../../standard/standard.ts";
import { addDays, addMonths } from "../../units/calendar.ts";
import { formatDate } from "../../units/format-date.ts";
import { hazardDeadline } from "../hazard-deadline.ts";
import { isSouthern } from "../season-book.ts";
import { rulesAgainst, type SeasonWindows } from "../season-windows.ts";
import { spanWords } from "../window-words.ts";

/** What the dates of a visit are held against. */
export interface DateCase {
  readonly tree: Tree;
  readonly all: readonly ConflictRecord[];
  readonly seasons: Pick<SeasonWindows, "rules">;
  readonly standard: Standard;
}

/** Longest window in days that is looked through day by day: no rule is longer than a year. */
const MOST_DAYS = 366;

/**
 * The limits that given dates of a visit break, a sentence each: seasons closed on some of its days, a hazard's deadline, a minimum reached before,
 * twelve months since the last dose or the visit before. Empty where they keep all that is known here.
 */
export function dateLimits(given: DateCase, visit: Visit, before: Visit | null): string[] {
  const { tree, all, seasons, standard } = given;
  const isSouth = isSouthern(tree);
  const ids = new Set(visit.tasks.flatMap((task) => task.conflictIds));
  const own = all.filter(({ conflictId }) => ids.has(conflictId));
  const closed = new Set<SeasonRule>();
  const isSeasonal = visit.tasks.some(({ timing }) => timing === "window");
  let day = visit.windowStart;
  for (let count = 0; isSeasonal && day <= visit.windowEnd && count < MOST_DAYS; count += 1, day = addDays(day, 1)) {
    for (const rule of rulesAgainst(seasons.rules, isSouth, day)) closed.add(rule);
  }
  const against = seasons.rules.filter((rule) => closed.has(rule));
  const deadline = hazardDeadline(own, standard);
  const reached = own.filter(
    ({ hazard, reachedOn }) => hazard === null && reachedOn < visit.windowEnd && reachedOn > visit.windowStart,
  );
  const freshOn = tree.lastPruned === null ? null : addMonths(tree.lastPruned, 12);
  const takesLive = visit.doseShare > 0;
  const precautions = [...new Set(against.flatMap(({ precaution }) => precaution ?? []))].join(" ");
  return [
    ...against.map((rule) => `Falls into a closed season: ${spanWords(rule, isSouth)}.`),
    ...(precautions === "" ? [] : [precautions]),
    ...(deadline !== null && visit.windowEnd > deadline
      ? [`Runs past a hazard's deadline, ${formatDate(deadline)}.`]
      : []),
    ...(reached.length === 0
      ? []
      : [`A minimum is reached before it ends, ${formatDate(reached.map(({ reachedOn }) => reachedOn).sort()[0]!)}.`]),
    ...(takesLive && freshOn !== null && visit.windowStart < freshOn
      ? [`Begins less than 12 months after the last pruning, ${formatDate(tree.lastPruned!)}.`]
      : []),
    ...(takesLive && before !== null && visit.windowStart < addMonths(before.windowEnd, 12)
      ? ["Begins less than 12 months after the visit before, so that no growing season may lie between."]
      : []),
  ];
}
