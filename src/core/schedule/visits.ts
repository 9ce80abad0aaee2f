import type { Conflict } from "../model/conflict.ts";
import type { Task, Visit } from "../model/prescription.ts";
import { CREWS } from "../model/terms.ts";
import type { Stage } from "../prescription/prescription-draft.ts";
import type { SeasonRule, Standard } from "../standard/standard.ts";
import { addDays, addMonths, type IsoDate } from "../units/calendar.ts";
import { type DueDate, dueDate, LEAST_DAYS, nextWindow } from "./due-date.ts";
import { hazardDeadline } from "./hazard-deadline.ts";
import { rulesAgainst } from "./season-windows.ts";
import type { TreeCase } from "./tree-case.ts";
import { visitUrgency } from "./urgency.ts";
import { hazardWords, windowWords } from "./window-words.ts";

/** Days from the as-of date within which dead, broken and diseased wood comes off, and a branch that hangs loose; our policy. */
const REMEDIAL_DAYS = 180;
const HANGER_DAYS = 30;

interface DatedStage {
  readonly stage: Stage;
  readonly when: DueDate;
  readonly reason: string;
  readonly isHazard: boolean;
  /** Clearance or structural work that may start today and comes before all other. */
  readonly isNext: boolean;
}

/** The visits of a tree with their dates, the next one first. */
export function datedVisits(given: TreeCase): Visit[] {
  const { draft, options } = given;
  return withRemedial(given, datedStages(given)).map(({ stage, when, reason, isHazard, isNext }, at) => ({
    visitId: `${draft.treeId}/v${at + 1}`,
    treeId: draft.treeId,
    treeRow: draft.treeRow,
    number: at + 1,
    tasks: stage.tasks,
    doseShare: stage.doseShare,
    crew: stage.crew,
    hours: stage.hours,
    ...when,
    windowReason: reason,
    urgency: isHazard ? "now" : visitUrgency(given, stage, when.due, isNext),
    overdue: isHazard && when.due < options.asOf,
    openAfter: stage.openAfter,
  }));
}

/** The as-of date, or the later one before which live wood may not be taken. */
function firstAllowed({ draft, options }: TreeCase): IsoDate {
  return draft.earliest !== null && draft.earliest.date > options.asOf ? draft.earliest.date : options.asOf;
}

function datedStages(given: TreeCase): DatedStage[] {
  const { draft, seasons, isSouth, all, standard } = given;
  const from = firstAllowed(given);
  const dated: DatedStage[] = [];
  let start = from;
  const stages = [...draft.stages];
  for (let at = 0; at < stages.length; at += 1) {
    const stage = stages[at]!;
    if (stage.notBefore !== undefined && stage.notBefore > start) start = stage.notBefore;
    const isNext = dated.length === 0 && from === given.options.asOf;
    const own = all.filter((conflict) => stage.conflictIds.includes(conflict.conflictId));
    const deadline = dated.length === 0 ? hazardDeadline(own, standard) : null;
    if (deadline !== null && (from === given.options.asOf || from <= deadline)) {
      const when = hazardDates(deadline, from, own, standard);
      const against = rulesAgainstAny(given, when);
      const reason = hazardWords(against, isSouth);
      // The rest gets a visit of its own, beyond the number of stages if need be: outside the season it has no place.
      const [urgent, other] = against.length > 0 ? splitHazard(stage, own) : [stage, null];
      if (other !== null) stages.splice(1, 0, other);
      dated.push({ stage: urgent, when, reason, isHazard: true, isNext });
    } else {
      const reachedOn = earliestReached(own);
      const when =
        dated.length === 0 && reachedOn !== null
          ? dueDate(seasons, start, reachedOn)
          : nextWindow(seasons, start, LEAST_DAYS);
      if (when === null) break;
      dated.push({ stage, when, reason: windowWords(seasons, isSouth), isHazard: false, isNext });
    }
    // Twelve months hold a whole growing season, and end the rolling year in which the last dose counts.
    start = addMonths(dated.at(-1)!.when.windowEnd, 12);
  }
  return dated;
}

/** The season rules that forbid some day of a window. */
function rulesAgainstAny({ seasons, isSouth }: TreeCase, { windowStart, windowEnd }: DueDate): SeasonRule[] {
  const found = new Set<SeasonRule>();
  for (let day = windowStart; day <= windowEnd; day = addDays(day, 1)) {
    for (const rule of rulesAgainst(seasons.rules, isSouth, day)) found.add(rule);
  }
  return seasons.rules.filter((rule) => found.has(rule));
}

/**
 * Outside the season only the hazards are worked on: the stage's other tasks become a stage of their own, null when there are none. What
 * the cuts for the hazards take along anyway goes with them.
 */
function splitHazard(stage: Stage, conflicts: readonly Conflict[]): [Stage, Stage | null] {
  const hazards = new Set(conflicts.filter(({ hazard }) => hazard !== null).map(({ conflictId }) => conflictId));
  const isUrgent = (task: Task) => task.doseShare <= 0 || task.conflictIds.some((id) => hazards.has(id));
  const others = stage.tasks.filter((task) => !isUrgent(task));
  if (others.length === 0) return [stage, null];
  const urgent = stage.tasks.filter(isUrgent);
  const urgentShare = doseOf(urgent);
  // The second visit is counted on the crown that the first leaves.
  const later = others.map((task) => ({ ...task, doseShare: task.doseShare / (1 - urgentShare) }));
  const idsOf = (tasks: readonly Task[]) =>
    stage.conflictIds.filter((id) => tasks.some((task) => task.conflictIds.includes(id)));
  return [
    { ...stage, tasks: urgent, doseShare: urgentShare, conflictIds: idsOf(urgent) },
    { ...stage, tasks: later, doseShare: doseOf(later), conflictIds: idsOf(others) },
  ];
}

const doseOf = (tasks: readonly Task[]): number => tasks.reduce((sum, task) => sum + task.doseShare, 0);

/** Remedial work rides along with a first visit that may be done in time for it; else it is a visit of its own before it. */
function withRemedial({ tree, draft, options }: TreeCase, dated: readonly DatedStage[]): readonly DatedStage[] {
  if (draft.remedial === null) return dated;
  const by = addDays(options.asOf, tree.defects.includes("hanger") ? HANGER_DAYS : REMEDIAL_DAYS);
  const [first, ...others] = dated;
  if (first !== undefined && (first.when.due <= by || addDays(first.when.windowStart, LEAST_DAYS - 1) <= by)) {
    const due = first.when.due > by ? { due: by } : {};
    return [{ ...first, when: { ...first.when, ...due }, stage: together(draft.remedial, first.stage) }, ...others];
  }
  const when = { due: by, windowStart: options.asOf, windowEnd: by };
  const reason = "Dead, broken and diseased wood may come off at any time.";
  return [{ stage: draft.remedial, when, reason, isHazard: false, isNext: false }, ...dated];
}

function earliestReached(conflicts: readonly Conflict[]): IsoDate | null {
  return conflicts.reduce<IsoDate | null>(
    (first, { reachedOn }) => (first === null || reachedOn < first ? reachedOn : first),
    null,
  );
}

/** From now to the deadline; a missed deadline gets the same number of days again to be worked in. */
function hazardDates(deadline: IsoDate, from: IsoDate, conflicts: readonly Conflict[], standard: Standard): DueDate {
  if (deadline >= from) return { due: deadline, windowStart: from, windowEnd: deadline };
  const days = conflicts.reduce(
    (least, { hazard }) => (hazard === null ? least : Math.min(least, standard.deadlines[hazard])),
    Number.POSITIVE_INFINITY,
  );
  return { due: deadline, windowStart: from, windowEnd: addDays(from, days) };
}

/** Remedial work done on the way: one visit, the stricter crew, the longer time. */
const together = (remedial: Stage, stage: Stage): Stage => ({
  ...stage,
  tasks: [...remedial.tasks, ...stage.tasks],
  doseShare: remedial.doseShare + stage.doseShare,
  crew: CREWS[Math.max(CREWS.indexOf(remedial.crew), CREWS.indexOf(stage.crew))]!,
  hours: Math.max(remedial.hours, stage.hours),
});
