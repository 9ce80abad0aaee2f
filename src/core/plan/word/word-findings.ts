import type { Finding } from "../../model/finding.ts";
import type { Plan } from "../../model/plan.ts";
import type { ArboristWord } from "../../model/word.ts";
import { planFinding } from "../plan-finding.ts";

/**
 * What arborists' words leave for somebody to look at: limits that they break, words that change nothing, and words about trees that the plan has no
 * more. Made anew each time; every code begins with `word-`.
 */
export function wordFindings(
  { prescriptions }: Pick<Plan, "prescriptions">,
  words: readonly ArboristWord[],
): Finding[] {
  const findings: Finding[] = [];
  const told = new Set<string>();
  for (const { treeId, words: own = [] } of prescriptions) {
    told.add(treeId);
    for (const { wordId, by, on, says, breaks, idle, kind } of own) {
      const said = `${by}, ${on}: ${says}`;
      if (breaks.length > 0) {
        findings.push(
          planFinding(
            "word-beyond-limit",
            "warning",
            treeId,
            wordId,
            `${said} ${breaks.join(" ")}`,
            "It holds as it was said; make sure that it was meant so, or take it back.",
          ),
        );
      }
      if (idle !== null && kind !== "note") {
        findings.push(
          planFinding(
            "word-without-effect",
            "info",
            treeId,
            wordId,
            `${said} ${idle}`,
            "Nothing; take it back if it no longer matters.",
          ),
        );
      }
    }
  }
  for (const { treeId, wordId, by, on, takenBack } of words) {
    if (takenBack !== null || told.has(treeId)) continue;
    findings.push(
      planFinding(
        "word-of-no-tree",
        "info",
        treeId,
        wordId,
        `${by} said something of this tree on ${on}, which the plan has no more.`,
        "Nothing, if the tree is gone; the word stays in words.jsonl.",
      ),
    );
  }
  return findings;
}
