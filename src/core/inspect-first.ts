import { findConflicts } from "./conflict/find-conflicts.ts";
import type { KnownViews } from "./conflict/known-views.ts";
import { PolesAround } from "./conflict/poles-around.ts";
import type { ConflictRecord } from "./model/conflict.ts";
import type { Plan } from "./model/plan.ts";
import type { Certainty } from "./model/terms.ts";
import { treeTable } from "./model/tree-table.ts";
import type { InspectStop } from "./plan/inspect/inspect-stop.ts";
import {
  type Judge,
  type Question,
  SETTLING_FIGURES,
  type Settling,
  settlingFigures,
} from "./plan/inspect/settling.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";

/**
 * The trees to inspect before anybody is sent: those with conflicts that are only possible, and those that are referred, in plan order. For each possible conflict
 * the measured figures that would settle it, found by asking the test of certainty itself; without `surroundings` none. `onShare` is told how much of that is done.
 */
export function inspectFirst(
  plan: Plan,
  surroundings: Surroundings | null,
  standard: Standard,
  onShare: (share: number) => void = () => {},
): InspectStop[] {
  const open = new Map<number, ConflictRecord[]>();
  for (const conflict of plan.conflicts) {
    if (conflict.certainty !== "possible") continue;
    const own = open.get(conflict.treeRow);
    if (own === undefined) open.set(conflict.treeRow, [conflict]);
    else own.push(conflict);
  }
  const questions: (Question & { readonly conflict: ConflictRecord })[] = [];
  for (const [row, conflicts] of open) {
    const tree = plan.trees[row]!;
    for (const conflict of conflicts) {
      for (const figure of SETTLING_FIGURES) {
        if (figure === "headroom" && !ROADS.includes(conflict.kind)) continue;
        questions.push({ tree, conflictId: conflict.conflictId, figure, conflict });
      }
    }
  }
  const found = surroundings === null ? [] : settlingFigures(questions, judgeOf(plan, surroundings, standard), onShare);
  const settling = new Map<ConflictRecord, Settling[]>();
  for (const [at, one] of found.entries()) {
    if (one.goneAtM === null && one.holdsAtM === null) continue;
    const { conflict } = questions[at]!;
    const own = settling.get(conflict);
    if (own === undefined) settling.set(conflict, [one]);
    else own.push(one);
  }
  return plan.prescriptions.flatMap(({ treeId, refer }, treeRow): InspectStop[] => {
    const own = open.get(treeRow) ?? [];
    if (own.length === 0 && refer === null) return [];
    return [
      {
        treeId,
        treeRow,
        refer,
        questions: own.map((conflict) => ({
          conflict,
          settlings: settling.get(conflict) ?? [],
        })),
      },
    ];
  });
}

const ROADS: readonly string[] = ["roadway", "bus-route", "fire-lane"];

/** The search for conflicts, run on trees as if measured. What trees hide together of views decides nothing here. */
function judgeOf(plan: Plan, surroundings: Surroundings, standard: Standard): Judge {
  const known: KnownViews = {
    trunkNumbers: new Map(),
    withHiddenShare: (conflict) => conflict,
    poles: new PolesAround(standard, surroundings.poles),
  };
  return (asked) => {
    const trees = asked.map(({ tree }, row) => ({ ...tree, row }));
    const { conflicts } = findConflicts(treeTable(trees), surroundings, standard, plan.options, new Map(), known);
    const certainties: (Certainty | null)[] = asked.map(() => null);
    for (const { treeRow, conflictId, certainty } of conflicts) {
      if (conflictId === asked[treeRow]!.conflictId) certainties[treeRow] = certainty;
    }
    return certainties;
  };
}
