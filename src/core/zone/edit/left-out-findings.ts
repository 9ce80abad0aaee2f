import type { Zone } from "../../model/zone.ts";
import type { Stop } from "../stops.ts";
import type { ChosenTrees } from "./chosen-trees.ts";
import { opening } from "./guard-finding.ts";
import type { ShareFault } from "./share-fault.ts";
import type { TreeChoice, ZoneAllowance, ZoneEdit } from "./zone-edit.ts";
import type { ZoneEditFinding, ZoneMend } from "./zone-edit-result.ts";
import { isOrAre, treesText, zoneFinding } from "./zone-finding.ts";

/** An edit that puts trees into a zone, and what became of it. */
export interface Placing {
  readonly zones: readonly Zone[];
  readonly allow: readonly ZoneAllowance[];
  /** The zone they went to; null where the edit is refused. */
  readonly zone: Zone | null;
  /** The edit that puts trees where this one meant them to go. */
  readonly again: (trees: TreeChoice, allow: readonly ZoneAllowance[]) => ZoneEdit;
}

/** A finding for each cause for which chosen trees were left out, each with the edits that take them in. */
export function leftOutFindings(
  chosen: ChosenTrees,
  apart: ReadonlyMap<ShareFault, readonly Stop[]>,
  placing: Placing,
): ZoneEditFinding[] {
  const { zone } = placing;
  const said = (finding: Parameters<typeof zoneFinding>[0]): ZoneEditFinding =>
    zoneFinding({ zoneId: zone?.zoneId ?? null, ...finding });
  const findings: ZoneEditFinding[] = [];
  const { unknownIds, withoutWorkIds, alreadyIds } = chosen;
  if (unknownIds.length > 0) {
    findings.push(
      said({
        code: "unknown-tree",
        severity: "error",
        treeIds: unknownIds,
        reason: `${treesText(unknownIds)} ${isOrAre(unknownIds)} not in the plan.`,
        whatToDo: "Choose trees of the plan.",
      }),
    );
  }
  if (withoutWorkIds.length > 0) {
    findings.push(
      said({
        code: "tree-without-work",
        severity: zone === null ? "error" : "info",
        treeIds: withoutWorkIds,
        reason: `No visit is planned for ${treesText(withoutWorkIds)}: clear for now, referred, or to be inspected first.`,
        whatToDo: "Look at the tree's card; only a visit can go into a zone.",
      }),
    );
  }
  if (alreadyIds.length > 0) {
    findings.push(
      said({
        code: "already-in-zone",
        severity: "info",
        treeIds: alreadyIds,
        reason: `${treesText(alreadyIds)} ${isOrAre(alreadyIds)} in this zone already.`,
        whatToDo: "Nothing.",
      }),
    );
  }
  if (chosen.later.length > 0) findings.push(said(laterWork(chosen.later, placing)));
  if (chosen.elsewhere.length > 0) findings.push(said(elsewhere(chosen.elsewhere, placing)));
  if (chosen.guarded.length > 0) findings.push(said(guarded(chosen.guarded, placing)));
  for (const [fault, stops] of apart) findings.push(said(faulty(fault, stops, placing)));
  return findings;
}

type Said = Parameters<typeof zoneFinding>[0];

const idsOf = (stops: readonly Stop[]): string[] => stops.map(({ tree }) => tree.id);

const mend = (label: string, edit: ZoneEdit, { zone }: Placing): ZoneMend => ({
  label,
  edit,
  when: zone === null ? "instead" : "after",
});

function laterWork(stops: readonly Stop[], placing: Placing): Said {
  const treeIds = idsOf(stops);
  return {
    code: "later-work",
    severity: placing.zone === null ? "error" : "info",
    treeIds,
    reason: `The work of ${treesText(treeIds)} inside the outline is wanted only in a later year.`,
    whatToDo: "Leave it until then, or take it along.",
    mends: [mend("Take them along", placing.again({ treeIds }, [...placing.allow, "later-work"]), placing)],
  };
}

function elsewhere(stops: readonly Stop[], placing: Placing): Said {
  const treeIds = idsOf(stops);
  const names = zonesOf(stops, placing).map(({ name }) => name);
  return {
    code: "tree-in-other-zone",
    severity: "error",
    treeIds,
    reason: `${treesText(treeIds)} ${isOrAre(treeIds)} in another zone: ${names.join(", ")}.`,
    whatToDo: "A visit is in one zone only: move it here or leave it there.",
    mends: [mend("Move here", placing.again({ treeIds }, [...placing.allow, "take-from-others"]), placing)],
  };
}

function guarded(stops: readonly Stop[], placing: Placing): Said {
  const treeIds = idsOf(stops);
  const zones = zonesOf(stops, placing);
  const isAnyDone = zones.some(({ state }) => state === "done");
  const move = placing.again({ treeIds }, placing.allow);
  return {
    code: "other-zone-closed",
    severity: "error",
    treeIds,
    reason: `${treesText(treeIds)} ${isOrAre(treeIds)} in a zone that is locked or that a crew has: ${zones.map(({ name, state }) => `${name} (${state})`).join(", ")}.`,
    whatToDo: isAnyDone ? "Leave what is done as it is." : "Open that zone first, or leave the trees there.",
    mends: isAnyDone
      ? []
      : [mend("Open that zone and move", { kind: "sequence", edits: [...zones.flatMap(opening), move] }, placing)],
  };
}

const FAULTS: Readonly<Record<ShareFault, readonly [reason: string, whatToDo: string]>> = {
  "no-common-day": ["may be worked on no day on which the rest of the zone may", "Give them a zone of their own."],
  "owners-crew": [
    "cannot share a zone with the rest: work of the line owner's crew keeps to itself",
    "Give them a zone of their own.",
  ],
  "crews-apart": [
    "cannot be done by the crew that the rest of the zone calls for, nor the rest sensibly by theirs",
    "Give them a zone of their own, or have the more restricted crew do the whole zone.",
  ],
  "outside-asked-window": [
    "may not be worked within the dates that were set for the zone",
    "Give them a zone of their own, or take the zone's dates back.",
  ],
};

function faulty(fault: ShareFault, stops: readonly Stop[], placing: Placing): Said {
  const treeIds = idsOf(stops);
  const { allow } = placing;
  const [reason, whatToDo] = FAULTS[fault];
  const trees = { treeIds };
  const again = placing.again(trees, allow);
  const own: ZoneEdit = { kind: "make", trees, ...(allow.length === 0 ? {} : { allow }) };
  const crews = [...new Set(stops.map(({ visit }) => visit.crew))].join(", ");
  return {
    code: fault,
    severity: "error",
    treeIds,
    value: crews,
    reason: `${treesText(treeIds)} (${crews}) ${reason}.`,
    whatToDo,
    mends: [
      mend("Make them a zone of their own", own, placing),
      ...(fault === "crews-apart"
        ? [mend("Take them, with the more restricted crew", placing.again(trees, [...allow, "raise-crew"]), placing)]
        : []),
      ...(fault === "outside-asked-window" && again.kind === "add"
        ? [mend("Take the zone's dates back and add", withoutDates(again.zoneId, again), placing)]
        : []),
    ],
  };
}

const withoutDates = (zoneId: string, edit: ZoneEdit): ZoneEdit => ({
  kind: "sequence",
  edits: [{ kind: "set-dates", zoneId, askedWindow: null }, edit],
});

function zonesOf(stops: readonly Stop[], { zones }: Placing): Zone[] {
  const visitIds = new Set(stops.map(({ visit }) => visit.visitId));
  return zones.filter((zone) => zone.visitIds.some((id) => visitIds.has(id)));
}
