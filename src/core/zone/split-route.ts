/** One stop of a route that is to be cut into days. */
export interface RouteStop {
  readonly hours: number;
  /** Distance in meters from the stop before it; of no matter for the first. */
  readonly stepM: number;
  /** Days since 1970-01-01 in which the work is allowed, inclusive. */
  readonly firstDay: number;
  readonly lastDay: number;
  readonly dueDay: number;
}

/** What a day may hold. */
export interface DayLimits {
  readonly hoursPerDay: number;
  /** Longest move in meters from one stop to the next within a day. */
  readonly longestStepM: number;
}

/** A day's hours are between these shares of `hoursPerDay`; common practice for balanced crew-days, no source. */
export const LEAST_DAY_SHARE = 0.75;
export const MOST_DAY_SHARE = 1.1;
/** Days that all stops of a zone must have in common, or as many as its tightest stop has. Our policy: a week, for weather. */
export const COMMON_DAYS = 7;
/** Cost in meters of walk of one more zone (a drive and a set-up), and of an empty day's worth below the least. Our policy. */
const ZONE_COST_M = 400;
const SHORT_DAY_COST_M = 2400;
/** Cost in meters of walk of each day a stop waits past its due date until the last of its part's windows opens. Our policy. */
const WAITING_COST_M = 5;

/**
 * The first stop of each part of a route cut into days at the least cost: route first, cluster second (Beasley 1983), a shortest path over
 * all cuts by dynamic programming. A part keeps to 1.1 days, to steps of the longest length and to a common week of all windows; a stop that
 * takes longer alone is a part alone. The cost of a part is its walk, a fixed cost, the square of what it lacks to three quarters of a
 * day, and the days its stops wait past their due dates for each other's windows to open. Of equal cuts the one with the shortest last part wins, so that stops added at the route's end
 * leave its beginning alone. Linear in the route for days of bounded length.
 */
export function splitRoute(route: readonly RouteStop[], limits: DayLimits): number[] {
  const costTo = new Float64Array(route.length + 1);
  const cutAt = new Int32Array(route.length + 1);
  for (let end = 1; end <= route.length; end += 1) {
    costTo[end] = Number.POSITIVE_INFINITY;
    const part = emptyPart();
    for (let start = end - 1; start >= 0; start -= 1) {
      widen(part, route[start]!, start + 1 < end ? route[start + 1]!.stepM : 0);
      if (start + 1 < end && !isAllowed(part, limits)) break;
      let waitingDays = 0;
      for (let at = start; at < end; at += 1) waitingDays += Math.max(0, part.firstDay - route[at]!.dueDay);
      const cost = costTo[start]! + partCost(part, limits) + WAITING_COST_M * waitingDays;
      if (cost < costTo[end]!) {
        costTo[end] = cost;
        cutAt[end] = start;
      }
    }
  }
  const starts: number[] = [];
  for (let end = route.length; end > 0; end = cutAt[end]!) starts.push(cutAt[end]!);
  return starts.reverse();
}

interface Part {
  hours: number;
  walkM: number;
  longestStepM: number;
  firstDay: number;
  lastDay: number;
  shortestWindow: number;
}

const emptyPart = (): Part => ({
  hours: 0,
  walkM: 0,
  longestStepM: 0,
  firstDay: Number.NEGATIVE_INFINITY,
  lastDay: Number.POSITIVE_INFINITY,
  shortestWindow: Number.POSITIVE_INFINITY,
});

function widen(part: Part, stop: RouteStop, stepM: number): void {
  part.hours += stop.hours;
  part.walkM += stepM;
  part.longestStepM = Math.max(part.longestStepM, stepM);
  part.firstDay = Math.max(part.firstDay, stop.firstDay);
  part.lastDay = Math.min(part.lastDay, stop.lastDay);
  part.shortestWindow = Math.min(part.shortestWindow, stop.lastDay - stop.firstDay + 1);
}

const isAllowed = (part: Part, { hoursPerDay, longestStepM }: DayLimits): boolean =>
  part.hours <= MOST_DAY_SHARE * hoursPerDay &&
  part.longestStepM <= longestStepM &&
  part.lastDay - part.firstDay + 1 >= Math.min(COMMON_DAYS, part.shortestWindow);

function partCost(part: Part, { hoursPerDay }: DayLimits): number {
  const lacking = Math.max(0, LEAST_DAY_SHARE - part.hours / hoursPerDay);
  return ZONE_COST_M + part.walkM + SHORT_DAY_COST_M * lacking * lacking;
}
