import { parseColumnMap } from "../../core/inventory/column-map-schema.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import { parseStandard } from "../../core/standard/parse-standard.ts";
import type { Standard } from "../../core/standard/standard.ts";
import type { PlanSource } from "./plan-source.ts";
import { RefusedInput } from "./refused-input.ts";

/** The standard that a revision was made by, and which column feeds which field. Throws {@link RefusedInput} when its own files cannot be used. */
export async function planRules(source: PlanSource): Promise<{ standard: Standard; columns: ColumnMap }> {
  const standard = parseStandard(await jsonOf(source, "standard.json"));
  if ("faults" in standard) throw new RefusedInput(["standard.json of the plan cannot be used.", ...standard.faults]);
  const columns = parseColumnMap(await jsonOf(source, "columns.json"));
  if ("faults" in columns) throw new RefusedInput(["columns.json of the plan cannot be used.", ...columns.faults]);
  return { standard: standard.standard, columns: columns.columns };
}

async function jsonOf(source: PlanSource, name: string): Promise<unknown> {
  const bytes = await source.read(name);
  if (bytes === null) throw new RefusedInput([`This is not a whole plan: ${name} is missing.`]);
  return JSON.parse(new TextDecoder().decode(bytes));
}
