import { changeDetails } from "./change-details.ts";
import { Exchange, STEPS } from "./exchange.ts";
import type { ExchangeInput } from "./exchange-input.ts";
import type { ConflictRecord } from "./model/conflict.ts";
import type { Plan } from "./model/plan.ts";
import type { ChangeAspect, ChangeCause, TreeChange } from "./model/plan-change.ts";
import { decisiveStep } from "./plan/carry/decisive-step.ts";
import { renamedConflict } from "./plan/carry/rename-ids.ts";
import { isSameTree, type TreeMatch } from "./plan/carry/tree-match.ts";
import { differingAspects, plannedThen, type TreeOutcome, treeOutcome } from "./plan/carry/tree-outcome.ts";

/** A tree that is planned otherwise than before, while its cause is looked for. */
export interface DifferingTree {
  readonly row: number;
  readonly aspects: readonly ChangeAspect[];
  /** What it got before and at each step that was run, the last being what it gets now. */
  readonly outcomes: readonly TreeOutcome[];
  /** The steps of `outcomes` behind the first. */
  readonly steps: readonly ChangeCause[];
  readonly cause: ChangeCause;
}

/**
 * Every tree that is another than in an earlier revision, or planned otherwise, with exactly one cause for each that is planned otherwise: in the order
 * of the trees, then of those removed.
 *
 * The cause is computed. The inputs of the earlier revision are exchanged for those of the later one, one after another in the order of precedence, and
 * the tree is planned each time; the cause is the exchange after which its weightiest aspect is never again what it was. The earlier inputs are planned
 * again first: where that gives already what the tree gets now, the program itself has changed.
 */
export function explainChanges(input: ExchangeInput): TreeChange[] {
  const { before, now, matches } = input;
  const exchange = new Exchange(input);
  const conflictsBefore = conflictsByTree(before.plan);
  const conflictsNow = conflictsByTree(now.plan);
  const renamedBefore = (oldRow: number): ConflictRecord[] => {
    const { id } = before.plan.trees[oldRow]!;
    return (conflictsBefore.get(id) ?? []).map((one) => ({
      ...one,
      conflictId: exchange.presentIdOf({
        ...one,
        conflictId: renamedConflict(one.conflictId, id, exchange.rename(id)),
      }),
    }));
  };
  const conflictsAt = (row: number): ConflictRecord[] => conflictsNow.get(now.plan.trees[row]!.id) ?? [];

  const differing: { row: number; was: TreeOutcome; is: TreeOutcome; aspects: ChangeAspect[] }[] = [];
  for (const [row, oldRow] of exchange.oldRowOf) {
    const was = treeOutcome(before.plan.prescriptions[oldRow]!, renamedBefore(oldRow));
    const is = treeOutcome(now.plan.prescriptions[row]!, conflictsAt(row));
    const aspects = differingAspects(was, is);
    if (aspects.length > 0) differing.push({ row, was, is, aspects });
  }
  const hasView = (row: number): boolean =>
    conflictsAt(row).some(({ withLayer }) => withLayer === "sight") ||
    renamedBefore(exchange.oldRowOf.get(row)!).some(({ withLayer }) => withLayer === "sight");
  const caused = withCauses(exchange, differing, hasView);
  const detailOf = changeDetails(exchange, caused);

  return matches.all.flatMap((match): TreeChange[] => {
    const { oldRow, newRow, identity, distanceM } = match;
    const own = newRow === null ? undefined : caused.get(newRow);
    if (own === undefined && identity === "matched") return [];
    const tree = newRow === null ? before.plan.trees[oldRow!]! : now.plan.trees[newRow]!;
    const formerId = oldRow === null ? null : before.plan.trees[oldRow]!.id;
    return [
      {
        treeId: tree.id,
        formerly: formerId === tree.id ? null : formerId,
        identity,
        cause: isSameTree(match) ? (own?.cause ?? null) : "data",
        aspects: own?.aspects ?? [],
        detail: own === undefined ? identityWords(match) : detailOf(own),
        before: oldRow === null ? null : plannedThen(before.plan.prescriptions[oldRow]!, renamedBefore(oldRow)),
        now: newRow === null ? null : plannedThen(now.plan.prescriptions[newRow]!, conflictsAt(newRow)),
        lonDeg: tree.lonDeg,
        latDeg: tree.latDeg,
        movedM: distanceM,
      },
    ];
  });
}

function withCauses(
  exchange: Exchange,
  differing: readonly { row: number; was: TreeOutcome; is: TreeOutcome; aspects: ChangeAspect[] }[],
  hasView: (row: number) => boolean,
): Map<number, DifferingTree> {
  const steps = STEPS.filter((step) => exchange.isActive(step));
  // The last exchange gives the later revision itself.
  const last = steps.at(-1)!;
  const outcomes = new Map(differing.map(({ row, was }) => [row, [was]]));
  for (const step of steps) {
    const rows = differing.map(({ row }) => row);
    const toRun = rows.filter((row) => step !== last && (exchange.touches(step, row) || hasView(row)));
    const run = toRun.length === 0 ? new Map<number, TreeOutcome>() : exchange.outcomes(step, toRun);
    for (const { row, is } of differing) {
      const own = outcomes.get(row)!;
      own.push(step === last ? is : (run.get(row) ?? own.at(-1)!));
    }
  }
  return new Map(
    differing.map(({ row, aspects }) => {
      const all = outcomes.get(row)!;
      const [, ...values] = all.map((one) => one[aspects[0]!]);
      const isModel = values[0] === values.at(-1);
      return [row, { row, aspects, outcomes: all, steps, cause: isModel ? "model" : steps[decisiveStep(values)]! }];
    }),
  );
}

function conflictsByTree({ conflicts }: Plan): Map<string, ConflictRecord[]> {
  const byTree = new Map<string, ConflictRecord[]>();
  for (const one of conflicts) {
    const own = byTree.get(one.treeId);
    if (own === undefined) byTree.set(one.treeId, [one]);
    else own.push(one);
  }
  return byTree;
}

function identityWords({ identity, distanceM }: TreeMatch): string {
  switch (identity) {
    case "new":
      return "new in the inventory";
    case "removed":
      return "no more in the inventory";
    case "replanted":
      return "another tree stands in its place";
    case "moved":
      return `position corrected by ${distanceM!.toFixed(1)} m`;
    case "renumbered":
      return "another id, found by place and species";
    case "matched":
      return "";
  }
}
