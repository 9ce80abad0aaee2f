import type { ConflictRecord } from "../../core/model/conflict.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { SightArea } from "../../core/model/surroundings.ts";
import { type DisplayUnits, formatLength, formatShare } from "../../core/units/format-length.ts";
import { KMH_PER_MPH } from "../../core/units/length.ts";
import type { Words } from "../words.ts";

/**
 * Of a conflict with a view: whose view it is and how far it must reach; what trees hide of it, what this tree alone would open, and which trees in
 * line open most together. Empty for other conflicts.
 */
export function sightNotes(conflict: ConflictRecord, plan: Plan, units: DisplayUnits, words: Words): string[] {
  const area = plan.sight.find(({ id }) => id === conflict.withId);
  if (conflict.withLayer !== "sight" || area === undefined) return [];
  return [viewOf(area, units, words), ...hiddenNotes(conflict, area, plan, words)];
}

function viewOf({ movement, direction, legM, designSpeedKmh }: SightArea, units: DisplayUnits, words: Words): string {
  const { sight } = words;
  const side = direction === null ? "" : `, ${sight.looking[direction]}`;
  const length = formatLength(legM, units);
  const speed =
    units === "us" ? `${Math.round(designSpeedKmh / KMH_PER_MPH)} mph` : `${Math.round(designSpeedKmh)} km/h`;
  const reach =
    movement === "sign-face" || movement === "signal-face"
      ? `: ${sight.seenFrom} ${length} ${sight.at} ${speed}`
      : `: ${length} ${sight.mustBeSeen} ${speed}`;
  // Corners of fixed legs go by no speed.
  const isCorner = movement === "corner" || movement === "driveway";
  return `${capitalized(sight.viewOf)} ${sight.driver[movement]}${side}${isCorner ? "" : reach}.`.replace(
    /(\d) /g,
    "$1\u00a0",
  );
}

function hiddenNotes(conflict: ConflictRecord, { hidden }: SightArea, plan: Plan, words: Words): string[] {
  const { card, sight } = words;
  if (hidden == null) return [];
  if (!(hidden.share > 0)) return conflict.reachedOn > plan.options.asOf ? [] : [sight.nothingHidden];
  const share = (one: number) => formatShare(one).replaceAll(" ", "\u00a0");
  const alone = `${capitalized(card.opensAlone)} ${share(conflict.hiddenShare ?? 0)}`;
  const most = hidden.opensMost;
  const isInGroup = most !== null && most.treeIds.length > 1 && most.treeIds.includes(conflict.treeId);
  return [
    `${capitalized(card.treesHide)} ${share(hidden.share)} ${card.ofTheView}.`,
    isInGroup
      ? `${alone}; ${card.opening} ${most.treeIds.join(", ")} ${card.opensTogether} ${share(most.share)}.`
      : `${alone}.`,
  ];
}

const capitalized = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
