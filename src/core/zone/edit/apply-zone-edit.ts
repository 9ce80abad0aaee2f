import type { Zone } from "../../model/zone.ts";
import { deleteZone } from "./delete-zone.ts";
import { dropTrees } from "./drop-trees.ts";
import { lockZone } from "./lock-zone.ts";
import { mergeZones } from "./merge-zones.ts";
import { orderZone } from "./order-zone.ts";
import { placeTrees } from "./place-trees.ts";
import { renameZone } from "./rename-zone.ts";
import { setZoneDates } from "./set-zone-dates.ts";
import { setZoneState } from "./set-zone-state.ts";
import { splitZone } from "./split-zone.ts";
import type { ZoneDesk } from "./zone-desk.ts";
import type { EditOf, ZoneEdit } from "./zone-edit.ts";
import type { Outcome, ZoneChange, ZoneEditFinding, ZoneEditResult } from "./zone-edit-result.ts";
import { treesText, zoneFinding } from "./zone-finding.ts";

/**
 * The zones of a plan after an edit, with what there is to say about it. Hours, dates, hazards, closure, outline, walk and order of work of the zones
 * it touches are made anew by the functions that make zones; all others stay the same objects. What cannot be done is told in a finding that offers
 * the edits which mend it: an edit is refused whole only where nothing of it could be done. Pure: the same zones and edit, the same result.
 */
export function applyZoneEdit(desk: ZoneDesk, zones: readonly Zone[], edit: ZoneEdit): ZoneEditResult {
  const outcome = outcomeOf(desk, zones, edit);
  if ("refused" in outcome) return { zones, isRefused: true, changes: [], findings: outcome.refused };
  const changes = changesBetween(zones, outcome.zones);
  const findings = [...outcome.findings, ...goneFindings(desk, changes)];
  return { zones: outcome.zones, isRefused: false, changes, findings };
}

function outcomeOf(desk: ZoneDesk, zones: readonly Zone[], edit: ZoneEdit): Outcome {
  switch (edit.kind) {
    case "make":
    case "add":
      return placeTrees(desk, zones, edit);
    case "drop":
      return dropTrees(desk, zones, edit);
    case "split":
      return splitZone(desk, zones, edit);
    case "merge":
      return mergeZones(desk, zones, edit);
    case "rename":
      return renameZone(zones, edit);
    case "lock":
      return lockZone(zones, edit);
    case "move-stop":
    case "order":
      return orderZone(desk, zones, edit);
    case "set-state":
      return setZoneState(zones, edit);
    case "set-dates":
      return setZoneDates(desk, zones, edit);
    case "delete":
      return deleteZone(desk, zones, edit);
    case "sequence":
      return inSequence(desk, zones, edit);
  }
}

/** All edits of a sequence or none: where one is refused, its mends are offered as the sequence with the mended one in its place. */
function inSequence(desk: ZoneDesk, zones: readonly Zone[], { edits }: EditOf<"sequence">): Outcome {
  let now = zones;
  const findings: ZoneEditFinding[] = [];
  for (const [at, edit] of edits.entries()) {
    const outcome = outcomeOf(desk, now, edit);
    if ("refused" in outcome) {
      const whole = (mended: ZoneEdit): ZoneEdit => ({ kind: "sequence", edits: edits.with(at, mended) });
      return {
        refused: outcome.refused.map((finding) => ({
          ...finding,
          mends: finding.mends.map((mend) => ({ ...mend, edit: whole(mend.edit) })),
        })),
      };
    }
    now = outcome.zones;
    findings.push(...outcome.findings);
  }
  return { zones: now, findings };
}

function changesBetween(before: readonly Zone[], after: readonly Zone[]): ZoneChange[] {
  const had = new Map(before.map((zone) => [zone.zoneId, zone]));
  const has = new Set(after.map(({ zoneId }) => zoneId));
  const gone = before.filter(({ zoneId }) => !has.has(zoneId));
  return [
    ...gone.map((zone): ZoneChange => ({ zoneId: zone.zoneId, before: zone, after: null })),
    ...after.flatMap((zone): ZoneChange[] => {
      const earlier = had.get(zone.zoneId) ?? null;
      return earlier === zone ? [] : [{ zoneId: zone.zoneId, before: earlier, after: zone }];
    }),
  ];
}

/** Says of zones that were made anew which of their visits the plan does not have any more, so that they are not dropped without a word. */
function goneFindings(desk: ZoneDesk, changes: readonly ZoneChange[]): ZoneEditFinding[] {
  return changes.flatMap(({ before, after }) => {
    const kept = new Set(after?.visitIds ?? []);
    const treeIds = (before?.treeIds ?? []).filter((treeId, at) => {
      const visitId = before!.visitIds[at]!;
      return !kept.has(visitId) && desk.stopOfTree.get(treeId)?.visit.visitId !== visitId;
    });
    return treeIds.length === 0
      ? []
      : [
          zoneFinding({
            code: "work-gone",
            severity: "warning",
            zoneId: before!.zoneId,
            treeIds,
            reason: `The visits of ${treesText(treeIds)} in zone ${before!.name} are not in the plan any more and left the zone.`,
            whatToDo: "Look whether they were done or the plan has changed.",
          }),
        ];
  });
}
