import type { Point } from "geojson";
import { guessColumnMap, overlayColumnMap } from "../../core/inventory/guess-columns.ts";
import { readTrees } from "../../core/inventory/read-trees.ts";
import type { ColumnGuess } from "../../core/model/column-guess.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { SourceFeature } from "../../core/model/feature.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { PlanOptions, SetAside } from "../../core/model/plan.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { buildSurroundings } from "../../core/surroundings/build-surroundings.ts";
import { withThousands } from "../../core/units/with-thousands.ts";
import { parseFilter } from "../filter.ts";
import type { FeatureFault } from "../geojson/feature-fault.ts";
import type { GeoJsonRead, Verdict } from "../geojson/geojson-read.ts";
import { namedRead } from "../geojson/named-read.ts";
import { readConverted, readLayerFile } from "../read/read-layer-file.ts";
import { type ReadingAllowance, UNBOUNDED } from "../read/reading-allowance.ts";
import { crossLayerFindings } from "./cross-layer.ts";
import { guessFile } from "./guess-file.ts";
import type { LayerGuess } from "./guess-layer.ts";

/** A file to be checked; its layer is guessed where it is null. */
export interface FileToCheck {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly layer: Layer | null;
  /** As for `parseFilter`; null takes all features. */
  readonly filter: string | null;
  /** The file's coordinate system where it is known better than the option's, for example of a database. */
  readonly crs?: string;
  /** The table of a GeoPackage or the shapefile of a zip to read; where it is left out `tables` says it. */
  readonly table?: string | null;
  /** The same by the layer the file turns out to hold. */
  readonly tables?: ReadonlyMap<Layer, string>;
}

/** How files are to be checked; as for a plan. */
export interface CheckOptions {
  readonly columns: ColumnMap;
  readonly crs: string | null;
  readonly standard: Standard;
  readonly options: PlanOptions;
  /** Time and memory for reading; no limit when left out. */
  readonly allowance?: ReadingAllowance;
}

/** What became of one file. `read = used + setAside`. */
export interface FileCheck {
  readonly file: string;
  /** Null when neither name nor content told what the file holds; nothing of it was checked then. */
  readonly layer: Layer | null;
  /** What the layer was guessed by; null when it was given. */
  readonly guessedBy: LayerGuess["because"];
  readonly verdict: Verdict;
  readonly read: number;
  readonly used: number;
  readonly setAside: number;
  /** The coordinate system the positions were read in; null for a file that was not read. */
  readonly crs: string | null;
  /** The columns guessed for the whole layer, without those the user mapped. */
  readonly columns: readonly ColumnGuess[];
  readonly findings: readonly Finding[];
}

interface Entry {
  readonly toCheck: FileToCheck;
  readonly guess: LayerGuess;
  readonly read: GeoJsonRead | null;
  /** Why not even its layer could be told; null where the file can be read and only its layer is not known. */
  readonly fault: FeatureFault | null;
  /** How many features a file of an unknown layer holds. */
  readonly held: number;
}

/**
 * Files read as a run would read them, with all findings of reading, of the inventory and of laying the layers beside each other. Nothing
 * is measured and nothing written. One result a file, in the order given; findings about a whole layer stand with its first file.
 *
 * Rejects with RangeError for an unknown `crs` and a filter that cannot be read.
 */
export async function checkFiles(files: readonly FileToCheck[], how: CheckOptions): Promise<FileCheck[]> {
  const entries: Entry[] = [];
  const ordinals = new Map<Layer, number>();
  const { newTime, maxFeatures } = how.allowance ?? UNBOUNDED;
  let features = 0;
  for (const toCheck of files) {
    const time = newTime();
    const { guess, file, converted, fault } = await guessFile(toCheck, time);
    if (guess.layer === null) {
      // Which layer it is read for only decides what is set aside, and nothing of that is kept.
      const reading = { layer: "trees", file, crs: toCheck.crs ?? how.crs, time, maxFeatures } as const;
      const tried =
        fault === null ? await readLayerFile(toCheck.bytes, { ...reading, table: toCheck.table ?? null }) : null;
      entries.push({ toCheck, guess, read: null, fault: fault ?? tried!.fault, held: tried?.counts.features ?? 0 });
      continue;
    }
    const firstOrdinal = ordinals.get(guess.layer) ?? 0;
    const table = toCheck.table ?? toCheck.tables?.get(guess.layer) ?? null;
    const filter = toCheck.filter === null ? null : parseFilter(toCheck.filter);
    const { layer } = guess;
    const reading = { layer, file, filter, firstOrdinal, crs: toCheck.crs ?? how.crs, table, time };
    const options = { ...reading, maxFeatures: maxFeatures - features };
    const read = await (converted === null ? readLayerFile(toCheck.bytes, options) : readConverted(converted, options));
    ordinals.set(guess.layer, firstOrdinal + read.counts.features);
    features += read.counts.features;
    entries.push({ toCheck, guess, read, fault: null, held: 0 });
  }
  return report(entries, how);
}

function report(entries: readonly Entry[], how: CheckOptions): FileCheck[] {
  const reads = entries.flatMap(({ read }) => (read === null || read.fault !== null ? [] : [read]));
  const layers: { [L in Layer]?: SourceFeature[] } = {};
  for (const { layer, features } of reads) {
    layers[layer] ??= [];
    for (const feature of features) layers[layer].push(feature);
  }
  const guesses = new Map(
    LAYERS.map((layer) => [layer, guessColumnMap(layer, columnNames(layers[layer] ?? []), layers[layer] ?? [])]),
  );
  const guessed: ColumnMap = Object.fromEntries(LAYERS.flatMap((layer) => Object.entries(guesses.get(layer)!.columns)));
  const columns = overlayColumnMap(how.columns, guessed);
  const trees = readTrees((layers.trees ?? []) as SourceFeature<Point>[], columns, how.standard, how.options);
  const idOfTree = new Map(trees.trees.map(({ ordinal, id }) => [ordinal, id]));
  const around = buildSurroundings(layers, columns, how.standard, how.options);
  const setAside = [...trees.setAside, ...around.setAside];
  const placed = reads.map(({ layer, file, features, system, axesAdvice }) => ({
    layer,
    file,
    features,
    system,
    axesAdvice,
  }));
  const findings = [...trees.findings, ...around.findings, ...crossLayerFindings(placed)];
  return entries.map((entry, at) => {
    const { guess } = entry;
    if (entry.read === null) return unknownLayer(entry);
    const read = namedRead(entry.read, columns, idOfTree);
    const isFirst = entries.findIndex((one) => one.read?.layer === read.layer && one.read.fault === null) === at;
    const ours = setAside.filter((one) => isOf(one, read));
    const all = [
      ...read.findings,
      ...read.setAside.map(({ finding }) => finding),
      ...ours.map(({ finding }) => finding),
      ...findings.filter((finding) => belongsTo(finding, read, isFirst)),
    ];
    const given = how.columns[read.layer] ?? {};
    return {
      file: read.file,
      layer: read.layer,
      guessedBy: guess.because,
      verdict: verdictOf(read, ours, all),
      read: read.counts.features,
      used: read.counts.used - ours.length,
      setAside: read.counts.setAside + ours.length,
      crs: read.fault === null ? read.system.title : null,
      columns: isFirst ? guesses.get(read.layer)!.guesses.filter(({ field }) => !Object.hasOwn(given, field)) : [],
      findings: all,
    };
  });
}

function columnNames(features: readonly SourceFeature[]): string[] {
  const names = new Set<string>();
  for (const { properties } of features) for (const name of Object.keys(properties)) names.add(name);
  return [...names];
}

const isOf = ({ layer, ordinal }: SetAside, { layer: own, firstOrdinal, counts }: GeoJsonRead): boolean =>
  layer === own && ordinal >= firstOrdinal && ordinal < firstOrdinal + counts.features;

/** A finding about a whole layer, or about its columns, stands with the layer's first file. */
function belongsTo({ layer, file }: Finding, read: GeoJsonRead, isFirst: boolean): boolean {
  if (layer === read.layer) return file === read.file || (file === null && isFirst);
  return layer === "columns" && file === read.file;
}

function verdictOf(read: GeoJsonRead, setAside: readonly SetAside[], findings: readonly Finding[]): Verdict {
  if (read.verdict === "unreadable") return "unreadable";
  if (read.verdict === "set-aside" || setAside.some(({ finding }) => finding.severity !== "info")) return "set-aside";
  return findings.some(({ severity }) => severity !== "info") ? "warnings" : "clean";
}

/** A file that can be read and only lacks the name of its layer is not `unreadable`; but nothing of it was checked, which is said. */
function unknownLayer({ toCheck: { name }, fault, held }: Entry): FileCheck {
  const why = fault ?? {
    code: "layer-unknown",
    severity: "error" as const,
    field: null,
    value: null,
    reason: `The file can be read and has ${withThousands(held)} ${held === 1 ? "feature" : "features"}, but neither its name nor what it holds tells which layer it is, so none was checked.`,
    whatToDo: `Say which: --trees FILE, or ${LAYERS.slice(1)
      .map((layer) => `--${layer}`)
      .join(", ")}; leave it out if it is none of these.`,
  };
  const finding: Finding = { ...why, layer: "plan", file: name, feature: null };
  return {
    file: name,
    layer: null,
    guessedBy: null,
    verdict: fault === null ? "warnings" : "unreadable",
    read: 0,
    used: 0,
    setAside: 0,
    crs: null,
    columns: [],
    findings: [finding],
  };
}
