import { type Crown, radiusTowardM } from "../../../src/core/crown/crown.ts";
import { profileShare } from "../../../src/core/crown/profile.ts";
import { type Conflict, RAY_COUNT, type RemovalRegion, type TreeSetting } from "../../../src/core/model/conflict.ts";
import type { PlanOptions } from "../../../src/core/model/plan.ts";
import type { Prescription, Visit } from "../../../src/core/model/prescription.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import type { Cut } from "../../../src/core/prescription/cut.ts";
import { establishedOn } from "../../../src/core/prescription/establishment.ts";
import { planClearance } from "../../../src/core/prescription/plan-clearance.ts";
import { subjectAtWork } from "../../../src/core/prescription/subject-at-work.ts";
import { subjectDose } from "../../../src/core/prescription/subject-dose.ts";
import { ruleSpan, rulesFor, seasonWindows } from "../../../src/core/schedule/season-windows.ts";
import type { Standard } from "../../../src/core/standard/standard.ts";
import { addDays, addMonths, dayNumber, type IsoDate } from "../../../src/core/units/calendar.ts";

/** One tree with what was planned for it. */
export interface Planned {
  readonly tree: Tree;
  /** All its conflicts. */
  readonly conflicts: readonly Conflict[];
  readonly setting: TreeSetting;
  readonly plan: Prescription;
  readonly standard: Standard;
  readonly options: PlanOptions;
}

/** Rounding in sums of shares. */
const ROUNDING = 1e-6;
/** Safety work is for these only (design of this project). */
const HAZARD_KINDS = new Set([
  "vehicle-height",
  "walk-headroom",
  "sign-hidden",
  "signal-hidden",
  "sight-hidden",
  "conductor-minimum",
]);

const isWoody = ({ form }: Tree): boolean => form !== "shrub" && form !== "hedge";
const isLive = (visit: Visit): boolean => visit.tasks.some(({ timing }) => timing === "window");

/** What a plan does that an arborist must never do, in words; empty when it keeps every law. */
export const breaches = (of: Planned): string[] => [
  ...doseBreaches(of),
  ...seasonBreaches(of),
  ...orderBreaches(of),
  ...crownBreaches(of),
];

/** The limit by life stage and condition, written anew: a tenth for poor or over-mature, 15 % for mature, 20 % for medium, a quarter for young. */
function limitShare({ condition, height, traits, dbhM, dbhBasis }: Tree): number {
  if (condition === "poor") return 0.1;
  const grown = height.valueM / traits.matureHeightM;
  if (grown >= 0.75) return dbhBasis === "measured" && dbhM !== null && dbhM >= 1 ? 0.1 : 0.15;
  return grown >= 0.5 ? 0.2 : 0.25;
}

/** What the last pruning left until a year after it, written anew: one of unknown dose took the whole ceiling. */
function leftUntil({ lastPruned, lastDoseShare }: Tree, most: number): { freshOn: IsoDate | null; leftShare: number } {
  const spent = lastDoseShare ?? 0.25;
  if (lastPruned === null || spent <= 0) return { freshOn: null, leftShare: most };
  return { freshOn: addMonths(lastPruned, 12), leftShare: Math.max(0, most - spent) };
}

function doseBreaches({ tree, plan, standard }: Planned): string[] {
  const found: string[] = [];
  const most = limitShare(tree);
  const { freshOn, leftShare } = leftUntil(tree, most);
  for (const visit of plan.visits) {
    const sum = visit.tasks.reduce((total, { doseShare }) => total + doseShare, 0);
    if (Math.abs(sum - visit.doseShare) > ROUNDING) found.push(`${visit.visitId}: its dose is not that of its tasks`);
    if (visit.doseShare > most + ROUNDING) found.push(`${visit.visitId}: ${visit.doseShare} over ${most}`);
    const isSoon = freshOn !== null && visit.windowStart < freshOn;
    if (isLive(visit) && isSoon && visit.doseShare > leftShare + ROUNDING) {
      found.push(`${visit.visitId}: more than the last pruning left`);
    }
    // All that may be taken within the twelve months from its first day.
    const within = plan.visits.filter(
      (other) =>
        other.windowStart >= visit.windowStart && dayNumber(other.windowStart) - dayNumber(visit.windowStart) < 365,
    );
    const year = within.reduce((total, { doseShare }) => total + doseShare, 0);
    if (year > most + ROUNDING) found.push(`${visit.visitId}: ${year} within twelve months, over ${most}`);
  }
  const stages = plan.visits.filter((visit) => visit.tasks.some(({ conflictIds }) => conflictIds.length > 0));
  const other = plan.tasks.reduce(
    (sum, { conflictIds, doseShare }) => sum + (conflictIds.length === 0 ? doseShare : 0),
    0,
  );
  const cleared = plan.doseTotalShare - other;
  if (stages.length > 1 && cleared > standard.pruning.multiYearCeilingShare + ROUNDING) {
    found.push(`${cleared} for clearance in all visits`);
  }
  return found;
}

function seasonBreaches({ tree, conflicts, plan, standard, options }: Planned): string[] {
  const found: string[] = [];
  const { asOf, place } = options;
  const isSouth = tree.latDeg < 0;
  const { rules } = seasonWindows(rulesFor(tree, standard.seasons, place.region), isSouth, asOf, 1);
  const spans = rules.map((rule) => ruleSpan(rule, isSouth));
  const isForbidden = (day: number) => {
    const monthDay = addDays(asOf, day - dayNumber(asOf)).slice(5);
    return spans.some(([from, to]) =>
      from <= to ? monthDay >= from && monthDay <= to : monthDay >= from || monthDay <= to,
    );
  };
  const hazards = new Set(
    conflicts
      .filter(({ hazard, certainty }) => hazard !== null && HAZARD_KINDS.has(hazard) && certainty !== "possible")
      .map(({ conflictId }) => conflictId),
  );
  for (const visit of plan.visits) {
    if (visit.windowStart < asOf || visit.windowEnd < visit.windowStart) found.push(`${visit.visitId}: no window`);
    const isDueInside = visit.due >= visit.windowStart && visit.due <= visit.windowEnd;
    if (!visit.overdue && !isDueInside) found.push(`${visit.visitId}: due outside its window`);
    const isSafety = visit.tasks.some(({ conflictIds }) => conflictIds.some((id) => hazards.has(id)));
    if (visit.urgency === "now" && !isSafety) found.push(`${visit.visitId}: now, without a hazard`);
    if (!isOutside(visit, isForbidden)) continue;
    // One that takes nothing is done with the cuts for the hazard.
    const others = visit.tasks.filter(
      ({ timing, conflictIds, doseShare }) =>
        timing === "window" && doseShare > ROUNDING && !conflictIds.some((id) => hazards.has(id)),
    );
    if (others.length > 0) found.push(`${visit.visitId}: ${others[0]!.taskId} outside the season, and no safety work`);
    if (isLive(visit) && visit.urgency !== "now") found.push(`${visit.visitId}: outside the season, but not urgent`);
  }
  return found;
}

/** Whether a window touches a forbidden day; every day is looked at. */
function isOutside(visit: Visit, isForbidden: (day: number) => boolean): boolean {
  for (let day = dayNumber(visit.windowStart); day <= dayNumber(visit.windowEnd); day += 1) {
    if (isForbidden(day)) return true;
  }
  return false;
}

function orderBreaches({ tree, conflicts, plan, standard, options }: Planned): string[] {
  const found: string[] = [];
  if (tree.condition === "dead" && plan.visits.length > 0) found.push("a dead tree is pruned");
  const knownSince = conflicts.reduce<IsoDate | null>(
    (first, { firstSeen }) => (first === null || firstSeen < first ? firstSeen : first),
    null,
  );
  const established = establishedOn(tree, options.place, standard, options.asOf, knownSince);
  const live = plan.visits.filter(isLive);
  for (const visit of live) {
    if (established !== null && visit.windowStart < established) found.push(`${visit.visitId}: before establishment`);
  }
  for (let at = 1; at < live.length; at += 1) {
    if (dayNumber(live[at]!.windowStart) - dayNumber(live[at - 1]!.windowEnd) < 365) {
      found.push(`${live[at]!.visitId}: in the season of the dose before it`);
    }
  }
  // Safety work that must not wait for the season may go before the stages.
  if (live.length > standard.pruning.maxStages + 1) found.push(`${live.length} stages`);
  return found;
}

/**
 * Leaders come down under a line only, of a broad-leaved tree, to where a limb that grows away from the line is a third of them by the estimate
 * of limb sizes, written anew: 0.4 of the stem at the mean radius of the crown. Nothing but line clearance does it.
 */
function leaderBreaches({ tree, plan }: Planned, { conflict, leaders, region }: Cut, crown: Crown): string[] {
  const found: string[] = [];
  if (conflict.kind !== "conductor") found.push("leaders come down where no line is");
  if (tree.form !== "tree" || tree.traits.isConifer) found.push(`leaders of a ${tree.form} come down`);
  const { toM } = leaders!;
  if (region.lowM !== toM) found.push("leaders are not cut where they are said to be");
  const share = profileShare(crown.habit, (toM - crown.crownBaseM) / (crown.heightM - crown.crownBaseM));
  let widestM = 0;
  for (let bearingDeg = 0; bearingDeg < 360; bearingDeg += 1) {
    const gapDeg = Math.abs(((bearingDeg - conflict.bearingDeg + 540) % 360) - 180);
    if (gapDeg > 90) widestM = Math.max(widestM, radiusTowardM(crown.radii, bearingDeg) * share);
  }
  // Bearings by the degree instead of rays every three: a radius changes by less than a hundredth in between.
  if ((0.4 * widestM * 1.01) / tree.radius.valueM < 1 / 3) found.push(`topping: no lateral at ${toM}`);
  const lcr = (toM - crown.crownBaseM) / toM;
  if (lcr < Math.min(0.6, plan.liveCrownRatioBefore) - ROUNDING && crown.heightM - toM > ROUNDING)
    found.push(`leaders down to ${toM} leave a live crown of ${lcr}`);
  const crews = plan.visits
    .filter(({ tasks }) => tasks.some(({ conflictIds }) => conflictIds.includes(conflict.conflictId)))
    .map(({ crew }) => crew);
  if (crews.some((crew) => crew !== "line-clearance" && crew !== "utility")) found.push("leaders come down by others");
  return found;
}

/**
 * Whether a top that stands in a line's clear-to is not brought down although the line passes no farther from the trunk than the minimum and the
 * 1.5 m of a first year's shoots (Follett and others 2016): then only half of the leader would be taken.
 */
function cutsLeaderFromTheSide({ height }: Tree, { conflict, leaders }: Cut): boolean {
  const { kind, distanceM, clearToM, minimumM, region } = conflict;
  const isTopInside = distanceM < clearToM && height.valueM > region.lowM && height.valueM <= region.highM;
  return kind === "conductor" && isTopInside && leaders === undefined && distanceM < minimumM + 1.5 - ROUNDING;
}

/** Heights of a crown are looked at in so many steps. */
const STEPS = 100;
/** A step is a hundredth of the crown's depth, which is at most the whole height; half a step off at both ends, and half for rounding. */
const SAMPLED = 1.5 / STEPS;

/** Live crown ratio by sampling: from the lowest to the highest height at which foliage is left on any ray. */
function liveShareLeft(crown: Crown, regions: readonly RemovalRegion[]): number {
  let lowestM = Number.NaN;
  let highestM = Number.NaN;
  for (let step = 0; step < STEPS; step += 1) {
    const heightM = crown.crownBaseM + ((step + 0.5) / STEPS) * (crown.heightM - crown.crownBaseM);
    const there = regions.filter(({ lowM, highM }) => heightM > lowM && heightM < highM);
    let isLeft = there.length === 0;
    for (let ray = 0; ray < RAY_COUNT && !isLeft; ray += 1) isLeft = there.every(({ fromM }) => fromM[ray]! > 0);
    if (!isLeft) continue;
    if (Number.isNaN(lowestM)) lowestM = heightM;
    highestM = heightM;
  }
  return (highestM - lowestM) / highestM;
}

function crownBreaches(of: Planned): string[] {
  const { tree, conflicts, plan, standard, options } = of;
  if (plan.chosen === null || !isWoody(tree)) return [];
  const found: string[] = [];
  const before = (tree.height.valueM - tree.crownBase.valueM) / tree.height.valueM;
  const least = tree.form === "palm" ? 0 : Math.min(0.6, before);
  if (plan.liveCrownRatioAfter < least - ROUNDING) found.push(`live crown ratio ${plan.liveCrownRatioAfter}`);
  const chosen = plan.options[plan.chosen]!;
  const ids = new Set(plan.tasks.flatMap(({ conflictIds }) => conflictIds));
  const treated = conflicts.filter(({ conflictId }) => ids.has(conflictId));
  if (treated.length === 0) return found;
  const subject = subjectAtWork(tree, treated, conflicts, standard, options);
  const { crown } = subject;
  const { doseLimitShare: limit } = plan;
  const isInterim = plan.openUntilYear !== null || plan.why.includes("for now");
  if (chosen.lastsYears < 1 - ROUNDING && !isInterim && treated.every(({ hazard }) => hazard === null)) {
    found.push(`a cure of ${chosen.lastsYears} years, and no hazard`);
  }
  const everything: RemovalRegion[] = [];
  for (const { parts } of planClearance(subject, treated, limit, limit, options.asOf, standard).stages) {
    const regions = parts.map(({ cut }) => cut.region);
    everything.push(...regions);
    const isTopKept = Array.from({ length: RAY_COUNT }).some((_, ray) =>
      regions.every((region) => region.highM < crown.heightM || region.fromM[ray]! > 0),
    );
    const down = parts.filter(({ cut }) => cut.leaders !== undefined).map(({ cut }) => cut);
    if (!isTopKept && down.length === 0) found.push("the top is cut");
    for (const cut of down) found.push(...leaderBreaches(of, cut, crown));
    for (const { cut } of parts)
      if (cutsLeaderFromTheSide(tree, cut)) found.push("a leader in a line's way is cut at its side");
    if (subjectDose(subject, regions).volumeShare > 0.5) found.push("more than half of the crown is cut");
  }
  const left = liveShareLeft(crown, everything);
  if (left < Math.min(least, (crown.heightM - crown.crownBaseM) / crown.heightM) - SAMPLED) {
    found.push(`live crown on ${left} of the height, by sampling`);
  }
  return found;
}
