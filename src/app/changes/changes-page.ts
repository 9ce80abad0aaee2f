import { html } from "lit";
import type { SidePage } from "../frame/side-page.ts";

/** What is new since an earlier revision, where the plan carries one on. */
export const changesPage: SidePage = {
  name: "changes",
  title: "what changed",
  from: "lists",
  label: ({ index }) => (index.opened.plan.changes == null ? null : "Changes"),
  render: (context) => {
    void import("./changes-sheet.ts");
    return html`<changes-sheet class="view" .context=${context}></changes-sheet>`;
  },
};
