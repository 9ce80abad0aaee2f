import type { Finding } from "../../model/finding.ts";
import type { Tree } from "../../model/trees.ts";
import type { VisitCompletion } from "./completion.ts";
import { completionFinding } from "./completion-finding.ts";

/** Share of live crown by which a reported dose may differ from the planned one before somebody should look, our policy. */
const DOSE_GAP_SHARE = 0.1;

/** Figures of an entry that cannot be (`error`) or that a person should look at (`warning`). */
export function figureFindings(entry: VisitCompletion, tree: Tree, plannedShare: number): Finding[] {
  const { treeId, outcome, crownBaseM, headroomM, doseShare } = entry;
  const findings: Finding[] = [];
  for (const [field, valueM] of [
    ["crownBaseM", crownBaseM],
    ["headroomM", headroomM],
  ] as const) {
    if (valueM === null || valueM <= tree.height.highM) continue;
    findings.push(
      completionFinding("completion-above-top", "error", treeId, field, String(valueM), {
        reason: `${field} ${valueM} m lies above the tree's top (${tree.height.valueM.toFixed(1)} m).`,
        whatToDo: "Ask the crew; feet may have been read as meters.",
      }),
    );
  }
  const gapShare = doseShare === null ? 0 : doseShare - plannedShare;
  // Less than planned is what a visit that is not whole takes.
  if (doseShare !== null && (gapShare > DOSE_GAP_SHARE || (outcome === "done" && -gapShare > DOSE_GAP_SHARE))) {
    findings.push(
      completionFinding("completion-dose-differs", "warning", treeId, "doseShare", String(doseShare), {
        reason: `${Math.round(doseShare * 100)} % of the live crown was taken, ${Math.round(plannedShare * 100)} % was planned.`,
        whatToDo: "Look at the tree before its next visit is planned.",
      }),
    );
  }
  return findings;
}
