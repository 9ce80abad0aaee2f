import type { Crown } from "../crown/crown.ts";
import type { ConflictRecord } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import type { Standard } from "../standard/standard.ts";
import { addMonths, type IsoDate } from "../units/calendar.ts";
import { crownOnDate } from "./crown-on-date.ts";
import { FORECAST_YEARS, type ForecastVisit } from "./forecast-visits.ts";
import { SeasonBook } from "./season-book.ts";
import type { SeasonWindows } from "./season-windows.ts";
import { type TreeAhead, type TreeOnDate, treeOnDate, type World } from "./tree-on-date.ts";
import { endOfNextWindow } from "./urgency.ts";

/** A plan's ten years to come, to be asked for any tree on any date. */
export class Outlook {
  /** The last date that can be asked for. */
  readonly endsOn: IsoDate;
  readonly #plan: Plan;
  readonly #standard: Standard;
  readonly #seasons: SeasonBook;
  readonly #conflicts: (readonly ConflictRecord[] | undefined)[];
  readonly #forecast: (readonly ForecastVisit[] | undefined)[];
  /** By row, found when first asked for: a slider asks again and again. */
  readonly #windows: (SeasonWindows | undefined)[] = [];
  /** Ends of the next windows from the date asked for last. */
  readonly #nextEnds = new Map<SeasonWindows, IsoDate | null>();
  #nextFrom: IsoDate | null = null;

  /** `visits` are the plan's `forecastVisits`; those that the plan has itself are passed over. */
  constructor(plan: Plan, standard: Standard, visits: readonly ForecastVisit[]) {
    this.#plan = plan;
    this.#standard = standard;
    this.#seasons = new SeasonBook(standard, plan.options);
    this.#conflicts = byRow(plan.conflicts);
    this.#forecast = byRow(visits.filter(({ cause }) => cause !== "planned"));
    this.endsOn = addMonths(plan.options.asOf, 12 * FORECAST_YEARS);
  }

  /** All trees on a date, in one world. */
  on(date: IsoDate, world: World): TreesOnDate {
    return new TreesOnDate(this, date, world);
  }

  get asOf(): IsoDate {
    return this.#plan.options.asOf;
  }

  /** How the tree of a row stands on a date. Throws RangeError before the as-of date, past the ten years, and for a row that is not there. */
  treeOn(row: number, date: IsoDate, world: World): TreeOnDate {
    return treeOnDate(this.#ahead(row, date), date, world);
  }

  /** The crown on a date of the tree of a row that stands so on it. */
  crownOf(row: number, { done }: TreeOnDate, date: IsoDate): Crown {
    const { trees, prescriptions } = this.#plan;
    const { droopMPerYear } = this.#standard.pruning;
    return crownOnDate(trees[row]!, prescriptions[row]!, done, this.asOf, date, droopMPerYear);
  }

  #ahead(row: number, date: IsoDate): TreeAhead {
    const { trees, prescriptions, settings, options } = this.#plan;
    const tree = trees[row];
    if (tree === undefined) throw new RangeError(`Expected a tree's row, 0 to ${trees.length - 1}, got ${row}`);
    if (date < this.asOf || date > this.endsOn) {
      throw new RangeError(`Expected a date from ${this.asOf} to ${this.endsOn}, got ${date}`);
    }
    this.#windows[row] ??= this.#seasons.windowsOf(tree);
    return {
      prescription: prescriptions[row]!,
      conflicts: this.#conflicts[row] ?? [],
      forecast: this.#forecast[row] ?? [],
      seasons: this.#windows[row],
      isChecked: (settings[row]?.notChecked.length ?? 1) === 0,
      standard: this.#standard,
      options,
      nextEnd: this.#nextEnd(this.#windows[row], date),
    };
  }

  #nextEnd(seasons: SeasonWindows, date: IsoDate): IsoDate | null {
    if (this.#nextFrom !== date) this.#nextEnds.clear();
    this.#nextFrom = date;
    let end = this.#nextEnds.get(seasons);
    if (end === undefined) {
      end = endOfNextWindow(seasons, date);
      this.#nextEnds.set(seasons, end);
    }
    return end;
  }
}

/** The trees of a plan on one date; each is reckoned when it is first asked for. */
export class TreesOnDate {
  readonly #trees: TreeOnDate[] = [];
  readonly #crowns: Crown[] = [];

  constructor(
    readonly outlook: Outlook,
    readonly date: IsoDate,
    readonly world: World,
  ) {}

  /** The tree of a row. Throws as {@link Outlook.treeOn}. */
  treeOn(row: number): TreeOnDate {
    this.#trees[row] ??= this.outlook.treeOn(row, this.date, this.world);
    return this.#trees[row];
  }

  /** The crown of the tree of a row. Throws as {@link Outlook.treeOn}. */
  crownOn(row: number): Crown {
    this.#crowns[row] ??= this.outlook.crownOf(row, this.treeOn(row), this.date);
    return this.#crowns[row];
  }
}

function byRow<T extends { readonly treeRow: number }>(all: readonly T[]): T[][] {
  const rows: T[][] = [];
  for (const one of all) {
    const own = rows[one.treeRow];
    if (own === undefined) rows[one.treeRow] = [one];
    else own.push(one);
  }
  return rows;
}
