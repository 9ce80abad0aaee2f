import type { Point } from "geojson";
import { carryPlan } from "../../core/carry-plan.ts";
import { type ExchangeInput, fixedOptions, type PlanInputs } from "../../core/exchange-input.ts";
import { explainChanges } from "../../core/explain-changes.ts";
import { readTrees } from "../../core/inventory/read-trees.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { SourceFeature } from "../../core/model/feature.ts";
import type { InputFile, Plan, PlanOptions } from "../../core/model/plan.ts";
import type { Layer } from "../../core/model/terms.ts";
import type { Tree } from "../../core/model/trees.ts";
import type { ArboristWord } from "../../core/model/word.ts";
import { agedTree, isMeasuredAnew } from "../../core/plan/carry/aged-tree.ts";
import { earlierConflicts } from "../../core/plan/carry/carried-first-seen.ts";
import { changeFeatures, changeTable } from "../../core/plan/carry/change-table.ts";
import { changeTotals } from "../../core/plan/carry/change-totals.ts";
import { matchTrees } from "../../core/plan/carry/match-trees.ts";
import { renamedWords } from "../../core/plan/carry/renamed-words.ts";
import type { TreeMatches } from "../../core/plan/carry/tree-match.ts";
import { presentName, treeNames } from "../../core/plan/carry/tree-names.ts";
import { recordText } from "../../core/plan/record/record-lines.ts";
import { treeBeforeWords } from "../../core/plan/word/tree-as-measured.ts";
import type { ResolvedStandard } from "../../core/standard/resolve-standard.ts";
import type { Surroundings } from "../../core/surroundings/surroundings.ts";
import type { IsoDate } from "../../core/units/calendar.ts";
import { writeCsv } from "../csv.ts";
import { addedFile } from "../plan/added-file.ts";
import type { EarlierPlan } from "./earlier-plan.ts";
import { openInputs } from "./open-inputs.ts";

/** A run as far as it is read, before the first tree is measured. */
export interface RunToCarry {
  readonly trees: readonly Tree[];
  readonly inputs: readonly InputFile[];
  readonly columns: ColumnMap;
  readonly layers: { readonly [L in Layer]?: readonly SourceFeature[] };
  readonly options: PlanOptions;
  readonly rules: ResolvedStandard;
  /** With its features. */
  readonly surroundings: Surroundings;
}

/** An earlier plan beside a run that carries it on. */
export interface Carrying {
  /** The plan stays the same plan. */
  readonly planId: string;
  /** The run's trees; those that nobody measured anew have grown since. */
  readonly trees: readonly Tree[];
  /** What arborists said, under the new ids. */
  readonly words: readonly ArboristWord[];
  /** Since when conflicts are known, under the ids that they have in the run. */
  readonly firstSeen: ReadonlyMap<string, IsoDate>;
  /** The plan that the run made, carried on, and the files that only such a plan has. */
  readonly carry: (plan: Plan) => { plan: Plan; files: ReadonlyMap<string, Uint8Array> };
}

/** Opens an earlier plan and matches its trees with those of a run. Throws `RefusedInput` when its files cannot be used. */
export async function startCarrying(earlier: EarlierPlan, run: RunToCarry): Promise<Carrying> {
  const latest = await openInputs(earlier.files);
  const since = earlier.since === undefined ? latest : await openInputs(earlier.since);
  // Only a revision of the very same trees tells what changed tree by tree.
  const before = haveSameTrees(since.plan.trees, latest.plan.trees) ? since : latest;
  const old = latest.plan.trees;
  const files = new Set([...latest.plan.inputs, ...run.inputs].map(({ file }) => file));
  const isNoId = (id: string): boolean => files.has(id.slice(0, Math.max(0, id.lastIndexOf("#"))));
  const matches = matchTrees(old, run.trees, before.plan.options.asOf, isNoId);
  const names = treeNames(matches, old, run.trees, latest.plan.revision);
  const rename = presentName(names, latest.plan.revision);
  const stays = new Set([...matches.oldRowOf.values()].map((row) => old[row]!.id));
  const known = earlierConflicts(latest.plan.conflicts, (id) => (stays.has(id) ? rename(id) : null));
  const bases = new Map(
    latest.record.bases.flatMap((one) => (one.replacedIn == null ? [[one.tree.id, one.tree]] : [])),
  );
  const words = renamedWords(latest.words, names);
  const { droopMPerYear } = run.rules.standard.pruning;
  const trees = run.trees.map((tree, row) => {
    const oldRow = matches.oldRowOf.get(row);
    const was = oldRow === undefined ? undefined : treeBeforeWords(bases.get(old[oldRow]!.id) ?? old[oldRow]!);
    return was === undefined || isMeasuredAnew(was, tree)
      ? tree
      : agedTree(tree, was.inventoried?.asOf ?? latest.plan.options.asOf, run.options.asOf, droopMPerYear);
  });
  return {
    planId: latest.plan.planId,
    trees,
    words,
    firstSeen: new Map([...known].map(([id, { firstSeen }]) => [id, firstSeen])),
    carry: (plan) => carried(plan, run, { before, latest, matches, words }, earlier.measuredOn ?? run.options.asOf),
  };
}

/** Earlier revisions beside a run. */
interface Beside {
  readonly before: PlanInputs;
  readonly latest: PlanInputs;
  readonly matches: TreeMatches;
  readonly words: readonly ArboristWord[];
}

function carried(
  plan: Plan,
  run: RunToCarry,
  { before, latest, matches, words }: Beside,
  measuredOn: IsoDate,
): { plan: Plan; files: Map<string, Uint8Array> } {
  const { rules, columns, layers, surroundings } = run;
  const { standard } = rules;
  const next = carryPlan({
    plan,
    previous: latest.plan,
    record: latest.record,
    words,
    matches,
    surroundings,
    standard,
    measuredOn,
  });
  const input: ExchangeInput = {
    before,
    latest,
    now: {
      plan: next.plan,
      record: next.record,
      words,
      standard,
      standardJson: rules.json,
      columns,
      layers: around(layers),
    },
    matches,
    treesByOldRules: treesByOldRules(before, run),
  };
  const changes = explainChanges(input);
  const totals = changeTotals(matches, changes, {
    previousRevision: latest.plan.revision,
    sinceRevision: before.plan.revision,
    sinceAsOf: before.plan.options.asOf,
    inRevision: plan.revision,
  });
  const table = changeTable(changes);
  const files = new Map<string, Uint8Array>([
    ["changes.csv", bytes(writeCsv(table.header, table.rows))],
    ["changes.geojson", bytes(collectionText(changeFeatures(changes)))],
  ]);
  const isRecorded = next.record.reports.length > 0 || (next.record.names ?? []).length > 0;
  if (isRecorded) files.set("record.jsonl", bytes(recordText(next.record)));
  if (next.record.additions.length > 0) files.set("added.geojson", addedFile(next.record));
  return { plan: { ...next.plan, changes: totals }, files };
}

/** The new inventory with sizes completed as the earlier plan's rules and place say; null where these are the same. */
function treesByOldRules(before: PlanInputs, { rules, options, layers, columns }: RunToCarry): readonly Tree[] | null {
  const old = before.plan.options;
  const isSame =
    JSON.stringify([before.standardJson, fixedOptions(old)]) === JSON.stringify([rules.json, fixedOptions(options)]);
  if (isSame) return null;
  const trees = (layers.trees ?? []) as readonly SourceFeature<Point>[];
  return readTrees(trees, columns, before.standard, { ...options, ...fixedOptions(old) }).trees;
}

const around = ({ trees: _, ...others }: RunToCarry["layers"]): RunToCarry["layers"] => others;

const haveSameTrees = (one: readonly Tree[], other: readonly Tree[]): boolean =>
  one.length === other.length && one.every(({ id }, row) => id === other[row]!.id);

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** One feature a line, so that a person and a diff can read it. */
const collectionText = ({ features }: ReturnType<typeof changeFeatures>): string =>
  `{"type":"FeatureCollection","features":[\n${features.map((one) => JSON.stringify(one)).join(",\n")}\n]}\n`;
