import type { BoughtFigures, BudgetFigures } from "../core/budget/budget-figures.ts";
import type { WorkChoice } from "../core/budget/choose-work.ts";
import type { BudgetRequest } from "../core/budget/plan-budget.ts";
import type { Plan } from "../core/model/plan.ts";
import { formatDate } from "../core/units/format-date.ts";
import { withThousands } from "../core/units/with-thousands.ts";
import { printable } from "./printable.ts";

/** How many lines of open work the summary shows; the table has all. */
const MOST_SHOWN = 10;

/** What people call a unit: a zone's name, a visit's id. */
type NameOf = (id: string) => string;

/** The summary of a budget: the choice beside oldest-first and the whole plan, what stays open, what the figures are. */
export function budgetText(plan: Plan, request: BudgetRequest, figures: BudgetFigures, choice: WorkChoice): string {
  const { rates, by, until } = request;
  const names = new Map(plan.zones.map(({ zoneId, name }) => [zoneId, name]));
  const nameOf: NameOf = (id) => names.get(id) ?? id;
  const line = (name: string, of: BoughtFigures): string =>
    `  ${name.padEnd(14)}${String(of.visits).padStart(8)}${of.hours.toFixed(1).padStart(10)}${withThousands(Math.round(of.cost)).padStart(14)}${of.debris_m3.toFixed(1).padStart(10)}${of.risk_removed.toFixed(1).padStart(10)}${`${(of.risk_removed_share * 100).toFixed(1)} %`.padStart(10)}${String(of.deadlines).padStart(11)}`;
  const lines = [
    `Plan ${plan.planId}, revision ${plan.revision}, as of ${plan.options.asOf}; by ${by}${until === null ? "" : `, work that begins by ${until}`}`,
    "",
    `  ${"".padEnd(14)}${"visits".padStart(8)}${"hours".padStart(10)}${`cost, ${rates.currency}`.padStart(14)}${"chips, m3".padStart(10)}${"risk".padStart(10)}${"of all".padStart(10)}${"deadlines".padStart(11)}`,
    line("chosen", figures.chosen),
    line("oldest first", figures.oldest_first),
    line("whole plan", figures.whole_plan),
    "",
    ...missedLines(choice, nameOf),
    ...openLines(choice, figures, nameOf),
    `Risk that no visit removes (referred, to be inspected first, watched): ${figures.risk_without_visit.toFixed(1)} points.`,
    "",
    `Hours, chips and cost are estimates. Rates: ${rates.source}.`,
    "Risk is counted in points by the weights of the standard (risk), a policy to order work by. It says of no tree that it is safe.",
  ];
  return printable(`${lines.join("\n")}\n`);
}

function missedLines({ deadlinesMissed }: WorkChoice, nameOf: NameOf): string[] {
  const [first, ...more] = deadlinesMissed;
  if (first === undefined) return [];
  const what = first.kind === "zone" ? "work zones" : "visits";
  const named = [first, ...more].slice(0, MOST_SHOWN);
  const rest = deadlinesMissed.length - named.length;
  return [
    `Not enough for every running deadline: ${deadlinesMissed.length} ${what} with one, ${hoursOf(deadlinesMissed)} crew-hours, stay open: ${named
      .map(({ id, deadline }) => `${nameOf(id)} by ${formatDate(deadline!)}`)
      .join(", ")}${rest > 0 ? ` and ${rest} more` : ""}.`,
    "",
  ];
}

function openLines(choice: WorkChoice, figures: BudgetFigures, nameOf: NameOf): string[] {
  if (choice.left.length === 0) return ["Nothing stays open."];
  const shown = choice.left.slice(0, MOST_SHOWN);
  return [
    `Stays open: ${figures.left_visits} visits, ${figures.left_hours.toFixed(1)} crew-hours, ${figures.left_risk.toFixed(1)} points. First due:`,
    ...shown.map(
      ({ id, due, hours, risk }) =>
        `  ${formatDate(due).padEnd(13)}${nameOf(id).slice(0, 34).padEnd(36)}${hours.toFixed(1).padStart(6)} h${risk.toFixed(2).padStart(9)} points`,
    ),
    ...(choice.left.length > shown.length ? [`  and ${choice.left.length - shown.length} more (--csv lists all)`] : []),
  ];
}

const hoursOf = (units: readonly { readonly hours: number }[]): string =>
  units.reduce((sum, { hours }) => sum + hours, 0).toFixed(1);
