import { parseColumnMap } from "../../core/inventory/column-map-schema.ts";
import type { Plan } from "../../core/model/plan.ts";
import { parseStandard } from "../../core/standard/parse-standard.ts";
import { readGeoJson } from "../geojson/read-geojson.ts";
import { joinBytes } from "../join-bytes.ts";
import { planFiles } from "./plan-files.ts";
import type { PlanSource } from "./plan-source.ts";
import { RefusedInput } from "./refused-input.ts";
import { REVISION_NAMES } from "./revision-names.ts";
import { treesFile } from "./trees-file.ts";

/**
 * The files of a plan's next revision, when the plan was changed on the desk: the source is the revision it was opened from, whose trees, in the same order,
 * keep every original byte; what the change does not touch is carried over. Throws {@link RefusedInput} when the source's own files cannot be used.
 */
export async function revisePlan(plan: Plan, source: PlanSource): Promise<Map<string, Uint8Array>> {
  const standardJson = await jsonOf(source, "standard.json");
  const standard = parseStandard(standardJson);
  if ("faults" in standard) throw new RefusedInput(["standard.json of the plan cannot be used.", ...standard.faults]);
  const columns = parseColumnMap(await jsonOf(source, "columns.json"));
  if ("faults" in columns) throw new RefusedInput(["columns.json of the plan cannot be used.", ...columns.faults]);
  const files = planFiles(plan, columns.columns, standard.standard, standardJson);
  const read = readGeoJson(await bytesOf(source, "trees.geojson"), { layer: "trees", file: "trees.geojson" });
  // The plan's own tree file holds its trees in order, so a feature's place is its tree's row.
  const byRow = { ...plan, trees: plan.trees.map((tree, row) => ({ ...tree, ordinal: row })) };
  files.set("trees.geojson", joinBytes(treesFile([read], byRow)));
  for (const name of REVISION_NAMES) {
    const bytes = files.has(name) ? null : await source.read(name);
    if (bytes !== null) files.set(name, bytes);
  }
  return files;
}

async function bytesOf(source: PlanSource, name: string): Promise<Uint8Array> {
  const bytes = await source.read(name);
  if (bytes === null) throw new RefusedInput([`This is not a whole plan: ${name} is missing.`]);
  return bytes;
}

async function jsonOf(source: PlanSource, name: string): Promise<unknown> {
  return JSON.parse(new TextDecoder().decode(await bytesOf(source, name)));
}
