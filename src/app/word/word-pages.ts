import { html } from "lit";
import type { SidePage } from "../frame/side-page.ts";

/** What an arborist decides of a tree. */
export const decidePage: SidePage = {
  name: "decide",
  title: "the decision",
  from: "tree",
  label: ({ canEdit }) => (canEdit ? "Decide" : null),
  render: (context, treeId) => {
    void import("./decide-sheet.ts");
    return html`<decide-sheet class="view" .context=${context} .treeId=${treeId ?? ""}></decide-sheet>`;
  },
};

/** All that arborists said of the plan's trees. */
export const decisionsPage: SidePage = {
  name: "decisions",
  title: "decisions",
  from: "lists",
  label: ({ index }) =>
    index.opened.plan.prescriptions.some(({ words }) => words !== undefined && words.length > 0) ? "Decisions" : null,
  render: (context) => {
    void import("./words-sheet.ts");
    return html`<words-sheet class="view" .context=${context}></words-sheet>`;
  },
};
