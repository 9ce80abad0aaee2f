import type { ConflictRecord, TreeSetting } from "../../../core/model/conflict.ts";
import type { Finding } from "../../../core/model/finding.ts";
import type { Plan } from "../../../core/model/plan.ts";
import type { Prescription } from "../../../core/model/prescription.ts";
import type { ResolvedStandard } from "../../../core/standard/resolve-standard.ts";
import { costOfWaiting } from "../../../core/waiting.ts";
import { buildZones } from "../../../core/zone/build-zones.ts";
import { planFiles } from "../plan-files.ts";
import type { PlanRequest, Progress } from "../plan-request.ts";
import type { PlanSink } from "../plan-sink.ts";
import { treesFile } from "../trees-file.ts";
import { waitingFile } from "../waiting-file.ts";
import type { PartCrew } from "./part-crew.ts";
import { planInParts, type RunInParts } from "./plan-in-parts.ts";

/** Plans a run part by part and keeps the whole plan, for zones and the cost of waiting; gives all findings when its files are written. */
export async function keepWhole(
  run: RunInParts,
  crew: PartCrew,
  request: PlanRequest,
  rules: ResolvedStandard,
  sink: PlanSink,
  onProgress: Progress,
): Promise<readonly Finding[]> {
  const { trees, ground, partTrees } = run;
  const { standard } = rules;
  const prescriptions: Prescription[] = [];
  const settings: TreeSetting[] = [];
  const conflicts: ConflictRecord[] = [];
  const measured: Finding[] = [];
  const tell = (share: number): void => onProgress(0.3 + share * 0.5, "Measuring, prescribing and dating the work");
  const sight = await planInParts({ ground, trees, crew, partTrees, onProgress: tell }, "keep", (part) => {
    for (const one of part.prescriptions) prescriptions.push(one);
    for (const one of part.settings) settings.push(one);
    for (const one of part.conflicts) conflicts.push(one);
    for (const one of part.findings) measured.push(one);
  });
  crew.end();

  if (request.withWaiting === true) {
    const { surroundings, options, firstSeen } = ground;
    sink.write(
      "waiting.json",
      waitingFile(costOfWaiting(trees, prescriptions, surroundings, standard, options, firstSeen)),
    );
  }
  const findings = [...run.findings, ...measured];
  const told: Plan = {
    ...run.facts,
    trees,
    surroundings: run.around,
    sight,
    conflicts,
    prescriptions,
    settings,
    zones: [],
    findings,
  };
  onProgress(0.82, request.withZones ? "Grouping the visits into work zones" : "Writing the plan");
  const carried = run.carrying?.carry(told) ?? { plan: told, files: new Map<string, Uint8Array>() };
  for (const [name, bytes] of carried.files) sink.write(name, bytes);
  const plan = request.withZones ? { ...carried.plan, zones: buildZones(carried.plan, standard) } : carried.plan;
  onProgress(0.92, "Writing the plan");
  for (const [name, bytes] of planFiles(plan, run.columns, standard, rules.json)) {
    if (name !== "surroundings.geojson") sink.write(name, bytes);
  }
  const reads = run.reads.filter(({ layer }) => layer === "trees");
  for (const bytes of treesFile(reads, plan)) sink.write("trees.geojson", bytes);
  return plan.findings;
}
