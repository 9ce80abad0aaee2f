import type { Plan } from "../../core/model/plan.ts";
import type { TrafficCase, Zone } from "../../core/model/zone.ts";
import { dropReachM, plannedStops, type Stop } from "../../core/zone/stops.ts";
import { roadUse } from "../../core/zone/traffic-case.ts";
import { type LinePlace, type RoadLine, roadLines } from "./road-lines.ts";

/** What one zone does to one line of a road in one direction of travel. */
export interface ClosureEvent {
  readonly zone: Zone;
  readonly line: RoadLine;
  readonly roadName: string;
  readonly caseId: TrafficCase;
  /** Whether traffic of this event runs with the line. */
  readonly isWithLine: boolean;
  readonly isWalkClosed: boolean;
  /** Stretch of the line from the upstream taper to the end of the closure; may pass the line's ends. */
  readonly fromM: number;
  readonly toM: number;
}

/** Events of a plan's zones, and the zones whose closures no event can be made of, with the reason. */
export interface ClosureEvents {
  readonly events: readonly ClosureEvent[];
  readonly without: readonly { readonly zone: Zone; readonly reason: string }[];
}

/** Cases that close something on the road, those that take most first. */
const CLOSING: readonly TrafficCase[] = ["one-way-closed", "merge", "flaggers", "parking-lane", "shoulder"];

/**
 * What each zone closes on each line of a road: where drop zones or lifts reach the road or its walk, one event for each direction of travel that
 * is led otherwise. With flaggers that is both. Work only beside a road is none: the feed is for what traffic meets.
 */
export function closureEvents(plan: Plan, hasLift: boolean): ClosureEvents {
  const find = roadLines(plan);
  const stops = new Map(plannedStops(plan).map((stop) => [stop.visit.visitId, stop]));
  const events: ClosureEvent[] = [];
  const without: { zone: Zone; reason: string }[] = [];
  for (const zone of plan.zones) {
    if (zone.closure.kind === "none") continue;
    const byLine = new Map<string, Closed[]>();
    let unnamed = 0;
    let lost = 0;
    for (const id of zone.visitIds) {
      const stop = stops.get(id);
      if (stop === undefined) continue;
      const place = find(stop.tree.lonDeg, stop.tree.latDeg);
      const use = roadUse(stop, place?.line.feature ?? null, hasLift);
      const isWalkClosed = (stop.setting?.walkDistanceM ?? Infinity) <= dropReachM(stop);
      if (!CLOSING.includes(use.caseId) && !isWalkClosed) continue;
      if (place === null) lost += 1;
      else if (nameOf(place) === null) unnamed += 1;
      else {
        const key = `${place.line.feature.id} ${String(place.line.points[0])} ${place.isLeft}`;
        byLine.set(key, [...(byLine.get(key) ?? []), { stop, place, caseId: use.caseId, isWalkClosed }]);
      }
    }
    for (const closed of byLine.values()) events.push(...eventsOf(zone, closed, plan.options.drive));
    if (lost > 0) without.push({ zone, reason: `no center line of a road is within 30 m of ${countOf(lost)}` });
    if (unnamed > 0) without.push({ zone, reason: `the road beside ${countOf(unnamed)} has no name` });
  }
  return { events, without };
}

interface Closed {
  readonly stop: Stop;
  readonly place: LinePlace;
  readonly caseId: TrafficCase;
  readonly isWalkClosed: boolean;
}

const nameOf = ({ line }: LinePlace): string | null => line.feature.name;
const countOf = (count: number): string => `${count} tree${count === 1 ? "" : "s"}`;

function eventsOf(zone: Zone, closed: readonly Closed[], drive: "right" | "left"): ClosureEvent[] {
  const { line, isLeft } = closed[0]!.place;
  const caseId = CLOSING.find((one) => closed.some((each) => each.caseId === one)) ?? "off-road";
  const oneway = line.feature.across?.oneway ?? 0;
  // Traffic on the side of the trees: one keeps to the side one drives on.
  const ownWithLine = oneway === 0 ? isLeft === (drive === "left") : oneway === 1;
  const leadM = (zone.closure.taperM ?? 0) + (zone.closure.bufferM ?? 0);
  const tailM = zone.closure.control?.tapers.find(({ kind }) => kind === "downstream")?.lengthM ?? 0;
  const fromM = Math.min(...closed.map(({ stop, place }) => place.alongM - dropReachM(stop)));
  const toM = Math.max(...closed.map(({ stop, place }) => place.alongM + dropReachM(stop)));
  const isLaneTaken = caseId === "flaggers" || caseId === "merge" || caseId === "one-way-closed";
  const [beforeM, afterM] = isLaneTaken ? [leadM, tailM] : [0, 0];
  const directions = caseId === "flaggers" ? [ownWithLine, !ownWithLine] : [ownWithLine];
  return directions.map((isWithLine) => ({
    zone,
    line,
    roadName: line.feature.name!,
    caseId,
    isWithLine,
    isWalkClosed: isWithLine === ownWithLine && closed.some((each) => each.isWalkClosed),
    fromM: fromM - (ownWithLine ? beforeM : afterM),
    toM: toM + (ownWithLine ? afterM : beforeM),
  }));
}
