import { CREWS } from "../../model/terms.ts";
import type { AskedWindow } from "../../model/zone.ts";
import { dayNumber } from "../../units/calendar.ts";
import { commonDays } from "../day.ts";
import type { Stop } from "../stops.ts";

/** Why some stops cannot be one zone, the gravest first. */
export const SHARE_FAULTS = ["no-common-day", "owners-crew", "crews-apart", "outside-asked-window"] as const;
export type ShareFault = (typeof SHARE_FAULTS)[number];

/** What a zone holds its stops to. */
export interface ShareLimits {
  /** Whether a crew more than one step more restricted may be called for. */
  readonly mayRaiseCrew: boolean;
  readonly asked: AskedWindow | null;
}

/**
 * Why stops cannot be one zone, or null where they can: no day on which all are allowed, the line owner's work with others' (it keeps to its own
 * crew), crews more than one step apart, no such day among the dates asked for. By hand more is allowed than when zones are made: a short common
 * window, waiting and long days are only remarked on.
 */
export function shareFault(stops: readonly Stop[], { mayRaiseCrew, asked }: ShareLimits): ShareFault | null {
  const [firstDay, lastDay] = commonDays(stops);
  if (firstDay > lastDay) return "no-common-day";
  const levels = stops.map(({ visit }) => CREWS.indexOf(visit.crew));
  const [least, most] = [Math.min(...levels), Math.max(...levels)];
  if (least !== most && CREWS[most] === "utility") return "owners-crew";
  if (most - least > 1 && !mayRaiseCrew) return "crews-apart";
  const isAskedFor = asked === null || (dayNumber(asked.start) <= lastDay && dayNumber(asked.end) >= firstDay);
  return isAskedFor ? null : "outside-asked-window";
}

/** Stops that can be one zone together, and the others by why they cannot. */
export interface Sharing {
  readonly together: readonly Stop[];
  readonly apart: ReadonlyMap<ShareFault, readonly Stop[]>;
}

/**
 * As many of some stops as can join a zone's own, which all can stay: all of them, else kind after kind (crew and window) with the most trees
 * first. What cannot join is told by the fault it makes.
 */
export function sharing(own: readonly Stop[], candidates: readonly Stop[], limits: ShareLimits): Sharing {
  const apart = new Map<ShareFault, Stop[]>();
  let together = [...own];
  if (candidates.length > 0 && shareFault([...own, ...candidates], limits) === null)
    return { together: [...own, ...candidates], apart };
  const kinds = new Map<string, Stop[]>();
  for (const stop of candidates) {
    const kind = `${stop.visit.crew} ${stop.firstDay} ${stop.lastDay}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), stop]);
  }
  // The sort is stable: of equally many the kind met first.
  for (const kind of [...kinds.values()].sort((a, b) => b.length - a.length)) {
    // Stops of a kind are alike in all that a fault can come from.
    const fault = shareFault([...together, ...kind], limits);
    if (fault === null) together = [...together, ...kind];
    else apart.set(fault, [...(apart.get(fault) ?? []), ...kind]);
  }
  return { together, apart };
}
