import type { PlanOptions } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { rulesFor, type SeasonWindows, seasonWindows } from "./season-windows.ts";

/** Years of windows that are laid out: two cycles of five, and room for the last stages. */
const HORIZON_YEARS = 20;

export const isSouthern = (tree: Tree): boolean => tree.latDeg < 0;

/** The season windows of trees; trees bound by the same rules share theirs. */
export class SeasonBook {
  readonly #known = new Map<string, SeasonWindows>();

  constructor(
    readonly standard: Standard,
    readonly options: PlanOptions,
  ) {}

  /** Windows of a tree from a year before the as-of date to twenty years after it. */
  windowsOf(tree: Tree): SeasonWindows {
    const { standard, options } = this;
    const isSouth = isSouthern(tree);
    const rules = rulesFor(tree, standard.seasons, options.place.region);
    const key = `${isSouth ? "south" : "north"} ${rules.map((rule) => rule.id).join(" ")}`;
    let seasons = this.#known.get(key);
    if (seasons === undefined) {
      seasons = seasonWindows(rules, isSouth, options.asOf, HORIZON_YEARS);
      this.#known.set(key, seasons);
    }
    return seasons;
  }
}
