import { guessColumnMap } from "../../core/inventory/guess-columns.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { SourceFeature } from "../../core/model/feature.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { InputFile } from "../../core/model/plan.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import { coordinateSystem } from "../crs/coordinate-system.ts";
import { type Filter, parseFilter } from "../filter.ts";
import type { GeoJsonRead } from "../geojson/geojson-read.ts";
import { readLayerFile } from "../read/read-layer-file.ts";
import type { ReadingAllowance } from "../read/reading-allowance.ts";
import { sha256 } from "../sha256.ts";
import type { LayerFile, PlanRequest } from "./plan-request.ts";
import { RefusedInput } from "./refused-input.ts";

/** An input file with what was read of it. */
export interface ReadFile {
  readonly file: LayerFile;
  readonly read: GeoJsonRead;
}

/** Every file read in the order of the layers; a file that cannot be read at all refuses the run. */
export async function readAll(request: PlanRequest, { newTime, maxFeatures }: ReadingAllowance): Promise<ReadFile[]> {
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
export function columnsOf(reads: readonly ReadFile[], given: ColumnMap): { map: ColumnMap; findings: Finding[] } {
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

/** What a plan says of an input file. */
export async function inputFile({ file, read }: ReadFile): Promise<InputFile> {
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

/** The features that can be used, by layer; a layer that was not given is absent. */
export function layersOf(reads: readonly Pick<ReadFile, "read">[]): { [L in Layer]?: SourceFeature[] } {
  const layers: { [L in Layer]?: SourceFeature[] } = {};
  for (const { read } of reads) {
    const list = layers[read.layer] ?? [];
    layers[read.layer] = list;
    for (const feature of read.features) list.push(feature);
  }
  return layers;
}
