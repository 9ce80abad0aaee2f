import { parseColumnMap } from "../../core/inventory/column-map-schema.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import { type CompletedStandard, completeStandard } from "../../core/standard/complete-standard.ts";
import type { PlanSource } from "./plan-source.ts";
import { RefusedInput } from "./refused-input.ts";

/** What a revision was made by: its standard, completed where an earlier version wrote it, and which column feeds which field. */
export interface PlanRules extends CompletedStandard {
  readonly columns: ColumnMap;
}

/** The rules of a revision. Throws {@link RefusedInput} when its own files cannot be used. */
export async function planRules(source: PlanSource): Promise<PlanRules> {
  const standard = completeStandard(await jsonOf(source, "standard.json"));
  if ("faults" in standard) throw new RefusedInput(["standard.json of the plan cannot be used.", ...standard.faults]);
  const columns = parseColumnMap(await jsonOf(source, "columns.json"));
  if ("faults" in columns) throw new RefusedInput(["columns.json of the plan cannot be used.", ...columns.faults]);
  return { ...standard, columns: columns.columns };
}

/** A file that every revision has. Throws {@link RefusedInput} where it is missing. */
export async function bytesOf(source: PlanSource, name: string): Promise<Uint8Array> {
  const bytes = await source.read(name);
  if (bytes === null) throw new RefusedInput([`This is not a whole plan: ${name} is missing.`]);
  return bytes;
}

async function jsonOf(source: PlanSource, name: string): Promise<unknown> {
  return JSON.parse(new TextDecoder().decode(await bytesOf(source, name)));
}
