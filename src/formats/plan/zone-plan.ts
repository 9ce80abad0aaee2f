import { parseColumnMap } from "../../core/inventory/column-map-schema.ts";
import { parseStandard } from "../../core/standard/parse-standard.ts";
import { buildZones } from "../../core/zone/build-zones.ts";
import { readGeoJson } from "../geojson/read-geojson.ts";
import { joinBytes } from "../join-bytes.ts";
import { openPlan } from "./open-plan.ts";
import { planFiles } from "./plan-files.ts";
import type { PlanOutput } from "./plan-request.ts";
import type { PlanSource } from "./plan-source.ts";
import { RefusedInput } from "./refused-input.ts";
import { treesFile } from "./trees-file.ts";

/**
 * The next revision of a plan, with its next visits grouped into work zones; everything else as it was. Throws {@link RefusedInput} when the
 * revision's own files cannot be used.
 */
export async function zonePlan(source: PlanSource, revision: number): Promise<PlanOutput> {
  const { plan } = await openPlan(source);
  const standardJson = await jsonOf(source, "standard.json");
  const standard = parseStandard(standardJson);
  if ("faults" in standard) throw new RefusedInput(["standard.json of the plan cannot be used.", ...standard.faults]);
  const columns = parseColumnMap(await jsonOf(source, "columns.json"));
  if ("faults" in columns) throw new RefusedInput(["columns.json of the plan cannot be used.", ...columns.faults]);
  const treeBytes = await bytesOf(source, "trees.geojson");

  const zoned = { ...plan, revision, zones: buildZones(plan, standard.standard) };
  const files = planFiles(zoned, columns.columns, standard.standard, standardJson);
  const read = readGeoJson(treeBytes, { layer: "trees", file: "trees.geojson" });
  // The plan's own tree file holds its trees in order, so a feature's place is its tree's row.
  const byRow = { ...zoned, trees: zoned.trees.map((tree, row) => ({ ...tree, ordinal: row })) };
  files.set("trees.geojson", joinBytes(treesFile([read], byRow)));
  files.set("set-aside.geojson", await bytesOf(source, "set-aside.geojson"));
  const waiting = await source.read("waiting.json");
  if (waiting !== null) files.set("waiting.json", waiting);
  return { planId: plan.planId, revision, files, findings: plan.findings };
}

async function bytesOf(source: PlanSource, name: string): Promise<Uint8Array> {
  const bytes = await source.read(name);
  if (bytes === null) throw new RefusedInput([`This is not a whole plan: ${name} is missing.`]);
  return bytes;
}

async function jsonOf(source: PlanSource, name: string): Promise<unknown> {
  return JSON.parse(new TextDecoder().decode(await bytesOf(source, name)));
}
