import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { EditRecord, KnownEditKind } from "./edit-record.ts";
import { applyZoneEdit } from "./zone-edit-payload.ts";

/** How a payload of each kind changes a plan; null for a payload that cannot be used on it. */
const APPLIERS: Readonly<Record<KnownEditKind, (opened: OpenedPlan, payload: unknown) => OpenedPlan | null>> = {
  "zone-edit": applyZoneEdit,
};

/** A plan with edits made on it, and those that could not be: of a kind this version does not know, or whose payload does not fit. */
export interface Replayed {
  readonly opened: OpenedPlan;
  readonly leftOut: readonly EditRecord[];
}

/** Applies edits in order. An edit that cannot be applied is left out, and told. */
export function replayEdits(opened: OpenedPlan, edits: readonly EditRecord[]): Replayed {
  let now = opened;
  const leftOut: EditRecord[] = [];
  for (const edit of edits) {
    const apply = Object.hasOwn(APPLIERS, edit.kind) ? APPLIERS[edit.kind as KnownEditKind] : null;
    const next = apply?.(now, edit.payload) ?? null;
    if (next === null) leftOut.push(edit);
    else now = next;
  }
  return { opened: now, leftOut };
}
