import type { Finding } from "../../model/finding.ts";
import { carryFinding } from "./carry-finding.ts";
import type { TreeMatches } from "./tree-match.ts";

interface Named {
  readonly id: string;
}

/** What comparing two inventories leaves for somebody to look at: doubtful matches one by one, and a shift that all trees share. */
export function matchFindings(matches: TreeMatches, old: readonly Named[], now: readonly Named[]): Finding[] {
  const findings: Finding[] = [];
  if (matches.shift !== null) {
    const { eastM, northM } = matches.shift;
    findings.push(
      carryFinding(
        "carry-shifted",
        "warning",
        "trees",
        null,
        `${eastM.toFixed(1)} m east, ${northM.toFixed(1)} m north`,
        "Most trees lie off their earlier positions by the same distance; it was taken off before places were compared.",
        "Check which of the two inventories lies right beside streets and buildings, and its coordinate system.",
      ),
    );
  }
  if (matches.stemFactor !== 1) {
    findings.push(
      carryFinding(
        "carry-stem-unit",
        "warning",
        "trees",
        null,
        String(matches.stemFactor),
        `Most stems of the inventory before are ${Number(matches.stemFactor.toPrecision(3))} times as thick as the same trees' now: one of the two was read in a wrong unit. Trees were compared as if in one.`,
        "Give the unit of the column that feeds dbh in a column map, and plan anew.",
      ),
    );
  }
  for (const { oldRow, newRow, identity, doubt } of matches.all) {
    if (doubt === null || newRow === null) continue;
    const was = oldRow === null ? null : old[oldRow]!.id;
    findings.push(
      carryFinding(
        "carry-match-doubtful",
        "warning",
        "trees",
        now[newRow]!.id,
        was,
        `Taken for ${identity === "replanted" ? "the successor of tree" : "tree"} ${was} of the inventory before. ${doubt}.`,
        "Look at both records; where they are not what they were taken for, correct id, position or species and plan anew.",
      ),
    );
  }
  return findings;
}
