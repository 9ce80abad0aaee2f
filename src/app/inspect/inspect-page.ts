import { html } from "lit";
import type { SidePage } from "../frame/side-page.ts";
import "./inspect-sheet.ts";

/** What is to be measured before anybody is sent to cut. */
export const inspectPage: SidePage = {
  name: "inspect",
  title: "what to inspect",
  from: "lists",
  label: ({ index }) => {
    const { conflicts, prescriptions } = index.opened.plan;
    const hasSome =
      conflicts.some(({ certainty }) => certainty === "possible") || prescriptions.some(({ refer }) => refer !== null);
    return hasSome ? "Inspect" : null;
  },
  render: (context) => html`<inspect-sheet class="view" .context=${context}></inspect-sheet>`,
};
