import { sidePage } from "./frame/side-pages.ts";

// To add a sheet: write its element and a `SidePage` (name, title, where it is opened from, its words, how it is rendered from the page's context) in a folder
// of its own, and list that in `frame/side-pages.ts` with one import and one entry. It then has its tab or button, a way back, and a place in links.
// A dialog is added likewise, as a `PageDialog` in `frame/page-dialogs.ts`, and is opened by `context.openDialog(name)`.

/** What the side sheet shows; one at a time, the last of a stack whose first is one of the lists. A page is one of `frame/side-pages.ts`. */
export type SideView =
  | { readonly name: "trees" | "zones" | "findings" | "legend" }
  | { readonly name: "tree"; readonly treeId: string }
  | { readonly name: "zone"; readonly zoneId: string }
  | { readonly name: "page"; readonly page: string; readonly subject: string | null };

/** What a list is called. */
export const VIEW_WORDS: Readonly<Record<Exclude<SideView["name"], "page">, string>> = {
  trees: "trees",
  zones: "zones",
  findings: "findings",
  legend: "legend",
  tree: "the tree",
  zone: "the zone",
};

/** What a view is called on the way back to it. */
export const viewWords = (view: SideView): string =>
  view.name === "page" ? (sidePage(view.page)?.title.toLowerCase() ?? "the list") : VIEW_WORDS[view.name];
