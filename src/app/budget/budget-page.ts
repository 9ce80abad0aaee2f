import { html } from "lit";
import type { SidePage } from "../frame/side-page.ts";
import "./budget-sheet.ts";

/** Which work a budget is best spent on. */
export const budgetPage: SidePage = {
  name: "budget",
  title: "the budget",
  from: "lists",
  label: ({ index }) => (index.opened.plan.prescriptions.some(({ visits }) => visits.length > 0) ? "Budget" : null),
  render: (context) => html`<budget-sheet class="view" .context=${context}></budget-sheet>`,
};
