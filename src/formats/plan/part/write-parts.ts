import type { Finding } from "../../../core/model/finding.ts";
import { isInPart } from "../../../core/model/run-part.ts";
import type { Tree } from "../../../core/model/trees.ts";
import { sightFeatures } from "../../../core/plan/plan-features.ts";
import { manifestOf } from "../../../core/plan/plan-manifest.ts";
import { findingTable } from "../../../core/plan/plan-tables.ts";
import { spanTableOf } from "../../../core/plan/span-table.ts";
import { workloadTable } from "../../../core/plan/workload-table.ts";
import type { ResolvedStandard } from "../../../core/standard/resolve-standard.ts";
import { COLLECTION, collectionText, encoded, pretty, tableText } from "../plan-files.ts";
import type { PlanRequest, Progress } from "../plan-request.ts";
import type { PlanSink } from "../plan-sink.ts";
import type { PartCrew } from "./part-crew.ts";
import { planInParts, type RunInParts } from "./plan-in-parts.ts";
import { PlanWriter } from "./plan-writer.ts";

/** Plans a run part by part, each written to the sink and forgotten; gives all findings. The plan has no zones. */
export async function writeParts(
  run: RunInParts,
  crew: PartCrew,
  { part }: PlanRequest,
  rules: ResolvedStandard,
  sink: PlanSink,
  onProgress: Progress,
): Promise<readonly Finding[]> {
  const writer = new PlanWriter(
    sink,
    run.reads.filter(({ layer }) => layer === "trees"),
  );
  const { trees, ground, facts, partTrees } = run;
  const wanted = part === undefined ? {} : { isWanted: (tree: Tree) => isInPart(part, tree, trees.length) };
  const tell = (share: number): void => onProgress(0.3 + share * 0.65, "Measuring, prescribing and dating the work");
  const sight = await planInParts({ ground, trees, crew, partTrees, ...wanted, onProgress: tell }, "encode", (one) =>
    writer.add(one),
  );
  writer.end();

  onProgress(0.95, "Writing the plan");
  const findings = [...run.findings, ...writer.findings];
  const others = { surroundings: run.aroundCount, sight_areas: sight.length, zones: 0, findings: findings.length };
  const texts: [string, Iterable<string>][] = [
    [
      "plan.json",
      [pretty(manifestOf({ ...facts, ...(part === undefined ? {} : { part }) }, writer.counts.counts(others)))],
    ],
    ["sight.geojson", collectionText(sight, sightFeatures)],
    ["zones.geojson", [COLLECTION.head, COLLECTION.tail]],
    ["spans.csv", [tableText(spanTableOf(run.around, writer.spans))]],
    ["workload.csv", [tableText(workloadTable(writer.loads.rows()))]],
    ["findings.csv", [tableText(findingTable(findings))]],
    ["columns.json", [pretty(run.columns)]],
    ["standard.json", [pretty(rules.json)]],
  ];
  for (const [name, text] of texts) for (const bytes of encoded(text)) sink.write(name, bytes);
  return findings;
}
