import type { ColumnMap } from "./model/column-map.ts";
import type { SourceFeature } from "./model/feature.ts";
import type { Plan, PlanOptions } from "./model/plan.ts";
import type { Layer } from "./model/terms.ts";
import type { Tree } from "./model/trees.ts";
import type { ArboristWord } from "./model/word.ts";
import type { TreeMatches } from "./plan/carry/tree-match.ts";
import type { WorkRecord } from "./plan/record/work-record.ts";
import type { Standard } from "./standard/standard.ts";

/** A plan with all that it was made of, so that a tree can be planned by its inputs again. */
export interface PlanInputs {
  readonly plan: Plan;
  readonly record: WorkRecord;
  readonly words: readonly ArboristWord[];
  readonly standard: Standard;
  /** The standard as JSON, whole. */
  readonly standardJson: unknown;
  readonly columns: ColumnMap;
  /** Features of the layers around the trees. */
  readonly layers: { readonly [L in Layer]?: readonly SourceFeature[] };
}

/** Two revisions of a plan, and what happened between them. */
export interface ExchangeInput {
  readonly before: PlanInputs;
  /** The newest revision that has the trees of `before`: with the work recorded since. */
  readonly latest: { readonly plan: Plan; readonly record: WorkRecord; readonly words: readonly ArboristWord[] };
  readonly now: PlanInputs;
  /** The trees of `before` and `latest` beside those of `now`. */
  readonly matches: TreeMatches;
  /** The new inventory as the old standard and place complete its sizes, by row; null where these are the same. */
  readonly treesByOldRules: readonly Tree[] | null;
}

/** What stands around, as a text: the same text is the same layers, read by the same columns. */
export const aroundText = ({ layers, columns }: PlanInputs): string =>
  JSON.stringify([
    Object.entries(layers)
      .filter(([layer]) => layer !== "trees")
      .map(([layer, features]) => [layer, features.map(({ id, properties, geometry }) => [id, properties, geometry])])
      .sort(([a], [b]) => (a! < b! ? -1 : 1)),
    { ...columns, trees: null },
  ]);

/** The rules, as a text: the standard, and options that decide the result. */
export const rulesText = ({ standardJson, plan }: PlanInputs): string =>
  JSON.stringify([standardJson, fixedOptions(plan.options)]);

/** Options that decide the result and are neither the date nor how things are told or zoned. */
export const fixedOptions = ({ drive, place }: PlanOptions): Pick<PlanOptions, "drive" | "place"> => ({
  drive,
  place: { ...place, climate: place.climate ?? null },
});
