import { kindsNotChecked } from "../../core/conflict/kinds-not-checked.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { SetAside } from "../../core/model/plan.ts";
import type { SurroundingFeature } from "../../core/model/surroundings.ts";
import { LAYERS } from "../../core/model/terms.ts";
import type { Tree } from "../../core/model/trees.ts";
import { countUsed } from "../../core/pipeline.ts";
import { surroundingFeatures } from "../../core/plan/plan-features.ts";
import type { ManifestFacts } from "../../core/plan/plan-manifest.ts";
import type { PartGround } from "../../core/plan-part.ts";
import { layGround } from "../../core/run-ground.ts";
import type { ResolvedStandard } from "../../core/standard/resolve-standard.ts";
import type { Carrying } from "../carry/start-carrying.ts";
import { crossLayerFindings } from "../check/cross-layer.ts";
import type { GeoJsonRead } from "../geojson/geojson-read.ts";
import { namedRead } from "../geojson/named-read.ts";
import type { ReadingAllowance } from "../read/reading-allowance.ts";
import { layerFiles } from "./layer-files.ts";
import { collectionText, encoded } from "./plan-files.ts";
import { planIdOf } from "./plan-id.ts";
import { columnsOf, inputFile, layersOf, type ReadFile, readAll } from "./plan-inputs.ts";
import type { PlanRequest, Progress } from "./plan-request.ts";
import type { PlanSink } from "./plan-sink.ts";

/** A run after its files were read: what is known before the first tree is measured. */
export interface ReadRun {
  readonly facts: ManifestFacts;
  readonly columns: ColumnMap;
  readonly trees: readonly Tree[];
  readonly ground: PartGround;
  /** What stands around the trees, as a plan keeps it; in a run whose plan is not held, the lines with wires alone. */
  readonly around: readonly SurroundingFeature[];
  readonly aroundCount: number;
  /** Findings up to here, in the order in which a plan tells them; those of the measuring come behind. */
  readonly findings: readonly Finding[];
  readonly setAside: readonly SetAside[];
  /** All files: bytes and ranges; features only where the plan is held or their geometry is written anew. */
  readonly reads: readonly GeoJsonRead[];
  /** The earlier plan that the run carries on; absent where it makes one by itself. */
  readonly carrying?: Carrying;
}

/**
 * Reads the files of a request, trees and what stands around them, and writes what is known of the layers to the sink. Of the features only what later
 * steps need is kept. Throws RefusedInput for what cannot be used.
 */
export async function readRun(
  request: PlanRequest,
  rules: ResolvedStandard,
  sink: PlanSink,
  onProgress: Progress,
  allowance: ReadingAllowance,
  isWhole: boolean,
): Promise<ReadRun> {
  onProgress(0, "Reading the files");
  const reads = await readAll(request, allowance);
  const columns = columnsOf(reads, request.columns);
  const inputs = await Promise.all(reads.map(inputFile));
  const planId = await planIdOf(request, inputs, rules.json);

  const layers = layersOf(reads);
  for (const [name, bytes] of layerFiles(layers)) sink.write(name, bytes);
  const { standard } = rules;
  const { options, revision } = request;
  const { inventory, surroundings, setAside, findings } = layGround({
    ...{ layers, columns: columns.map, standard, options },
    onProgress: (share, doing) => onProgress(0.1 + share * 0.7, doing),
  });
  const named = namedReads(reads, columns.map, inventory.trees);
  const everySetAside = inFileOrder([...named.flatMap((read) => read.setAside), ...setAside]);
  const around = surroundings.features;
  for (const bytes of encoded(collectionText(around, surroundingFeatures))) sink.write("surroundings.geojson", bytes);
  return {
    facts: {
      planId,
      revision,
      options,
      standardId: standard.id,
      inputs: countUsed(inputs, setAside),
      notChecked: kindsNotChecked(surroundings, standard),
    },
    columns: columns.map,
    trees: inventory.trees,
    ground: { surroundings: { ...surroundings, features: [] }, standard, options, firstSeen: new Map() },
    around: isWhole ? around : around.filter(({ wire }) => wire !== undefined),
    aroundCount: around.length,
    findings: [
      ...named.flatMap((read) => read.findings),
      ...crossLayerFindings(reads.map(({ read }) => read)),
      ...columns.findings,
      ...rules.findings,
      ...everySetAside.map((one) => one.finding),
      ...findings,
    ],
    setAside: everySetAside,
    reads: reads.map(({ read }) => (isWhole || read.reprojectedFrom !== null ? read : { ...read, features: [] })),
  };
}

/** The files with their findings named as the plan names features. */
function namedReads(reads: readonly ReadFile[], columns: ColumnMap, trees: readonly Tree[]): GeoJsonRead[] {
  const isAny = reads.some(({ read }) => read.findings.some(({ feature }) => feature !== null));
  const idOfTree = new Map(isAny ? trees.map(({ ordinal, id }) => [ordinal, id] as const) : []);
  return reads.map(({ read }) => namedRead(read, columns, idOfTree));
}

const inFileOrder = (all: readonly SetAside[]): SetAside[] =>
  [...all].sort((a, b) => LAYERS.indexOf(a.layer) - LAYERS.indexOf(b.layer) || a.ordinal - b.ordinal);
