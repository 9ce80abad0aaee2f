import type { Plan } from "../../core/model/plan.ts";
import { readGeoJson } from "../geojson/read-geojson.ts";
import { joinBytes } from "../join-bytes.ts";
import { addCalendar } from "./calendar-file.ts";
import { planFiles } from "./plan-files.ts";
import { bytesOf, planRules } from "./plan-rules.ts";
import type { PlanSource } from "./plan-source.ts";
import { REVISION_NAMES } from "./revision-names.ts";
import { treesFile } from "./trees-file.ts";

/**
 * The files of a plan's next revision, when the plan was changed on the desk: the source is the revision it was opened from, whose trees, in the same order,
 * keep every original byte; what the change does not touch is carried over. Throws {@link RefusedInput} when the source's own files cannot be used.
 */
export async function revisePlan(plan: Plan, source: PlanSource): Promise<Map<string, Uint8Array>> {
  const { standard, json, columns, findings } = await planRules(source);
  const files = planFiles({ ...plan, findings: [...plan.findings, ...findings] }, columns, standard, json);
  const read = readGeoJson(await bytesOf(source, "trees.geojson"), { layer: "trees", file: "trees.geojson" });
  addCalendar(files, plan, standard);
  // The plan's own tree file holds its trees in order, so a feature's place is its tree's row.
  const byRow = { ...plan, trees: plan.trees.map((tree, row) => ({ ...tree, ordinal: row })) };
  files.set("trees.geojson", joinBytes(treesFile([read], byRow)));
  for (const name of REVISION_NAMES) {
    const bytes = files.has(name) ? null : await source.read(name);
    if (bytes !== null) files.set(name, bytes);
  }
  return files;
}
