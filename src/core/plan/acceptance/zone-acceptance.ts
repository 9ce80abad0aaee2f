import { acceptanceSize } from "../../standard/acceptance-size.ts";
import type { AcceptanceRules } from "../../standard/notice-rules.ts";
import type { RecordedVisit, WorkRecord } from "../record/work-record.ts";
import { drawnTrees } from "./drawn-trees.ts";
import type { RecordedCheck } from "./recorded-check.ts";

/** A tree to check, with its last finished visit in the zone and what was found; null while nobody looked at that visit. */
export interface TreeToCheck {
  readonly treeId: string;
  readonly visit: RecordedVisit;
  readonly check: RecordedCheck | null;
  /** Checks of earlier visits of the tree in this zone that did not pass. */
  readonly failedBefore: number;
}

/** How far the acceptance of a zone's finished work is. */
export interface ZoneAcceptance {
  readonly zoneId: string;
  /** Trees with a finished visit reported from the zone. */
  readonly finished: number;
  /** In the order they were drawn. */
  readonly trees: readonly TreeToCheck[];
  readonly passed: number;
  readonly toCheck: number;
  readonly rework: number;
  /** All that was drawn has passed. False for a zone without finished work. */
  readonly isAccepted: boolean;
}

/**
 * The trees of a zone that are to be checked, drawn by lot among those with finished work: the standard's number, and one more for each check that did
 * not pass, then or earlier. A tree whose check did not pass stays among them until its rework has.
 */
export function zoneAcceptance(
  planId: string,
  zoneId: string,
  record: WorkRecord,
  rules: AcceptanceRules,
): ZoneAcceptance {
  const last = new Map<string, RecordedVisit>();
  for (const visit of record.visits) {
    if (visit.replacedIn !== null || visit.zoneId !== zoneId || visit.entry.outcome !== "done") continue;
    const before = last.get(visit.entry.treeId);
    if (before === undefined || before.entry.date <= visit.entry.date) last.set(visit.entry.treeId, visit);
  }
  const checks = (record.checks ?? []).filter((one) => one.replacedIn === null && one.zoneId === zoneId);
  const failed = new Set(checks.filter(({ result }) => result === "rework").map(({ visitId }) => visitId));
  const order = drawnTrees(planId, zoneId, [...last.keys()]);
  const drawn = new Set(order.slice(0, acceptanceSize(last.size, rules) + failed.size));
  // Somebody may have looked at a tree that was not drawn: what failed there is made good and looked at again.
  for (const { treeId } of checks) if (last.has(treeId)) drawn.add(treeId);
  const trees = order
    .filter((id) => drawn.has(id))
    .map((treeId): TreeToCheck => {
      const visit = last.get(treeId)!;
      const own = checks.filter((one) => one.treeId === treeId);
      return {
        treeId,
        visit,
        check: own.find(({ visitId }) => visitId === visit.entry.visitId) ?? null,
        failedBefore: own.filter(({ visitId, result }) => visitId !== visit.entry.visitId && result === "rework")
          .length,
      };
    });
  const count = (result: RecordedCheck["result"] | null): number =>
    trees.filter(({ check }) => (check?.result ?? null) === result).length;
  const [passed, rework, toCheck] = [count("passed"), count("rework"), count(null)];
  return {
    zoneId,
    finished: last.size,
    trees,
    passed,
    rework,
    toCheck,
    isAccepted: trees.length > 0 && passed === trees.length,
  };
}
