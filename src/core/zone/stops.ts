import type { TreeSetting } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import type { Visit } from "../model/prescription.ts";
import type { Urgency } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import { planeOf, toPlaneInto } from "../plane/plane.ts";
import { dateOfDay, dayNumber, yearOf } from "../units/calendar.ts";

/** One visit that is to be placed in a zone. */
export interface Stop {
  readonly visit: Visit;
  /** Hours of the crew that is at hand. */
  readonly hours: number;
  readonly tree: Tree;
  readonly setting: TreeSetting | null;
  /** The street it is found by: the inventory's, else the nearest road's. */
  readonly street: string | null;
  /** Whether tools must be disinfected after it. */
  readonly isDiseased: boolean;
  /** Days since 1970-01-01; a window that began before the as-of date begins on it. */
  readonly firstDay: number;
  readonly lastDay: number;
  /** The due date, not before the window opens. */
  readonly dueDay: number;
}

/** Work of a later year is zoned when its season comes: by then trees have grown, and a street's work has come together. */
const PLANNED: readonly Urgency[] = ["now", "next-window"];

/** Whether a visit is due by the end of its next window, so that zones are made for it. */
export const isPlanned = ({ visit }: Stop): boolean => PLANNED.includes(visit.urgency);

/** The next visit of every tree whose work is due by the end of its next window, in tree order; `hoursOf` is the standard crew's where left out. */
export const plannedStops = (plan: Plan, hoursOf?: (visit: Visit) => number): Stop[] =>
  nextStops(plan, hoursOf).filter(isPlanned);

/** The next visit of every tree that has one, in tree order; `hoursOf` is the standard crew's where left out. */
export function nextStops(plan: Plan, hoursOf: (visit: Visit) => number = (visit) => visit.hours): Stop[] {
  const settings = new Map(plan.settings.map((setting) => [setting.treeRow, setting]));
  const asOfDay = dayNumber(plan.options.asOf);
  return plan.prescriptions.flatMap((prescription) => {
    const visit = prescription.visits.find((one) => one.number === 1);
    const tree = plan.trees[prescription.treeRow];
    if (visit === undefined || tree === undefined) return [];
    const setting = settings.get(tree.row) ?? null;
    const lastDay = dayNumber(visit.windowEnd);
    const firstDay = Math.min(lastDay, Math.max(asOfDay, dayNumber(visit.windowStart)));
    return [
      {
        visit,
        hours: hoursOf(visit),
        tree,
        setting,
        street: tree.street ?? setting?.road?.name ?? null,
        isDiseased: tree.defects.includes("diseased-limb"),
        firstDay,
        lastDay,
        dueDay: Math.max(firstDay, dayNumber(visit.due)),
      },
    ];
  });
}

/** Added to the crown radius for the drop zone: one and a half times a branch that falls 2 m outside the crown. Our policy. */
export const DROP_MARGIN_M = 3;

/** How far in meters from its trunk a tree's drop zone reaches. */
export const dropReachM = ({ tree }: Stop): number =>
  Math.max(tree.radii.northM, tree.radii.eastM, tree.radii.southM, tree.radii.westM) + DROP_MARGIN_M;

/** Whether a tree's drop zone reaches a traveled way, so that the work takes a lane and the closure has a side. */
export const isInLane = (stop: Stop): boolean => (stop.setting?.road?.distanceM ?? Infinity) <= dropReachM(stop);

/** A window that opens within these days of the as-of date is open now; windows shorter than two months keep to themselves. Our policy. */
const OPEN_SOON_DAYS = 14;
const SHORT_WINDOW_DAYS = 60;
/** A window longer than this has no season of its own; its due date tells when the work is wanted. */
const ANY_TIME_DAYS = 300;

/**
 * What stops must share to be in one zone: crew and urgency, and unless it is `now` also the half-year the work falls in (middle of the
 * window, or the due date where it may be done any time), whether the window is open, and whether it is shorter than two months, so that a
 * few trees with little time do not hurry a whole street. A property of the stop and the as-of date alone: no other stop moves it.
 */
export function groupKey({ visit, firstDay, dueDay, lastDay }: Stop, asOfDay: number): string {
  if (visit.urgency === "now") return `${visit.crew} now`;
  const windowDays = lastDay - firstDay + 1;
  const day = dateOfDay(windowDays > ANY_TIME_DAYS ? dueDay : (firstDay + lastDay) / 2);
  const month = Number(day.slice(5, 7));
  const half =
    month >= 4 && month <= 9 ? `${yearOf(day)} summer` : `${month <= 3 ? yearOf(day) - 1 : yearOf(day)} winter`;
  const opening = firstDay <= asOfDay + OPEN_SOON_DAYS ? "open" : "later";
  return `${visit.crew} ${visit.urgency} ${half} ${opening} ${windowDays < SHORT_WINDOW_DAYS ? "short" : "long"}`;
}

/** Eastings and northings of stops in one plane, the first stop's; exact to a millimeter in 100 m near it, good enough to order farther off. */
export function stopPositions(stops: readonly Stop[]): Float64Array {
  const xy = new Float64Array(2 * stops.length);
  if (stops.length === 0) return xy;
  const plane = planeOf(stops[0]!.tree.lonDeg);
  stops.forEach(({ tree }, at) => {
    toPlaneInto(xy, 2 * at, plane, tree.lonDeg, tree.latDeg);
  });
  return xy;
}
