import { guessColumnMap } from "../../core/inventory/guess-columns.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { SourceFeature } from "../../core/model/feature.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { InputFile, Plan, SetAside } from "../../core/model/plan.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import { runPipeline } from "../../core/pipeline.ts";
import { usCommonSource } from "../../core/standard/parse-standard.ts";
import { type ResolvedStandard, resolveStandard } from "../../core/standard/resolve-standard.ts";
import { buildZones } from "../../core/zone/build-zones.ts";
import { crossLayerFindings } from "../check/cross-layer.ts";
import { coordinateSystem } from "../crs/coordinate-system.ts";
import { type Filter, parseFilter } from "../filter.ts";
import type { GeoJsonRead } from "../geojson/geojson-read.ts";
import { namedRead } from "../geojson/named-read.ts";
import { setAsideCollection } from "../geojson/set-aside-collection.ts";
import { joinBytes } from "../join-bytes.ts";
import { readLayerFile } from "../read/read-layer-file.ts";
import { type ReadingAllowance, UNBOUNDED } from "../read/reading-allowance.ts";
import { sha256 } from "../sha256.ts";
import { layerFiles } from "./layer-files.ts";
import { planFiles } from "./plan-files.ts";
import { planIdOf } from "./plan-id.ts";
import type { LayerFile, PlanOutput, PlanRequest, Progress } from "./plan-request.ts";
import { RefusedInput } from "./refused-input.ts";
import { treesFile } from "./trees-file.ts";
import { waitingFile } from "./waiting-file.ts";

/**
 * A whole run from the bytes of the layers to the files of a revision. The same code serves the command line and the browser's worker.
 * Throws {@link RefusedInput} with plain sentences when a file, the standard or a filter cannot be used, or is past `allowance`; nothing is written here.
 */
export async function makePlan(
  request: PlanRequest,
  onProgress: Progress,
  allowance: ReadingAllowance = UNBOUNDED,
): Promise<PlanOutput> {
  const { standard, json: standardJson, findings: ofStandard } = standardOf(request.standardJson ?? usCommonSource);
  onProgress(0, "Reading the files");
  const reads = await readAll(request, allowance);
  const columns = columnsOf(reads, request.columns);
  const inputs = await Promise.all(reads.map(({ file, read }) => inputFile(file, read)));
  const planId = await planIdOf(request, inputs, standardJson);

  const { plan, setAside, waiting } = runPipeline({
    planId,
    revision: request.revision,
    layers: layersOf(reads),
    inputs,
    columns: columns.map,
    standard,
    options: request.options,
    firstSeen: new Map(),
    withWaiting: request.withWaiting ?? false,
    onProgress: (share, doing) => onProgress(0.1 + share * 0.7, doing),
  });

  const idOfTree = new Map(plan.trees.map(({ ordinal, id }) => [ordinal, id]));
  const named = reads.map(({ read }) => namedRead(read, columns.map, idOfTree));
  const everySetAside = inFileOrder([...named.flatMap((read) => read.setAside), ...setAside]);
  const findings = [
    ...named.flatMap((read) => read.findings),
    ...crossLayerFindings(reads.map(({ read }) => read)),
    ...columns.findings,
    ...ofStandard,
    ...everySetAside.map((one) => one.finding),
    ...plan.findings,
  ];
  const told: Plan = { ...plan, findings };
  onProgress(0.82, request.withZones ? "Grouping the visits into work zones" : "Writing the plan");
  const whole: Plan = request.withZones ? { ...told, zones: buildZones(told, standard) } : told;

  onProgress(0.92, "Writing the plan");
  const files = planFiles(whole, columns.map, standard, standardJson);
  if (waiting !== null) files.set("waiting.json", waitingFile(waiting));
  for (const [name, bytes] of layerFiles(layersOf(reads))) files.set(name, bytes);
  files.set("trees.geojson", joinBytes(treesFile(treeReads(reads), whole)));
  files.set(
    "set-aside.geojson",
    joinBytes(
      setAsideCollection(
        reads.map(({ read }) => read),
        everySetAside,
      ),
    ),
  );
  onProgress(1, "Done");
  return { planId, revision: whole.revision, files, findings };
}

interface ReadFile {
  readonly file: LayerFile;
  readonly read: GeoJsonRead;
}

function standardOf(json: unknown): ResolvedStandard {
  const resolved = resolveStandard(json);
  if ("faults" in resolved) throw new RefusedInput(["The standard cannot be used.", ...resolved.faults]);
  return resolved;
}

/** Every file read in the order of the layers; a file that cannot be read at all refuses the run. */
async function readAll(request: PlanRequest, { newTime, maxFeatures }: ReadingAllowance): Promise<ReadFile[]> {
  await checkCrs(request.crs);
  const reads: ReadFile[] = [];
  let features = 0;
  for (const layer of LAYERS) {
    let firstOrdinal = 0;
    for (const file of request.files.filter((one) => one.layer === layer)) {
      const filter = filterOf(file);
      const read = await readLayerFile(file.bytes, {
        layer,
        file: file.name,
        filter,
        firstOrdinal,
        crs: file.crs ?? request.crs,
        table: file.table ?? null,
        time: newTime(),
        maxFeatures: maxFeatures - features,
      });
      if (read.fault !== null) throw new RefusedInput([`${file.name}: ${read.fault.reason}`, read.fault.whatToDo]);
      reads.push({ file, read });
      firstOrdinal += read.counts.features;
      features += read.counts.features;
    }
  }
  if (!reads.some(({ read }) => read.layer === "trees")) throw new RefusedInput(["A tree layer is needed."]);
  return reads;
}

/** Refuses an unknown `--crs` once, before any file is read. */
async function checkCrs(crs: string | null): Promise<void> {
  if (crs === null) return;
  try {
    await coordinateSystem(crs);
  } catch (error) {
    throw new RefusedInput([(error as Error).message]);
  }
}

function filterOf(file: LayerFile): Filter | null {
  if (file.filter === null || file.filter.trim() === "") return null;
  try {
    return parseFilter(file.filter);
  } catch (error) {
    throw new RefusedInput([`${file.name}: ${(error as Error).message}`]);
  }
}

/** The user's column map for a layer, or a guess from the layer's own column names where the map says nothing of it. */
function columnsOf(reads: readonly ReadFile[], given: ColumnMap): { map: ColumnMap; findings: Finding[] } {
  const findings: Finding[] = [];
  const map: Partial<Record<Layer, unknown>> = {};
  for (const layer of LAYERS) {
    const features = reads.filter(({ read }) => read.layer === layer).flatMap(({ read }) => read.features);
    if (features.length === 0 && given[layer] === undefined) continue;
    if (given[layer] !== undefined) {
      map[layer] = given[layer];
      continue;
    }
    const guess = guessColumnMap(layer, columnNames(features), features);
    map[layer] = guess.columns[layer] ?? {};
    findings.push(...guess.findings);
  }
  return { map: map as ColumnMap, findings };
}

function columnNames(features: readonly SourceFeature[]): string[] {
  const names = new Set<string>();
  for (const feature of features) for (const name of Object.keys(feature.properties)) names.add(name);
  return [...names];
}

async function inputFile(file: LayerFile, read: GeoJsonRead): Promise<InputFile> {
  return {
    layer: file.layer,
    file: file.name,
    filter: file.filter,
    sha256: await sha256(file.bytes),
    bytes: file.bytes.length,
    features: read.counts.features,
    used: read.counts.used,
    setAside: read.counts.setAside,
  };
}

function layersOf(reads: readonly ReadFile[]): { [L in Layer]?: SourceFeature[] } {
  const layers: { [L in Layer]?: SourceFeature[] } = {};
  for (const { read } of reads) {
    const list = layers[read.layer] ?? [];
    layers[read.layer] = list;
    for (const feature of read.features) list.push(feature);
  }
  return layers;
}

const treeReads = (reads: readonly ReadFile[]): GeoJsonRead[] =>
  reads.filter(({ read }) => read.layer === "trees").map(({ read }) => read);

const inFileOrder = (all: readonly SetAside[]): SetAside[] =>
  [...all].sort((a, b) => LAYERS.indexOf(a.layer) - LAYERS.indexOf(b.layer) || a.ordinal - b.ordinal);
