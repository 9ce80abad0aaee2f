import type { Point } from "geojson";
import { findConflicts } from "./conflict/find-conflicts.ts";
import { readTrees } from "./inventory/read-trees.ts";
import type { ColumnMap } from "./model/column-map.ts";
import type { SourceFeature } from "./model/feature.ts";
import type { InputFile, Plan, PlanOptions, SetAside } from "./model/plan.ts";
import { LAYERS, type Layer } from "./model/terms.ts";
import { treeTable } from "./model/tree-table.ts";
import { prescribe } from "./prescription/prescribe.ts";
import { schedule } from "./schedule/schedule.ts";
import type { Standard } from "./standard/standard.ts";
import { buildSurroundings } from "./surroundings/build-surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { type CostOfWaiting, costOfWaiting } from "./waiting.ts";

/** Everything a run needs. Features passed the reader's checks; a layer that was not given is absent. */
export interface PipelineInput {
  readonly planId: string;
  /** Number of the revision being made, from 1. */
  readonly revision: number;
  readonly layers: { readonly [L in Layer]?: readonly SourceFeature[] };
  readonly inputs: readonly InputFile[];
  readonly columns: ColumnMap;
  readonly standard: Standard;
  readonly options: PlanOptions;
  /** When each conflict was first seen, by conflict id, from earlier revisions. */
  readonly firstSeen: ReadonlyMap<string, IsoDate>;
  /** Whether to compute what slipping the plan by a cycle costs. */
  readonly withWaiting?: boolean;
  /** Called with the share done, 0 to 1, and what is being done. */
  readonly onProgress?: (share: number, doing: string) => void;
}

export interface PipelineResult {
  readonly plan: Plan;
  /** Features the stages could not use, beside those the reader set aside. */
  readonly setAside: readonly SetAside[];
  /** Null when it was not asked for. */
  readonly waiting: CostOfWaiting | null;
}

/** The whole story: read, measure, prescribe, date. Zones are added to the plan by `buildZones`. */
export function runPipeline(input: PipelineInput): PipelineResult {
  const { standard, options, columns } = input;
  const progress = input.onProgress ?? (() => {});

  progress(0, "Reading the trees");
  const inventory = readTrees(
    (input.layers.trees ?? []) as readonly SourceFeature<Point>[],
    columns,
    standard,
    options,
  );

  progress(0.15, "Placing what stands around them");
  const around = buildSurroundings(input.layers, columns, standard, options);

  progress(0.3, "Measuring conflicts");
  const table = treeTable(inventory.trees);
  const measured = findConflicts(table, around.surroundings, standard, options, input.firstSeen);

  progress(0.7, "Prescribing and dating the work");
  const drafts = prescribe(inventory.trees, measured.conflicts, measured.settings, standard, options);
  const prescriptions = schedule(inventory.trees, drafts, measured.conflicts, measured.settings, standard, options);

  const waiting =
    input.withWaiting === true
      ? costOfWaiting(inventory.trees, prescriptions, around.surroundings, standard, options, input.firstSeen)
      : null;

  progress(1, "Done");
  const setAside = [...inventory.setAside, ...around.setAside];
  return {
    setAside,
    waiting,
    plan: {
      planId: input.planId,
      revision: input.revision,
      options,
      standardId: standard.id,
      inputs: countUsed(input.inputs, setAside),
      trees: inventory.trees,
      surroundings: around.surroundings.features,
      sight: measured.sight,
      conflicts: measured.conflicts,
      prescriptions,
      settings: measured.settings,
      zones: [],
      findings: [...inventory.findings, ...around.findings, ...measured.findings],
      notChecked: measured.notChecked,
    },
  };
}

function countUsed(inputs: readonly InputFile[], setAside: readonly SetAside[]): InputFile[] {
  return LAYERS.flatMap((layer) =>
    inputs
      .filter((input) => input.layer === layer)
      .map((input) => {
        const more = setAside.filter((one) => one.layer === layer && one.finding.file === input.file).length;
        return { ...input, used: input.used - more, setAside: input.setAside + more };
      }),
  );
}
