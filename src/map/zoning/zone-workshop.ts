import { completeStandard } from "../../core/standard/complete-standard.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { applyZoneEdit } from "../../core/zone/edit/apply-zone-edit.ts";
import { zoneDesk } from "../../core/zone/edit/zone-desk.ts";
import type { PlanSource } from "../../formats/plan/plan-source.ts";

/** What zones are edited with; loaded when somebody first does. */
export interface ZoneWorkshop {
  readonly standard: Standard;
  readonly zoneDesk: typeof zoneDesk;
  readonly applyZoneEdit: typeof applyZoneEdit;
}

/** Opens the workshop with the plan's own standard. Throws Error with a sentence for the reader where it cannot be used. */
export async function openWorkshop(source: PlanSource): Promise<ZoneWorkshop> {
  const bytes = await source.read("standard.json");
  if (bytes === null) throw new Error("The plan has no standard.json.");
  const parsed = completeStandard(JSON.parse(new TextDecoder().decode(bytes)));
  if ("faults" in parsed) throw new Error(`Its standard.json cannot be used. ${parsed.faults.slice(0, 2).join(" ")}`);
  return { standard: parsed.standard, zoneDesk, applyZoneEdit };
}
