import type { Zone } from "../../model/zone.ts";
import { emptiedFinding } from "./emptied-finding.ts";
import { guardFinding } from "./guard-finding.ts";
import { unknownZone } from "./unknown-zone.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { EditOf, ZoneEdit } from "./zone-edit.ts";
import type { Outcome, ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";
import { zoneRemarks } from "./zone-remarks.ts";
import { zoneWith } from "./zone-with.ts";

/** A zone in another order of work: one tree moved, the whole order given, or a short walk searched for. */
export function orderZone(desk: ZoneDesk, zones: readonly Zone[], edit: EditOf<"move-stop" | "order">): Outcome {
  const zone = zones.find(({ zoneId }) => zoneId === edit.zoneId);
  if (zone === undefined) return unknownZone(edit.zoneId);
  const guard = guardFinding([zone], edit);
  if (guard !== null) return { refused: [guard] };
  const stops = stopsOf(desk, zone);
  if (stops.length === 0) return { refused: [emptiedFinding(zone)] };
  const ids = stops.map(({ tree }) => tree.id);
  const asked = edit.kind === "order" ? (edit.treeIds ?? null) : moved(ids, edit);
  if (asked !== null && "reason" in asked) return { refused: [asked] };
  if (asked !== null && !isSameSet(asked, ids)) return { refused: [notTheSame(zone, asked, ids)] };
  if (asked !== null && zone.isHandOrdered === true && asked.join("\n") === ids.join("\n"))
    return { zones, findings: [] };
  const byId = new Map(stops.map((stop) => [stop.tree.id, stop]));
  const next = zoneWith(
    desk,
    { ...zone, isHandOrdered: asked !== null },
    asked === null ? stops : asked.map((id) => byId.get(id)!),
  );
  return { zones: zones.map((one) => (one === zone ? next : one)), findings: zoneRemarks(desk, next, zone) };
}

function moved(ids: readonly string[], edit: EditOf<"move-stop">): string[] | ZoneEditFinding {
  const { zoneId, treeId, to } = edit;
  if (!ids.includes(treeId)) {
    return zoneFinding({
      code: "tree-not-in-zone",
      severity: "error",
      zoneId,
      treeIds: [treeId],
      reason: `Tree ${treeId} is not in this zone.`,
      whatToDo: "Add it first.",
      mends: [
        {
          label: "Add it here",
          edit: { kind: "add", zoneId, trees: { treeIds: [treeId] } },
          when: "instead",
        },
      ],
    });
  }
  const last = ids.length - 1;
  if (!(Number.isInteger(to) && to >= 0 && to <= last)) {
    const nearest = Number.isFinite(to) ? Math.min(last, Math.max(0, Math.round(to))) : last;
    const mended: ZoneEdit = { ...edit, to: nearest };
    return zoneFinding({
      code: "no-such-place",
      severity: "error",
      zoneId,
      treeIds: [treeId],
      value: String(to),
      reason: `The order of work has the places 0 to ${last}.`,
      whatToDo: "Move it to one of these.",
      mends: [{ label: `Move it to place ${nearest}`, edit: mended, when: "instead" }],
    });
  }
  const rest = ids.filter((id) => id !== treeId);
  return [...rest.slice(0, to), treeId, ...rest.slice(to)];
}

function isSameSet(asked: readonly string[], ids: readonly string[]): boolean {
  const all = new Set(asked);
  return asked.length === ids.length && all.size === ids.length && ids.every((id) => all.has(id));
}

function notTheSame(zone: Zone, asked: readonly string[], ids: readonly string[]): ZoneEditFinding {
  const own = new Set(ids);
  const known = [...new Set(asked)].filter((id) => own.has(id));
  const missing = ids.filter((id) => !known.includes(id));
  const strange = asked.filter((id) => !own.has(id));
  return zoneFinding({
    code: "not-the-zones-trees",
    severity: "error",
    zoneId: zone.zoneId,
    treeIds: [...missing, ...strange],
    reason: "An order of work names every tree of its zone once.",
    whatToDo: "Put the others behind, or change which trees are in the zone.",
    mends: [
      {
        label: "Put the others behind",
        edit: { kind: "order", zoneId: zone.zoneId, treeIds: [...known, ...missing] },
        when: "instead",
      },
    ],
  });
}
