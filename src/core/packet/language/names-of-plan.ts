import type { Plan } from "../../model/plan.ts";
import { placeText } from "../packet-words.ts";

/** Names in a plan that can stand alone in a sentence: of streets, buildings, lines and zones, and where trees stand. No language changes them. */
export function namesOfPlan({ trees, surroundings, conflicts, zones }: Plan): ReadonlySet<string> {
  const names = new Set<string>();
  for (const { name } of surroundings) if (name != null) names.add(name);
  for (const { withName } of conflicts) if (withName !== null) names.add(withName);
  for (const { name } of zones) names.add(name);
  for (const tree of trees) {
    if (tree.street !== null) names.add(tree.street);
    names.add(placeText({ ...tree, side: null }));
  }
  names.delete("address unknown");
  return names;
}
