import { type ChangeCause, IDENTITIES } from "../core/model/plan-change.ts";
import type { ManifestChanges } from "../core/plan/carry/manifest-changes.ts";

/** What a cause means, for people. */
const CAUSE_WORDS: Readonly<Record<ChangeCause, string>> = {
  work: "work that crews reported",
  word: "an arborist's word",
  data: "the inventory",
  surroundings: "what stands around the trees",
  rule: "the standard or the place",
  growth: "time: growth, seasons and deadlines",
  model: "another version of this program",
};

/** Lines of the summary that say what is new since an earlier revision; none where the plan was made by itself. */
export function changeLines(changes: ManifestChanges | undefined): string[] {
  if (changes === undefined || changes.since_revision === null) return [];
  const trees = IDENTITIES.filter((one) => changes.trees[one] > 0).map((one) => `${count(changes.trees[one])} ${one}`);
  const causes = (Object.keys(CAUSE_WORDS) as ChangeCause[]).filter((one) => changes.by_cause[one] > 0);
  return [
    "",
    `What is new since revision ${changes.since_revision}, as of ${changes.since_as_of} (all in changes.csv)`,
    `  Trees: ${trees.join(", ")}`,
    `  Planned otherwise: ${count(changes.changed)}, each for one cause`,
    ...causes.map((one) => `  ${count(changes.by_cause[one]).padStart(8)}  ${CAUSE_WORDS[one]}`),
  ];
}

const count = (amount: number): string => amount.toLocaleString("en-US");
