import type { ColumnMap } from "./model/column-map.ts";
import type { SourceFeature } from "./model/feature.ts";
import type { InputFile, Plan, PlanOptions, SetAside } from "./model/plan.ts";
import { LAYERS, type Layer } from "./model/terms.ts";
import type { ArboristWord } from "./model/word.ts";
import { wordsInForce } from "./model/words-in-force.ts";
import { planPart } from "./plan-part.ts";
import { layGround } from "./run-ground.ts";
import type { Standard } from "./standard/standard.ts";
import type { IsoDate } from "./units/calendar.ts";
import { type CostOfWaiting, costOfWaiting } from "./waiting.ts";
import { treesAsSaid } from "./words-on-plan.ts";

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
  /** What arborists said of the trees, under their ids; absent where nothing was said. */
  readonly words?: readonly ArboristWord[];
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

/**
 * The whole story: read, measure, prescribe, date. Zones are added to the plan by `buildZones`. A large city is told in parts of the same pieces
 * ({@link layGround}, `findHiders`, {@link planPart}).
 */
export function runPipeline(input: PipelineInput): PipelineResult {
  const { standard, options } = input;
  const progress = input.onProgress ?? (() => {});

  const { inventory, surroundings, setAside, findings } = layGround({ ...input, onProgress: progress });
  const words = wordsInForce(input.words ?? []);
  const trees = treesAsSaid(inventory.trees, words, options);

  progress(0.3, "Measuring conflicts, prescribing and dating the work");
  const ground = { surroundings, standard, options, firstSeen: input.firstSeen, words };
  const part = planPart(trees, ground, null);

  const waiting =
    input.withWaiting === true
      ? costOfWaiting(trees, part.prescriptions, surroundings, standard, options, input.firstSeen)
      : null;

  progress(1, "Done");
  return {
    setAside,
    waiting,
    plan: {
      planId: input.planId,
      revision: input.revision,
      options,
      standardId: standard.id,
      inputs: countUsed(input.inputs, setAside),
      trees,
      surroundings: surroundings.features,
      sight: part.sight,
      conflicts: part.conflicts,
      prescriptions: part.prescriptions,
      settings: part.settings,
      zones: [],
      findings: [...findings, ...part.findings],
      notChecked: part.notChecked,
    },
  };
}

/** The inputs with what the stages set aside counted as well. */
export function countUsed(inputs: readonly InputFile[], setAside: readonly SetAside[]): InputFile[] {
  return LAYERS.flatMap((layer) =>
    inputs
      .filter((input) => input.layer === layer)
      .map((input) => {
        const more = setAside.filter((one) => one.layer === layer && one.finding.file === input.file).length;
        return { ...input, used: input.used - more, setAside: input.setAside + more };
      }),
  );
}
