import type { Finding } from "../../model/finding.ts";
import type { Tree } from "../../model/trees.ts";
import { addDays, type IsoDate } from "../../units/calendar.ts";
import type { NewerMeasures, RecordedBase, RecordedVisit } from "../record/work-record.ts";
import { treeAsInventoried } from "./aged-tree.ts";
import { carryFinding } from "./carry-finding.ts";

/** Figures nearer than this are the same figure: inventories are kept in feet or in decimeters, rarely finer. Meters; common practice, no source. */
const SAME_FIGURE_M = 0.02;
/** A pruning that an inventory dates within so many days of recorded work is that work. Common practice, no source. */
const SAME_PRUNING_DAYS = 31;

/**
 * A recorded tree in a new inventory: what its recorded work is applied to from now on. A crown base or headroom that the inventory gives otherwise than
 * the one before it was measured anew, on `measuredOn` at the latest; it outranks what crews measured up to that day, and yields to what they measured
 * after it. One that is unchanged is old news, and work outranks it. A pruning that the inventory dates like recorded work is that work, not another.
 */
export function carriedBase(
  base: RecordedBase,
  tree: Tree,
  recorded: readonly RecordedVisit[],
  measuredOn: IsoDate,
): { base: RecordedBase; findings: Finding[] } {
  const done = recorded.filter(({ entry, replacedIn }) => replacedIn === null && entry.outcome === "done");
  const findings: Finding[] = [];
  const [before, now] = [treeAsInventoried(base.tree), treeAsInventoried(tree)];
  const was = before.crownBase;
  const is = now.crownBase;
  const isBaseNew =
    is.basis === "measured" && (was.basis !== "measured" || Math.abs(is.valueM - was.valueM) > SAME_FIGURE_M);
  const isRoomNew =
    now.headroomOverRoadM !== null &&
    (before.headroomOverRoadM === null || Math.abs(now.headroomOverRoadM - before.headroomOverRoadM) > SAME_FIGURE_M);
  const newer: NewerMeasures = {
    ...base.newer,
    ...(isBaseNew ? { crownBaseOn: measuredOn } : {}),
    ...(isRoomNew ? { headroomOn: measuredOn } : {}),
  };
  const told = (what: string, inventoryM: number, crewM: number | null, on: IsoDate): void => {
    if (crewM === null || Math.abs(inventoryM - crewM) <= SAME_FIGURE_M) return;
    const [inventory, crew] = [`${inventoryM.toFixed(2)} m`, `${crewM.toFixed(2)} m`];
    const isNewer = measuredOn >= on;
    findings.push(
      carryFinding(
        isNewer ? "carry-inventory-newer" : "carry-work-newer",
        "info",
        "trees",
        tree.id,
        inventory,
        isNewer
          ? `The inventory's ${what} of ${inventory} is newer than the ${crew} that a crew measured on ${on}, and is used.`
          : `The ${what} of ${crew} that a crew measured on ${on} is newer than the inventory's ${inventory}, and is used.`,
        "Measure again where the two cannot both be true.",
      ),
    );
  };
  for (const { entry } of done) {
    if (isBaseNew) told("crown base", is.valueM, entry.crownBaseM, entry.date);
    if (isRoomNew) told("headroom", now.headroomOverRoadM!, entry.headroomM, entry.date);
  }
  const isSamePruning =
    tree.lastPruned !== null && done.some(({ entry }) => isWithin(tree.lastPruned!, entry.date, SAME_PRUNING_DAYS));
  const pruned = isSamePruning
    ? { lastPruned: base.tree.lastPruned, lastDoseShare: base.tree.lastDoseShare }
    : { lastPruned: tree.lastPruned, lastDoseShare: tree.lastDoseShare };
  return {
    findings,
    base: {
      tree: { ...tree, ...pruned },
      firstSeen: base.firstSeen,
      ...(Object.keys(newer).length === 0 ? {} : { newer }),
    },
  };
}

const isWithin = (one: IsoDate, other: IsoDate, days: number): boolean =>
  one >= addDays(other, -days) && one <= addDays(other, days);
