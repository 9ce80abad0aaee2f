import { readFile } from "node:fs/promises";
import type { Command } from "commander";
import { budgetFigures } from "../../core/budget/budget-figures.ts";
import { BUDGET_COLUMNS, budgetRows } from "../../core/budget/budget-table.ts";
import type { Budget } from "../../core/budget/budget-unit.ts";
import { type BudgetRequest, budgetDesk } from "../../core/budget/plan-budget.ts";
import { parseRates, type Rates, SHIPPED_RATES } from "../../core/budget/rates.ts";
import { type IsoDate, parseIsoDate } from "../../core/units/calendar.ts";
import { writeCsv } from "../../formats/csv.ts";
import { openPlanAlone } from "../../formats/plan/open-plan.ts";
import { planRules } from "../../formats/plan/plan-rules.ts";
import { RefusedInput } from "../../formats/plan/refused-input.ts";
import { budgetText } from "../budget-text.ts";
import { inputError, usageError } from "../exit-codes.ts";
import { currentSource } from "../folder-source.ts";

/** Options of `budget`, as typed. */
export interface BudgetOptions {
  readonly hours?: string;
  readonly money?: string;
  readonly rates?: string;
  readonly by?: string;
  readonly until?: string;
  readonly csv?: boolean;
  readonly json?: boolean;
}

/** Adds `boughline budget DIR`: which work a budget is best spent on, beside plain oldest-first. Nothing is written. */
export function addBudget(program: Command): void {
  program
    .command("budget")
    .description("Choose the work a budget is best spent on: deadlines first, then the most risk removed per hour")
    .argument("<dir>", "plan folder")
    .option("--hours <n>", "crew-hours there are")
    .option("--money <n>", "money there is, in the currency of the rates; neither takes the whole plan")
    .option("--rates <file>", "JSON with rates per crew-hour, debris and lift; this project's estimates when left out")
    .option("--by <visits|zones>", "choose single visits, or keep work zones whole", "visits")
    .option("--until <date>", "leave out work whose dates begin after this day")
    .option("--csv", "print a table, a row a visit, instead of the summary")
    .option("--json", "print the figures and the table as JSON")
    .action(budget);
}

/** Runs `budget`. Throws CommandError for wrong usage, rates that cannot be used, and where there is no plan. */
export async function budget(dir: string, options: BudgetOptions): Promise<void> {
  const asked = budgetOf(options);
  const { by = "visits" } = options;
  if (by !== "visits" && by !== "zones") throw usageError(`--by takes visits or zones, got "${by.slice(0, 40)}".`);
  const request: BudgetRequest = { by, rates: await ratesOf(options.rates), until: untilOf(options.until) };
  const source = await currentSource(dir);
  try {
    const plan = await openPlanAlone(source);
    if (by === "zones" && plan.zones.length === 0) {
      throw inputError(`${dir} has no work zones yet. Run "boughline zone ${dir}" first, or leave out --by zones.`);
    }
    const { standard } = await planRules(source);
    const desk = budgetDesk(plan, standard, request);
    const choice = desk.choose(asked);
    const figures = budgetFigures(desk, choice);
    const rows = (): ReturnType<typeof budgetRows> => budgetRows(plan, desk, choice);
    if (options.csv === true) process.stdout.write(writeCsv(BUDGET_COLUMNS, rows()));
    else if (options.json === true) {
      const visits = rows().map((row) => Object.fromEntries(BUDGET_COLUMNS.map((name, at) => [name, row[at]])));
      const told = {
        plan: plan.planId,
        revision: plan.revision,
        as_of: plan.options.asOf,
        by,
        budget: limitJson(asked),
      };
      process.stdout.write(`${JSON.stringify({ ...told, rates: request.rates, ...figures, visits })}\n`);
    } else process.stdout.write(budgetText(plan, request, figures, choice));
  } catch (error) {
    if (error instanceof RefusedInput) throw inputError(error.sentences.join("\n"));
    throw error;
  }
}

const limitJson = (asked: Budget): Record<string, number | null> =>
  "hours" in asked ? { hours: Number.isFinite(asked.hours) ? asked.hours : null } : { money: asked.money };

function budgetOf({ hours, money }: BudgetOptions): Budget {
  if (hours !== undefined && money !== undefined) throw usageError("Give --hours or --money, not both.");
  if (money !== undefined) return { money: amountOf("--money", money) };
  return { hours: hours === undefined ? Number.POSITIVE_INFINITY : amountOf("--hours", hours) };
}

function amountOf(option: string, text: string): number {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (value >= 0 && value <= 1e12) return value;
  throw usageError(`${option}: expected a number of 0 or more, got "${text.slice(0, 40)}".`);
}

function untilOf(text: string | undefined): IsoDate | null {
  if (text === undefined) return null;
  const date = parseIsoDate(text);
  if (date === null) throw usageError(`--until: expected a date such as 2027-03-31, got "${text.slice(0, 40)}".`);
  return date;
}

async function ratesOf(path: string | undefined): Promise<Rates> {
  if (path === undefined) return SHIPPED_RATES;
  let json: unknown;
  try {
    json = JSON.parse(await readFile(path, "utf8"));
  } catch (error) {
    throw inputError(`${path}: cannot be read as JSON: ${(error as Error).message}`);
  }
  const parsed = parseRates(json);
  if ("faults" in parsed) throw inputError([`${path}: these rates cannot be used.`, ...parsed.faults].join("\n"));
  return parsed.rates;
}
