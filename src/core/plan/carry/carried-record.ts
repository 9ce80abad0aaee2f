import type { Finding } from "../../model/finding.ts";
import type { Tree } from "../../model/trees.ts";
import type { IsoDate } from "../../units/calendar.ts";
import type { RecordedBase, RecordedName, RecordedVisit, WorkRecord } from "../record/work-record.ts";
import { carriedBase } from "./carried-base.ts";
import { carryFinding } from "./carry-finding.ts";
import { renamedRecord } from "./rename-ids.ts";

/**
 * The record of a plan under a new inventory, in which nothing is lost: trees under their new ids, each recorded tree that still stands with the
 * inventory's figures as its new base, and what was recorded of trees that are no more as it was, listed in a finding each. `trees` are the new
 * inventory's, `stays` tells ids of trees that stand in both.
 */
export function carriedRecord(
  record: WorkRecord,
  names: readonly RecordedName[],
  trees: readonly Tree[],
  stays: ReadonlySet<string>,
  revision: number,
  measuredOn: IsoDate,
): { record: WorkRecord; findings: Finding[] } {
  const renamed = renamedRecord(record, names);
  const treeOf = new Map(trees.map((tree) => [tree.id, tree]));
  const visitsOf = new Map<string, RecordedVisit[]>();
  for (const visit of renamed.visits) {
    const own = visitsOf.get(visit.entry.treeId);
    if (own === undefined) visitsOf.set(visit.entry.treeId, [visit]);
    else own.push(visit);
  }
  const findings: Finding[] = [];
  const bases: RecordedBase[] = [];
  const renewed: RecordedBase[] = [];
  for (const base of renamed.bases) {
    const { id } = base.tree;
    const tree = stays.has(id) ? treeOf.get(id) : undefined;
    if (base.replacedIn != null) {
      bases.push(base);
      continue;
    }
    const visits = visitsOf.get(id) ?? [];
    if (tree === undefined) {
      bases.push(base);
      findings.push(detached(id, visits));
      continue;
    }
    const carried = carriedBase(base, tree, visits, measuredOn);
    bases.push({ ...base, replacedIn: revision });
    renewed.push(carried.base);
    findings.push(...carried.findings, ...stillListed(id, visits));
  }
  return { record: { ...renamed, bases: [...bases, ...renewed] }, findings };
}

const detached = (id: string, visits: readonly RecordedVisit[]): Finding =>
  carryFinding(
    "carry-record-detached",
    "info",
    "plan",
    id,
    visits.map(({ entry }) => `${entry.visitId} ${entry.outcome} ${entry.date}`).join(", "),
    "The new inventory has this tree no more; what crews reported of it stays in the record.",
    "Nothing, if the tree is gone; else correct its id or position in the inventory and plan anew.",
  );

function stillListed(id: string, visits: readonly RecordedVisit[]): Finding[] {
  const last = visits.filter(({ replacedIn }) => replacedIn === null).at(-1);
  if (last?.entry.reason !== "tree-gone") return [];
  return [
    carryFinding(
      "carry-gone-still-listed",
      "warning",
      "trees",
      id,
      last.entry.date,
      `A crew reported it gone on ${last.entry.date}, and the new inventory still has it: no work is planned.`,
      "Take it out of the inventory, or record what stands there.",
    ),
  ];
}
