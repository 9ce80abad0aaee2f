import { REVISION_NAMES } from "../../formats/plan/revision-names.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import { workKey } from "./work-key.ts";

const RARE: ReadonlySet<string> = new Set(["waiting.json", "spans.csv", "workload.csv", "plan.ics"]);

/**
 * All files of the revision at hand, before any edit. Throws Error when the server meanwhile has another revision in its place, so that
 * files of two revisions are never mixed.
 */
export async function baseFiles(hand: PlanInHand, key: string | null): Promise<ReadonlyMap<string, Uint8Array>> {
  if (hand.files !== null) return hand.files;
  const files = new Map<string, Uint8Array>();
  for (const name of REVISION_NAMES) {
    // A server that does not list its files is not asked for what most plans do not have.
    if (hand.folder === undefined && RARE.has(name)) continue;
    const bytes = await hand.source.read(name);
    if (bytes !== null) files.set(name, bytes);
  }
  if (key !== null && (await workKey(hand)) !== key) throw new Error("The folder has a newer revision of this plan.");
  return files;
}
