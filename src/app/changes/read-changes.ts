import { CHANGE_CAUSES, type ChangeCause, type Identity } from "../../core/model/plan-change.ts";
import type { Urgency } from "../../core/model/terms.ts";
import { readCsv } from "../../formats/csv.ts";
import type { PlanSource } from "../../formats/plan/plan-source.ts";

/** A line of the page: one tree that is another than before or planned otherwise. */
export interface ChangeLine {
  readonly treeId: string;
  readonly formerly: string | null;
  readonly identity: Identity;
  /** Null where it is planned as before. */
  readonly cause: ChangeCause | null;
  readonly aspects: readonly string[];
  readonly detail: string;
  readonly before: Urgency | null;
  readonly now: Urgency | null;
}

/** The lines of a revision's `changes.csv`, in its order; empty where it has none. Throws Error when the server answers with anything else. */
export async function readChanges(source: PlanSource): Promise<ChangeLine[]> {
  const bytes = await source.read("changes.csv");
  if (bytes === null) return [];
  const [header = [], ...rows] = readCsv(new TextDecoder().decode(bytes));
  const columns = ["tree", "formerly", "identity", "cause", "what", "detail", "urgency_before", "urgency_now"];
  const at = columns.map((name) => header.indexOf(name));
  return rows.map((row) => {
    const [tree = "", formerly, identity, cause, what = "", detail = "", before, now] = at.map((column) => row[column]);
    return {
      treeId: tree,
      formerly: formerly || null,
      identity: identity as Identity,
      cause: CHANGE_CAUSES.find((one) => one === cause) ?? null,
      aspects: what === "" ? [] : what.split(","),
      detail,
      before: (before || null) as Urgency | null,
      now: (now || null) as Urgency | null,
    };
  });
}
