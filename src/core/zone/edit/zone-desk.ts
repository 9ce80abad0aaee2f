import type { Plan, ZoneOptions } from "../../model/plan.ts";
import type { Tree } from "../../model/trees.ts";
import type { Zone } from "../../model/zone.ts";
import type { Standard } from "../../standard/standard.ts";
import { dayNumber } from "../../units/calendar.ts";
import { nextStops, type Stop } from "../stops.ts";
import { type ZoneFrame, zoneFrame } from "../zone-frame.ts";
import { hoursOfCrew, zoneSettings } from "../zone-settings.ts";

/** What edits of a plan's zones are made with; one serves a plan as long as its trees, visits and settings stay. */
export interface ZoneDesk {
  readonly frame: ZoneFrame;
  readonly asOfDay: number;
  /** The next visit of every tree that has one, whenever it is due. */
  readonly stops: readonly Stop[];
  readonly stopOfTree: ReadonlyMap<string, Stop>;
  readonly trees: ReadonlyMap<string, Tree>;
}

/** The desk of a plan. Takes time with the plan's size; the edits then with the size of the zones they touch. Throws RangeError for options out of range. */
export function zoneDesk(plan: Plan, standard: Standard, options: ZoneOptions = plan.options.zoning ?? {}): ZoneDesk {
  const settings = zoneSettings(options, standard);
  const stops = nextStops(plan, ({ hours, crew }) => hoursOfCrew(hours, crew, settings, standard));
  return {
    frame: zoneFrame(plan, standard, settings, stops),
    asOfDay: dayNumber(plan.options.asOf),
    stops,
    stopOfTree: new Map(stops.map((stop) => [stop.tree.id, stop])),
    trees: new Map(plan.trees.map((tree) => [tree.id, tree])),
  };
}

/** The work of a zone that is still in the plan, in its order. */
export const stopsOf = (desk: ZoneDesk, { treeIds, visitIds }: Zone): Stop[] =>
  treeIds.flatMap((treeId, at) => {
    const stop = desk.stopOfTree.get(treeId);
    return stop === undefined || stop.visit.visitId !== visitIds[at] ? [] : [stop];
  });
