import type { ConflictRecord } from "../../model/conflict.ts";
import type { PlanOptions } from "../../model/plan.ts";
import type { Prescription, Visit } from "../../model/prescription.ts";
import type { Tree } from "../../model/trees.ts";
import type { DatesWord, DoNotPruneWord } from "../../model/word.ts";
import type { Standard } from "../../standard/standard.ts";
import { addDays, addMonths, type IsoDate } from "../../units/calendar.ts";
import { formatDate } from "../../units/format-date.ts";
import { LEAST_DAYS, nextWindow } from "../due-date.ts";
import { hazardDeadline } from "../hazard-deadline.ts";
import type { SeasonWindows } from "../season-windows.ts";
import { treeUrgency, visitUrgency } from "../urgency.ts";
import { dateLimits } from "./date-limits.ts";

/** A tree with its prescription as the rules date it, and what arborists said of its visits. */
export interface SaidCase {
  readonly tree: Tree;
  readonly prescription: Prescription;
  readonly dates: readonly DatesWord[];
  readonly doNotPrune: readonly DoNotPruneWord[];
  /** All its conflicts, whatever their certainty. */
  readonly all: readonly ConflictRecord[];
  readonly isChecked: boolean;
  readonly seasons: SeasonWindows;
  readonly standard: Standard;
  readonly options: PlanOptions;
}

/** The prescription with the visits as they were said, and what of it breaks a limit or changes nothing, by word id. */
export interface SaidVisits {
  readonly prescription: Prescription;
  readonly breaks: ReadonlyMap<string, readonly string[]>;
  readonly idle: ReadonlyMap<string, string>;
}

/**
 * The visits with dates as arborists gave them, without those that they called off. Whoever said "do not prune" of the tree for good ends all of its
 * visits; until a day, they are put off beyond it; of one visit, that one goes. Visits that follow too soon on one whose dates were given move to the next
 * window after twelve months. Limits are told, not enforced; a hazard's deadline runs on whatever was said.
 */
export function visitsAsSaid(given: SaidCase): SaidVisits {
  const breaks = new Map<string, string[]>();
  const idle = new Map<string, string>();
  const note = (wordId: string, sentences: readonly string[]): void => {
    if (sentences.length > 0) breaks.set(wordId, [...(breaks.get(wordId) ?? []), ...sentences]);
  };
  const stop = given.doNotPrune.find(({ visitId, value }) => visitId === null && isOn(value.until, given.options.asOf));
  if (stop !== undefined && stop.value.until === null) {
    note(stop.wordId, leftOpen(given, null));
    for (const { wordId } of given.dates) idle.set(wordId, "The tree is not to be pruned.");
    return { prescription: withoutVisits(given), breaks, idle };
  }
  const visits: Visit[] = [];
  let free: IsoDate | null = null;
  const isDated = new Set<string>();
  for (const visit of given.prescription.visits) {
    const off = given.doNotPrune.find(
      (one) => one.visitId === visit.visitId && isOn(one.value.until, given.options.asOf),
    );
    if (off !== undefined && off.value.until === null) {
      note(off.wordId, leftOpen(given, visit));
      continue;
    }
    const until =
      [stop, off]
        .flatMap((one) => one?.value.until ?? [])
        .sort()
        .at(-1) ?? null;
    const own = datesFor(given, visit, visits.length === 0);
    let next = visit;
    if (own !== undefined) {
      isDated.add(own.wordId);
      const { windowStart, windowEnd, due } = own.value;
      next = { ...visit, windowStart, windowEnd, due: due ?? windowEnd, windowReason: `Dates given by ${own.by}.` };
      note(own.wordId, dateLimits(given, next, visits.at(-1) ?? null));
    } else if (until !== null && visit.windowStart <= until) {
      next = movedTo(given, visit, addDays(until, 1));
      for (const one of [stop, off])
        if (one !== undefined) note(one.wordId, dateLimits(given, next, visits.at(-1) ?? null));
    } else if (free !== null && visit.windowStart < free) {
      next = movedTo(given, visit, free);
    }
    // What the rules dated after each other stays; only what was said moves those behind it.
    free = next === visit ? free : addMonths(next.windowEnd, 12);
    visits.push(next === visit ? visit : withUrgency(given, next, visits.length === 0));
  }
  for (const { wordId, visitId } of given.dates) {
    if (!isDated.has(wordId)) {
      idle.set(
        wordId,
        visitId === null ? "No visit is planned, or another word gives its dates." : "This visit is not planned.",
      );
    }
  }
  for (const { wordId, visitId, value } of given.doNotPrune) {
    if (!isOn(value.until, given.options.asOf)) idle.set(wordId, `It held until ${formatDate(value.until!)}.`);
    else if (visitId !== null && !given.prescription.visits.some((visit) => visit.visitId === visitId))
      idle.set(wordId, "This visit is not planned.");
  }
  const isSame =
    visits.length === given.prescription.visits.length &&
    visits.every((one, at) => one === given.prescription.visits[at]);
  return { prescription: isSame ? given.prescription : withVisits(given, visits), breaks, idle };
}

const isOn = (until: IsoDate | null, asOf: IsoDate): boolean => until === null || until >= asOf;

/** The dates for a visit: those said of it, else for the next one those said of none. */
const datesFor = ({ dates }: SaidCase, { visitId }: Visit, isNext: boolean): DatesWord | undefined =>
  dates.find((one) => one.visitId === visitId) ?? (isNext ? dates.find((one) => one.visitId === null) : undefined);

/** A visit in the first window that the seasons allow from a day on; on that day alone where they allow none. */
function movedTo({ seasons }: SaidCase, visit: Visit, from: IsoDate): Visit {
  const when = nextWindow(seasons, from, LEAST_DAYS) ?? { due: from, windowStart: from, windowEnd: from };
  return { ...visit, ...when };
}

function withUrgency(given: SaidCase, visit: Visit, isNext: boolean): Visit {
  const { options } = given;
  const conflictIds = visit.tasks.flatMap((task) => task.conflictIds);
  const timing = visit.tasks.every((task) => task.timing === "any-time") ? ("any-time" as const) : ("window" as const);
  // Put off to a given day, a visit is not wanted before it, though its minimum is reached.
  const isNow = isNext && visit.windowStart <= options.asOf;
  const urgency =
    visit.urgency === "now" ? "now" : visitUrgency(caseOf(given), { conflictIds, timing }, visit.due, isNow);
  return { ...visit, urgency, overdue: visit.due < options.asOf };
}

const caseOf = ({ prescription, seasons, isChecked, standard, options, all }: SaidCase) => ({
  draft: prescription,
  seasons,
  isChecked,
  standard,
  options,
  all,
});

function withVisits(given: SaidCase, left: readonly Visit[]): Prescription {
  const { prescription } = given;
  const visits = left.map((visit, at) => (visit.number === at + 1 ? visit : { ...visit, number: at + 1 }));
  const kept = new Set(visits.flatMap((visit) => visit.tasks.map(({ taskId }) => taskId)));
  const gone = new Set(
    prescription.visits.flatMap((visit) => visit.tasks.map(({ taskId }) => taskId)).filter((id) => !kept.has(id)),
  );
  const deadline = sureDeadline(given);
  return {
    ...prescription,
    visits,
    tasks: prescription.tasks.filter(({ taskId }) => !gone.has(taskId)),
    doseTotalShare: Math.max(
      0,
      prescription.doseTotalShare -
        prescription.visits
          .filter((one) => !left.some(({ visitId }) => visitId === one.visitId))
          .reduce((sum, one) => sum + one.doseShare, 0),
    ),
    urgency: deadline !== null ? "now" : treeUrgency(caseOf(given), visits),
    overdue: (deadline !== null && deadline < given.options.asOf) || visits.some((visit) => visit.overdue),
  };
}

/** Nothing is planned; what runs by itself, a hazard's deadline, runs on, and everything else is only watched. */
function withoutVisits(given: SaidCase): Prescription {
  const { prescription, all, isChecked, options } = given;
  const deadline = sureDeadline(given);
  return {
    ...prescription,
    chosen: null,
    tasks: [],
    visits: [],
    remedy: prescription.refer === null ? "none" : "refer",
    doseTotalShare: 0,
    liftM: null,
    liftToM: null,
    shortenM: null,
    bearingDeg: null,
    liveCrownRatioAfter: prescription.liveCrownRatioBefore,
    openUntilYear: null,
    urgency:
      deadline !== null ? "now" : all.length === 0 && isChecked && prescription.refer === null ? "clear" : "watch",
    overdue: deadline !== null && deadline < options.asOf,
  };
}

const sureDeadline = ({ all, standard }: SaidCase): IsoDate | null =>
  hazardDeadline(
    all.filter(({ certainty }) => certainty !== "possible"),
    standard,
  );

/** What stays open where a visit, or all of them, are called off. */
function leftOpen(given: SaidCase, visit: Visit | null): string[] {
  const ids = visit === null ? null : new Set(visit.tasks.flatMap((task) => task.conflictIds));
  const open = given.all.filter(
    ({ conflictId, certainty }) => certainty !== "possible" && (ids === null || ids.has(conflictId)),
  );
  const deadline = hazardDeadline(open, given.standard);
  const tasks = (visit === null ? given.prescription.visits : [visit]).flatMap((one) => one.tasks);
  const isRemedial = tasks.some(({ remedy }) => remedy === "remedial");
  return [
    ...(deadline === null
      ? []
      : [`A hazard stays open, whose deadline is ${formatDate(deadline)}: have it made safe by other means.`]),
    ...(isRemedial ? ["Dead, broken or diseased wood stays in the crown."] : []),
  ];
}
