import type { TreeSetting } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import type { Visit } from "../model/prescription.ts";
import type { Urgency } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import { planeOf, toPlaneInto } from "../plane/plane.ts";
import { dayNumber } from "../units/calendar.ts";

/** One visit that is to be placed in a zone. */
export interface Stop {
  readonly visit: Visit;
  readonly tree: Tree;
  readonly setting: TreeSetting | null;
  /** The street it is found by: the inventory's, else the nearest road's. */
  readonly street: string | null;
  /** Whether tools must be disinfected after it. */
  readonly isDiseased: boolean;
  /** Days since 1970-01-01; a window that began before the as-of date begins on it. */
  readonly firstDay: number;
  readonly lastDay: number;
}

const PLANNED: readonly Urgency[] = ["now", "next-window", "this-cycle"];

/** The next visit of every tree whose work is due within the cycle, in tree order. */
export function plannedStops(plan: Plan): Stop[] {
  const settings = new Map(plan.settings.map((setting) => [setting.treeRow, setting]));
  const asOfDay = dayNumber(plan.options.asOf);
  return plan.prescriptions.flatMap((prescription) => {
    const visit = prescription.visits.find((one) => one.number === 1);
    const tree = plan.trees[prescription.treeRow];
    if (visit === undefined || tree === undefined || !PLANNED.includes(visit.urgency)) return [];
    const setting = settings.get(tree.row) ?? null;
    const lastDay = dayNumber(visit.windowEnd);
    return [
      {
        visit,
        tree,
        setting,
        street: tree.street ?? setting?.road?.name ?? null,
        isDiseased: tree.defects.includes("diseased-limb"),
        firstDay: Math.min(lastDay, Math.max(asOfDay, dayNumber(visit.windowStart))),
        lastDay,
      },
    ];
  });
}

/**
 * What stops must share to be in one zone: crew, urgency and the half-year their window begins in (April to September, October to March).
 * A property of the stop alone, so that no other stop moves it.
 */
export function groupKey({ visit, firstDay }: Stop): string {
  const month = new Date(firstDay * 86_400_000).getUTCMonth();
  const year = new Date(firstDay * 86_400_000).getUTCFullYear();
  const half = month >= 3 && month <= 8 ? `${year}-summer` : `${month <= 2 ? year - 1 : year}-winter`;
  return `${visit.crew} ${visit.urgency} ${half}`;
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
