import { parseColumnMap } from "../../core/inventory/column-map-schema.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import { planInZip } from "../../formats/plan/plan-in-zip.ts";
import { firstLook, guessLayer, type LayerGuess } from "./guess-layer.ts";
import { inLayerOrder } from "./intake-draft.ts";

/** One file on the table, or one table of it, with the layer it is taken for. */
export interface IntakeFile {
  /** Tells the files of an intake apart. */
  readonly key: string;
  readonly name: string;
  readonly blob: Blob;
  readonly layer: Layer | null;
  readonly because: LayerGuess["because"];
  readonly filter: string;
  /** Null for a file that is one layer. */
  readonly table: string | null;
  /** `EPSG:n` as the person wrote it; empty takes what the file says. */
  readonly crs: string;
  /** Whether it was looked into for several tables. */
  readonly isOpened: boolean;
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
    const paper = lower.endsWith(".json") ? await paperIn(lower, blob) : null;
    if (paper !== null) {
      const { kind, value } = paper;
      if (value === null) refused.push(`${name} is not a JSON object and was left out.`);
      else if (kind === "columns") {
        const parsed = parseColumnMap(value);
        if ("columns" in parsed) [intake.columns, intake.columnsName] = [parsed.columns, name];
        else refused.push(`${name} was left out. ${parsed.faults.slice(0, 3).join(". ")}.`);
      } else [intake.standardJson, intake.standardName] = [value, name];
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
    files.push({
      key: name,
      name,
      blob,
      filter: "",
      table: null,
      crs: "",
      isOpened: false,
      ...guessLayer(name, look),
    });
  }
  return { ...intake, files: inLayerOrder(files), refused };
}

/** Most bytes of a column map or a standard; a larger file is a layer. Our policy. */
const MOST_PAPER_BYTES = 1_000_000;

/** A column map or a standard, known by its name or, since browsers rename what they save, by its members; null for what is a layer. */
async function paperIn(
  lower: string,
  blob: Blob,
): Promise<{ kind: "columns" | "standard"; value: object | null } | null> {
  const named = lower.endsWith("columns.json") ? "columns" : lower.endsWith("standard.json") ? "standard" : null;
  if (blob.size > MOST_PAPER_BYTES) return null;
  const value = await jsonObject(blob);
  if (named !== null) return { kind: named, value };
  if (value === null || Object.hasOwn(value, "type")) return null;
  const members = Object.keys(value);
  if (members.length > 0 && members.every((member) => (LAYERS as readonly string[]).includes(member))) {
    return { kind: "columns", value };
  }
  return members.includes("rules") || members.includes("extends") ? { kind: "standard", value } : null;
}

async function jsonObject(blob: Blob): Promise<object | null> {
  try {
    const value: unknown = JSON.parse(await blob.text());
    return typeof value === "object" && value !== null && !Array.isArray(value) ? value : null;
  } catch {
    return null;
  }
}
