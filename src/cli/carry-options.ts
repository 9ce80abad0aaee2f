import { resolve } from "node:path";
import { parseColumnMap } from "../core/inventory/column-map-schema.ts";
import type { ColumnMap } from "../core/model/column-map.ts";
import type { PlanOptions } from "../core/model/plan.ts";
import { LAYERS, type Layer } from "../core/model/terms.ts";
import type { PlanManifest } from "../core/plan/plan-manifest.ts";
import { type IsoDate, parseIsoDate } from "../core/units/calendar.ts";
import { EARLIER_NAMES, type EarlierPlan } from "../formats/carry/earlier-plan.ts";
import type { LayerFile } from "../formats/plan/plan-request.ts";
import { inputError, usageError } from "./exit-codes.ts";
import { readHistory } from "./folder/history.ts";
import { currentRevision, REVISIONS } from "./folder/read-current.ts";
import { currentSource, folderSource } from "./folder-source.ts";

export const PREVIOUS_HELP =
  "plan folder to carry on: trees are matched, what was recorded is kept, and what changed is told; layers, standard and place that are not given are taken from it";
export const MEASURED_ON_HELP =
  "day on which the new inventory was measured, at the latest; the as-of date when left out";

/** Options of `enrich` that have to do with an earlier plan, as typed. */
export interface CarryOptions {
  readonly previous?: string;
  readonly measuredOn?: string;
  readonly place?: string;
  readonly units?: string;
  readonly drive?: string;
  readonly out: string;
}

/** An earlier plan in its folder, with what a run takes from it where it is given nothing else. */
export interface CarriedFolder {
  readonly earlier: EarlierPlan;
  /** Number of its current revision. */
  readonly revision: number;
  readonly layers: readonly LayerFile[];
  readonly columns: ColumnMap;
  readonly standardJson: unknown;
  readonly options: PlanOptions;
}

/** Whether the new revision goes into the folder of the plan that is carried on. */
export const isSameFolder = ({ previous, out }: CarryOptions): boolean =>
  previous !== undefined && resolve(previous) === resolve(out);

/** Opens the plan named by `--previous`; null without it. Throws CommandError where there is none, or for a date that is none. */
export async function carriedFolder(
  options: CarryOptions,
  asked: PlanOptions,
  given: ReadonlySet<Layer>,
): Promise<CarriedFolder | null> {
  if (options.previous === undefined) {
    if (options.measuredOn !== undefined) throw usageError("--measured-on needs --previous.");
    return null;
  }
  const dir = options.previous;
  const source = await currentSource(dir);
  const files = await filesOf(source.path);
  const manifest = jsonIn(files, "plan.json", dir) as PlanManifest;
  if (asked.asOf < manifest.as_of) {
    throw usageError(
      `--as-of ${asked.asOf} is before the date of the earlier plan, ${manifest.as_of}: nothing is carried back.`,
    );
  }
  const since = await lastMade(dir, manifest.revision);
  const columns = parseColumnMap(jsonIn(files, "columns.json", dir));
  if ("faults" in columns) throw inputError([`columns.json of ${dir} cannot be used.`, ...columns.faults].join("\n"));
  return {
    earlier: { files, measuredOn: dateOf(options.measuredOn), ...(since === null ? {} : { since }) },
    revision: (await currentRevision(dir)) ?? manifest.revision,
    layers: await keptLayers(source, given),
    columns: Object.fromEntries(Object.entries(columns.columns).filter(([layer]) => !given.has(layer as Layer))),
    standardJson: jsonIn(files, "standard.json", dir),
    options: {
      ...asked,
      ...(options.units === undefined ? { units: manifest.units } : {}),
      ...(options.drive === undefined ? { drive: manifest.drive } : {}),
      ...(options.place === undefined
        ? {
            place: {
              hardinessZone: manifest.place.hardiness_zone,
              region: manifest.place.region,
              climate: manifest.place.climate,
            },
          }
        : {}),
    },
  };
}

function dateOf(text: string | undefined): IsoDate | null {
  if (text === undefined) return null;
  const date = parseIsoDate(text);
  if (date === null) throw usageError(`--measured-on takes a date YYYY-MM-DD, got "${text}".`);
  return date;
}

async function filesOf(path: string): Promise<Map<string, Uint8Array>> {
  const source = folderSource(path);
  const files = new Map<string, Uint8Array>();
  for (const name of EARLIER_NAMES) {
    const bytes = await source.read(name);
    if (bytes !== null) files.set(name, bytes);
  }
  return files;
}

/** Files of the last revision that was made from an inventory; null where that is the current one, or is not at hand. */
async function lastMade(dir: string, current: number): Promise<Map<string, Uint8Array> | null> {
  const { lines } = await readHistory(resolve(dir));
  const made = lines.findLast(({ event, revision }) => event === "enrich" && revision <= current);
  if (made === undefined || made.revision === current) return null;
  const files = await filesOf(`${resolve(dir)}/${REVISIONS}/${made.revision}`);
  return files.has("plan.json") && files.has("prescriptions.jsonl") ? files : null;
}

/** The layers that the earlier plan kept and the run is not given; its trees where none are. */
async function keptLayers(
  source: { read(name: string): Promise<Uint8Array | null> },
  given: ReadonlySet<Layer>,
): Promise<LayerFile[]> {
  const layers: LayerFile[] = [];
  for (const layer of LAYERS) {
    const name = layer === "trees" ? "trees.geojson" : `layer-${layer}.geojson`;
    const bytes = given.has(layer) ? null : await source.read(name);
    if (bytes !== null) layers.push({ layer, name, bytes, filter: null, crs: "EPSG:4326" });
  }
  return layers;
}

function jsonIn(files: ReadonlyMap<string, Uint8Array>, name: string, dir: string): unknown {
  const bytes = files.get(name);
  if (bytes === undefined) throw inputError(`${dir} holds no whole plan: ${name} is missing.`);
  return JSON.parse(new TextDecoder().decode(bytes));
}
