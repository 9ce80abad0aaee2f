/** What the side sheet shows; one at a time, the last of a stack whose first is one of the four lists. */
export type SideView =
  | { readonly name: "trees" | "zones" | "findings" | "legend" }
  | { readonly name: "tree"; readonly treeId: string }
  | { readonly name: "zone"; readonly zoneId: string };

/** What a view is called on the way back to it. */
export const VIEW_WORDS: Readonly<Record<SideView["name"], string>> = {
  trees: "trees",
  zones: "zones",
  findings: "findings",
  legend: "legend",
  tree: "the tree",
  zone: "the zone",
};
