import type { Zone } from "../../model/zone.ts";
import { isPlanned, type Stop } from "../stops.ts";
import { isWithin } from "./is-within.ts";
import type { ZoneDesk } from "./zone-desk.ts";
import type { TreeChoice, ZoneAllowance } from "./zone-edit.ts";

/** What a choice of trees comes to, each tree in one of the lists. */
export interface ChosenTrees {
  /** In no zone, or in one that may be taken from. */
  readonly stops: readonly Stop[];
  /** In a zone that is not taken from: because it was not allowed, or the zone is locked or a crew has it. */
  readonly elsewhere: readonly Stop[];
  readonly guarded: readonly Stop[];
  /** Wanted only in a later year. */
  readonly later: readonly Stop[];
  readonly unknownIds: readonly string[];
  /** No visit is planned for them. */
  readonly withoutWorkIds: readonly string[];
  /** In the zone they are added to already. */
  readonly alreadyIds: readonly string[];
}

/** Whether an edit may change a zone's work. */
export const isOpen = ({ state, isLocked }: Zone): boolean => state === "draft" && isLocked !== true;

/** The trees of a choice, by what can be done with them. Later work is left out only where an outline was drawn: who names a tree means it. */
export function chosenTrees(
  desk: ZoneDesk,
  zones: readonly Zone[],
  choice: TreeChoice,
  allow: readonly ZoneAllowance[],
  own: Zone | null,
): ChosenTrees {
  const zoneOfVisit = new Map(zones.flatMap((zone) => zone.visitIds.map((visitId) => [visitId, zone] as const)));
  const lists: { [Key in keyof ChosenTrees]: ChosenTrees[Key][number][] } = {
    stops: [],
    elsewhere: [],
    guarded: [],
    later: [],
    unknownIds: [],
    withoutWorkIds: [],
    alreadyIds: [],
  };
  for (const treeId of idsOf(desk, choice)) {
    const stop = desk.stopOfTree.get(treeId);
    const zone = stop === undefined ? null : (zoneOfVisit.get(stop.visit.visitId) ?? null);
    if (!desk.trees.has(treeId)) lists.unknownIds.push(treeId);
    else if (stop === undefined) lists.withoutWorkIds.push(treeId);
    else if (zone !== null && zone.zoneId === own?.zoneId) lists.alreadyIds.push(treeId);
    else if ("within" in choice && !isPlanned(stop) && zone === null && !allow.includes("later-work"))
      lists.later.push(stop);
    else if (zone === null) lists.stops.push(stop);
    else if (!allow.includes("take-from-others")) lists.elsewhere.push(stop);
    else if (!isOpen(zone)) lists.guarded.push(stop);
    else lists.stops.push(stop);
  }
  return lists;
}

function idsOf(desk: ZoneDesk, choice: TreeChoice): Iterable<string> {
  if ("treeIds" in choice) return new Set(choice.treeIds);
  return [...desk.trees.values()].filter((tree) => isWithin(tree, choice.within)).map(({ id }) => id);
}
