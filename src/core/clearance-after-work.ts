import type { Conflict, RemovalRegion } from "./model/conflict.ts";
import type { ClearedConflict } from "./plan/record/tree-after-work.ts";
import { lossMPerYear } from "./prescription/clearance-target.ts";
import { isHeadroom } from "./prescription/kinds.ts";
import type { Standard } from "./standard/standard.ts";
import { addDays, type IsoDate } from "./units/calendar.ts";

const DAYS_PER_YEAR = 365.25;

/**
 * A conflict of a tree whose work was reported done, as it then stands; null where it is clear beyond two pruning cycles. The crown model knows
 * nothing of shortened tips and of limbs taken off one side, so what the task was to reach is taken for reached, and loses clearance at the
 * standard's rates of regrowth and droop. It is `assumed` unless the crew measured the free height, and never better than `probable`. What is
 * prescribed for it next is only what has grown back by then.
 */
export function clearanceAfterWork(
  conflict: Conflict,
  { remedy, on, targetM, measuredM, lastsYears }: ClearedConflict,
  asOf: IsoDate,
  standard: Standard,
): Conflict | null {
  const reachedM = measuredM ?? targetM;
  const isPart = reachedM !== null && reachedM < conflict.minimumM;
  const basis = measuredM === null ? ("assumed" as const) : ("measured" as const);
  if (isPart) return inPart(conflict, reachedM, basis, standard);
  const lossM = lossMPerYear(conflict, remedy, standard);
  const spareM = reachedM === null ? 0 : reachedM - conflict.minimumM - (conflict.droopAllowanceM ?? 0);
  // A free height that was measured tells by itself; what was only to be reached lasts at least as long as its option was to.
  const years = Math.max(0, spareM / lossM, measuredM === null ? (lastsYears ?? 0) : 0);
  const reachedOn = addDays(on, Math.round(years * DAYS_PER_YEAR));
  if (conflict.encroachmentM === 0 && conflict.reachedOn > reachedOn) return conflict;
  const horizon = addDays(asOf, Math.floor(2 * standard.pruning.cycleYears * DAYS_PER_YEAR));
  if (reachedOn > horizon) return null;
  const nowM = reachedM ?? conflict.minimumM;
  return {
    ...conflict,
    measuredM: nowM,
    encroachmentM: 0,
    certainty: conflict.certainty === "confirmed" ? "probable" : conflict.certainty,
    basis,
    doubt: `Reported done on ${on}${measuredM === null ? " and not measured" : ""}; the date is a forecast of regrowth.`,
    reachedOn: reachedOn < asOf ? asOf : reachedOn,
    hazard: null,
    encroachment: null,
    region: regrown(conflict, conflict.minimumM),
    ...(conflict.hiddenShare == null ? {} : { hiddenShare: 0 }),
  };
}

/** A cut that was to reach less than the minimum, as the first of several visits: the conflict stands, and what was cut is gone. */
function inPart(conflict: Conflict, reachedM: number, basis: "measured" | "assumed", standard: Standard): Conflict {
  if (reachedM <= conflict.measuredM && basis === "assumed") return conflict;
  const rule = standard.rules.find(({ id }) => id === conflict.ruleId);
  const isHazard = rule?.hazard != null && reachedM < rule.hazard.belowM && conflict.certainty !== "possible";
  return {
    ...conflict,
    measuredM: reachedM,
    encroachmentM: conflict.minimumM - reachedM,
    basis,
    hazard: isHazard ? rule.hazard!.kind : null,
    region: regrown(conflict, reachedM),
  };
}

/** The part of a removal region that foliage can fill again when a clearance of `freeM` is reached: above it over ways, nearer than it at walls and lines. */
function regrown(conflict: Conflict, freeM: number): RemovalRegion {
  const { region, datumM, clearToM } = conflict;
  if (isHeadroom(conflict.kind))
    return { ...region, lowM: Math.min(region.highM, Math.max(region.lowM, datumM + freeM)) };
  const depthM = Math.max(0, clearToM - freeM);
  return { ...region, toM: region.toM.map((toM, ray) => Math.min(toM, region.fromM[ray]! + depthM)) };
}
