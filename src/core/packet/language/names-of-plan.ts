import type { Plan } from "../../model/plan.ts";
import type { Zone } from "../../model/zone.ts";
import { LONGEST_WHY, writtenSentence } from "../../units/written-sentence.ts";
import { placeText } from "../packet-words.ts";

/**
 * Texts of a plan that can stand alone in a sentence and that no language changes: names of streets, buildings, lines and zones, where trees stand, and, for the trees of
 * `zone`, the names of arborists with the reasons and notes that they wrote.
 */
export function namesOfPlan(
  { trees, surroundings, conflicts, zones, prescriptions }: Plan,
  zone: Pick<Zone, "treeIds"> | null = null,
): ReadonlySet<string> {
  const names = new Set<string>();
  for (const { name } of surroundings) if (name != null) names.add(name);
  for (const { withName } of conflicts) if (withName !== null) names.add(withName);
  for (const { name } of zones) names.add(name);
  for (const tree of trees) {
    if (tree.street !== null) names.add(tree.street);
    names.add(placeText({ ...tree, side: null }));
  }
  const ofZone = new Set(zone?.treeIds);
  for (const { treeId, words } of prescriptions) {
    if (!ofZone.has(treeId)) continue;
    for (const { by, why, kind, says } of words ?? []) {
      const written = kind === "note" || kind === "referral-resolved" ? [says.slice(says.indexOf(": ") + 2)] : [];
      for (const text of [by, writtenSentence(why, LONGEST_WHY), ...written])
        if (/\p{L}/u.test(text)) names.add(withoutEnd(text));
    }
  }
  names.delete("address unknown");
  return names;
}

/** A reader's sentence without the mark at its end, which the sentence around it has. */
const withoutEnd = (text: string): string => text.replace(/ The rules may prescribe\.$/, "").replace(/[.!?]$/, "");
