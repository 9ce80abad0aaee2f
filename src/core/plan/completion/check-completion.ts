import type { Finding, Severity } from "../../model/finding.ts";
import type { Plan } from "../../model/plan.ts";
import type { Tree } from "../../model/trees.ts";
import type { Completion, VisitCompletion } from "./completion.ts";

/** Share of live crown by which a reported dose may differ from the planned one before somebody should look, our policy. */
const DOSE_GAP_SHARE = 0.1;

/**
 * What a person should know before a completion is taken into a plan, in the file's order; none when it fits. An `error` is a reason to
 * refuse the file or the entry: another plan, a revision still to come, an unknown zone, a visit or tree that the zone does not have, a
 * figure that cannot be. An older revision is a warning: its visits must be compared one by one.
 */
export function checkCompletion(completion: Completion, plan: Plan): Finding[] {
  const { planId, revision, zoneId, visits } = completion;
  if (planId !== plan.planId) {
    return [
      finding("completion-other-plan", "error", null, "planId", planId, {
        reason: `The completion belongs to plan "${planId}", this is "${plan.planId}".`,
        whatToDo: "Record it in the plan its packet came from.",
      }),
    ];
  }
  const findings: Finding[] = [];
  if (revision > plan.revision) {
    findings.push(
      finding("completion-newer-revision", "error", null, "revision", String(revision), {
        reason: `The completion was made from revision ${revision}; this plan stands at ${plan.revision}.`,
        whatToDo: "Open the newest copy of the plan and record it there.",
      }),
    );
  } else if (revision < plan.revision) {
    findings.push(
      finding("completion-older-revision", "warning", null, "revision", String(revision), {
        reason: `The completion was made from revision ${revision}; this plan stands at ${plan.revision}.`,
        whatToDo: "Take the trees whose prescription is unchanged and decide about the others one by one.",
      }),
    );
  }
  const zone = plan.zones.find((one) => one.zoneId === zoneId);
  if (zone === undefined) {
    const isOlder = revision < plan.revision;
    findings.push(
      finding("completion-unknown-zone", isOlder ? "warning" : "error", null, "zoneId", zoneId, {
        reason: `This revision has no zone "${zoneId}".`,
        whatToDo: isOlder ? "Look its visits up by tree." : "Check that the file is whole and from this plan.",
      }),
    );
  }
  const inZone = zone === undefined ? null : new Set(zone.visitIds);
  const trees = new Map(plan.trees.map((tree) => [tree.id, tree]));
  const planned = new Map(
    plan.prescriptions.flatMap(({ visits: own }) => own.map((visit) => [visit.visitId, visit] as const)),
  );
  for (const entry of visits) {
    const tree = trees.get(entry.treeId);
    const visit = planned.get(entry.visitId);
    if (tree === undefined || visit?.treeId !== entry.treeId) {
      findings.push(
        finding("completion-unknown-visit", "error", entry.treeId, "visitId", entry.visitId, {
          reason: `This revision has no visit "${entry.visitId}" of tree "${entry.treeId}".`,
          whatToDo: "Decide by hand which tree and visit are meant.",
        }),
      );
      continue;
    }
    if (inZone !== null && !inZone.has(entry.visitId)) {
      findings.push(
        finding("completion-other-zone", "error", entry.treeId, "visitId", entry.visitId, {
          reason: `Visit "${entry.visitId}" is not in zone "${zoneId}".`,
          whatToDo: "Check whether zones were changed after the packet was made.",
        }),
      );
    }
    findings.push(...figureFindings(entry, tree, visit.doseShare));
  }
  return findings;
}

function figureFindings(entry: VisitCompletion, tree: Tree, plannedShare: number): Finding[] {
  const { treeId, crownBaseM, headroomM, doseShare } = entry;
  const findings: Finding[] = [];
  for (const [field, valueM] of [
    ["crownBaseM", crownBaseM],
    ["headroomM", headroomM],
  ] as const) {
    if (valueM === null || valueM <= tree.height.highM) continue;
    findings.push(
      finding("completion-above-top", "error", treeId, field, String(valueM), {
        reason: `${field} ${valueM} m lies above the tree's top (${tree.height.valueM.toFixed(1)} m).`,
        whatToDo: "Ask the crew; feet may have been read as meters.",
      }),
    );
  }
  if (doseShare !== null && Math.abs(doseShare - plannedShare) > DOSE_GAP_SHARE) {
    findings.push(
      finding("completion-dose-differs", "warning", treeId, "doseShare", String(doseShare), {
        reason: `${Math.round(doseShare * 100)} % of the live crown was taken, ${Math.round(plannedShare * 100)} % was planned.`,
        whatToDo: "Look at the tree before its next visit is planned.",
      }),
    );
  }
  return findings;
}

const finding = (
  code: string,
  severity: Severity,
  feature: string | null,
  field: string,
  value: string,
  words: { readonly reason: string; readonly whatToDo: string },
): Finding => ({
  code,
  severity,
  layer: "plan",
  file: null,
  feature,
  field,
  value: value.slice(0, 256),
  ...words,
});
