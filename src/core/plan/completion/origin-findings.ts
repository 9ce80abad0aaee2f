import type { Finding } from "../../model/finding.ts";
import type { Plan } from "../../model/plan.ts";
import type { Completion } from "./completion.ts";
import { completionFinding } from "./completion-finding.ts";

/**
 * Whether a completion comes from a plan: another plan, a revision still to come and an unknown zone are an `error`, and after another plan nothing
 * more is said. An older revision is a warning, and so is a zone that it may have had.
 */
export function originFindings({ planId, revision, zoneId }: Completion, plan: Plan): Finding[] {
  if (planId !== plan.planId) {
    return [
      completionFinding("completion-other-plan", "error", null, "planId", planId, {
        reason: `The completion belongs to plan "${planId}", this is "${plan.planId}".`,
        whatToDo: "Record it in the plan its packet came from.",
      }),
    ];
  }
  const findings: Finding[] = [];
  const isOlder = revision < plan.revision;
  if (revision > plan.revision) {
    findings.push(
      completionFinding("completion-newer-revision", "error", null, "revision", String(revision), {
        reason: `The completion was made from revision ${revision}; this plan stands at ${plan.revision}.`,
        whatToDo: "Open the newest copy of the plan and record it there.",
      }),
    );
  } else if (isOlder) {
    findings.push(
      completionFinding("completion-older-revision", "warning", null, "revision", String(revision), {
        reason: `The completion was made from revision ${revision}; this plan stands at ${plan.revision}.`,
        whatToDo: "Take the trees whose prescription is unchanged and decide about the others one by one.",
      }),
    );
  }
  // A round that only looked is no zone of the plan: what it brings is words.
  if (!zoneId.startsWith("i-") && !plan.zones.some((zone) => zone.zoneId === zoneId)) {
    findings.push(
      completionFinding("completion-unknown-zone", isOlder ? "warning" : "error", null, "zoneId", zoneId, {
        reason: `This revision has no zone "${zoneId}".`,
        whatToDo: isOlder ? "Look its visits up by tree." : "Check that the file is whole and from this plan.",
      }),
    );
  }
  return findings;
}
