import type { ColumnMap } from "../../core/model/column-map.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import { firstLook, guessLayer, type LayerGuess } from "./guess-layer.ts";
import { planInZip } from "./plan-in-zip.ts";

/** One file on the table, with the layer it is taken for. */
export interface IntakeFile {
  readonly name: string;
  readonly blob: Blob;
  readonly layer: Layer | null;
  readonly because: LayerGuess["because"];
  readonly filter: string;
}

/** Everything that was dropped, sorted into what it is for. */
export interface Intake {
  readonly files: readonly IntakeFile[];
  readonly columns: ColumnMap;
  readonly columnsName: string | null;
  readonly standardJson: unknown;
  readonly standardName: string | null;
  /** What could not be taken, one sentence each. */
  readonly refused: readonly string[];
  /** The files of a finished plan, by name, when a plan was dropped instead of layers. */
  readonly plan: ReadonlyMap<string, Blob> | null;
}

/** Endings of the files that can be layers; what is inside is told by the reader from the bytes, not from the ending. */
export const LAYER_ENDINGS = [
  ".geojson",
  ".json",
  ".geojsonl",
  ".geojsons",
  ".ndjson",
  ".jsonl",
  ".csv",
  ".tsv",
  ".tab",
  ".psv",
  ".zip",
  ".gz",
  ".gpkg",
  ".fgb",
  ".parquet",
  ".geoparquet",
] as const;

/** Bytes of a file's beginning that are looked at to guess its layer. */
const LOOK_BYTES = 131_072;

/** Sorts files: layers with a guess each, a column map, a standard, or a finished plan. */
export async function takeIn(given: readonly { readonly name: string; readonly blob: Blob }[]): Promise<Intake> {
  const byName = new Map(given.map(({ name, blob }) => [name, blob]));
  const intake: { -readonly [K in keyof Intake]: Intake[K] } = {
    files: [],
    columns: {},
    columnsName: null,
    standardJson: null,
    standardName: null,
    refused: [],
    plan: byName.has("plan.json") && byName.has("prescriptions.jsonl") ? byName : null,
  };
  if (intake.plan !== null) return intake;
  const files: IntakeFile[] = [];
  const refused: string[] = [];
  for (const { name, blob } of given) {
    const lower = name.toLowerCase();
    if (lower.endsWith("columns.json") || lower.endsWith("standard.json")) {
      const value = await jsonObject(blob);
      if (value === null) refused.push(`${name} is not a JSON object and was left out.`);
      else if (lower.endsWith("columns.json")) [intake.columns, intake.columnsName] = [value as ColumnMap, name];
      else [intake.standardJson, intake.standardName] = [value, name];
      continue;
    }
    if (!LAYER_ENDINGS.some((ending) => lower.endsWith(ending))) {
      refused.push(
        `${name} was left out: layers can be GeoJSON, CSV, a zipped Shapefile, GeoPackage, FlatGeobuf or GeoParquet.`,
      );
      continue;
    }
    if (lower.endsWith(".zip")) {
      try {
        intake.plan = await planInZip(blob);
        if (intake.plan !== null) return intake;
      } catch (error) {
        refused.push(`${name} was left out. ${error instanceof Error ? error.message : String(error)}`);
        continue;
      }
    }
    const look = firstLook(await blob.slice(0, LOOK_BYTES).text());
    files.push({ name, blob, filter: "", ...guessLayer(name, look) });
  }
  const order = (file: IntakeFile) => (file.layer === null ? LAYERS.length : LAYERS.indexOf(file.layer));
  return { ...intake, files: files.sort((one, other) => order(one) - order(other)), refused };
}

async function jsonObject(blob: Blob): Promise<object | null> {
  try {
    const value: unknown = JSON.parse(await blob.text());
    return typeof value === "object" && value !== null && !Array.isArray(value) ? value : null;
  } catch {
    return null;
  }
}
