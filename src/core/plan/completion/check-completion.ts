import type { Finding } from "../../model/finding.ts";
import type { Plan } from "../../model/plan.ts";
import type { Completion } from "./completion.ts";
import { completionFinding } from "./completion-finding.ts";
import { figureFindings } from "./figure-findings.ts";
import { originFindings } from "./origin-findings.ts";

/**
 * What a person should know before a completion is taken into a plan, in the file's order; none when it fits. An `error` is a reason to
 * refuse the file or the entry: another plan, a revision still to come, an unknown zone, a visit or tree that the zone does not have, a
 * figure that cannot be. An older revision is a warning: its visits must be compared one by one.
 *
 * Knows nothing of what was recorded before: a visit that is done is no longer in the plan. `previewRecord` looks at that too.
 */
export function checkCompletion(completion: Completion, plan: Plan): Finding[] {
  const findings = originFindings(completion, plan);
  if (findings.some(({ code }) => code === "completion-other-plan")) return findings;
  const zone = plan.zones.find((one) => one.zoneId === completion.zoneId);
  const inZone = zone === undefined ? null : new Set(zone.visitIds);
  const trees = new Map(plan.trees.map((tree) => [tree.id, tree]));
  const planned = new Map(
    plan.prescriptions.flatMap(({ visits: own }) => own.map((visit) => [visit.visitId, visit] as const)),
  );
  for (const entry of completion.visits) {
    const tree = trees.get(entry.treeId);
    const visit = planned.get(entry.visitId);
    if (tree === undefined || visit?.treeId !== entry.treeId) {
      findings.push(
        completionFinding("completion-unknown-visit", "error", entry.treeId, "visitId", entry.visitId, {
          reason: `This revision has no visit "${entry.visitId}" of tree "${entry.treeId}".`,
          whatToDo: "Decide by hand which tree and visit are meant.",
        }),
      );
      continue;
    }
    if (inZone !== null && !inZone.has(entry.visitId)) {
      findings.push(
        completionFinding("completion-other-zone", "error", entry.treeId, "visitId", entry.visitId, {
          reason: `Visit "${entry.visitId}" is not in zone "${completion.zoneId}".`,
          whatToDo: "Check whether zones were changed after the packet was made.",
        }),
      );
    }
    findings.push(...figureFindings(entry, tree, visit.doseShare));
  }
  return findings;
}
