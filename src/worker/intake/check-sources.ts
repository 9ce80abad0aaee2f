import type { Point } from "geojson";
import { readTrees } from "../../core/inventory/read-trees.ts";
import type { ColumnMap } from "../../core/model/column-map.ts";
import type { SourceFeature } from "../../core/model/feature.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { SetAside } from "../../core/model/plan.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { buildSurroundings } from "../../core/surroundings/build-surroundings.ts";
import { crossLayerFindings } from "../../formats/check/cross-layer.ts";
import type { GeoJsonRead } from "../../formats/geojson/geojson-read.ts";
import { namedRead } from "../../formats/geojson/named-read.ts";
import { groupFindings } from "./group-findings.ts";
import type { IntakeQuestion, IntakeReport, LayerReport, SourceReport } from "./intake-messages.ts";
import { layerColumns } from "./layer-columns.ts";
import type { SourceReads } from "./source-reads.ts";
import { standardReport } from "./standard-report.ts";

/**
 * What a run would make of the sources: read as it reads them, columns as it would be given them, and what the inventory and the surroundings
 * would set aside and doubt. Nothing is measured. Null when `isCurrent` turns false on the way.
 *
 * `onColumns` is given the report as it stands once the files are read and the columns settled, which takes no time once they are: what single
 * trees are set aside for and doubted is not in it yet.
 */
export async function checkSources(
  question: IntakeQuestion,
  reads: SourceReads,
  isCurrent: () => boolean = () => true,
  onColumns: (early: IntakeReport) => void = () => {},
): Promise<IntakeReport | null> {
  const { report: ofStandard, standard } = standardReport(question.standard);
  const readings = await reads.read(question.sources, isCurrent);
  if (readings === null) return null;
  const layers = featuresByLayer(readings.flatMap(({ read }) => (read === null ? [] : [read])));
  const columns = LAYERS.flatMap((layer) => {
    const features = layers[layer];
    return features === undefined
      ? []
      : [{ layer, ...layerColumns(layer, features, question.given, question.choices) }];
  });
  const map: ColumnMap = Object.fromEntries(columns.map((one) => [one.layer, one.map]));
  const across = crossLayerFindings(readings.flatMap(({ read }) => (read === null ? [] : [read])));
  const reportWith = ({ setAside, findings }: LookedAt): IntakeReport => ({
    sources: readings.map(({ key, read, fault, choices }) =>
      read === null ? unread(key, fault!) : sourceReport(key, namedRead(read, map), setAside, choices),
    ),
    layers: columns.map(
      ({ layer, rows, unused }): LayerReport => ({
        layer,
        rows,
        unused,
        doubts: groupFindings([...findings, ...across].filter((finding) => isAbout(finding, layer))),
      }),
    ),
    columns: map,
    standard: ofStandard,
  });
  onColumns(reportWith(NOTHING));
  // All trees take seconds that nothing can break into: a person who corrects the next column meanwhile comes first.
  await new Promise((resolve) => setTimeout(resolve, LET_IN_MS));
  if (!isCurrent()) return null;
  return reportWith(standard === null ? NOTHING : lookAll(layers, map, standard, question));
}

const LET_IN_MS = 300;

interface LookedAt {
  readonly setAside: readonly SetAside[];
  readonly findings: readonly Finding[];
}

const NOTHING: LookedAt = { setAside: [], findings: [] };

type LayerFeatures = { [L in Layer]?: SourceFeature[] };

function featuresByLayer(reads: readonly GeoJsonRead[]): LayerFeatures {
  const layers: LayerFeatures = {};
  for (const { layer, features } of reads) {
    layers[layer] ??= [];
    for (const feature of features) layers[layer].push(feature);
  }
  return layers;
}

function lookAll(layers: LayerFeatures, columns: ColumnMap, standard: Standard, { options }: IntakeQuestion): LookedAt {
  const trees = readTrees((layers.trees ?? []) as SourceFeature<Point>[], columns, standard, options);
  const around = buildSurroundings(layers, columns, standard, options);
  return {
    setAside: [...trees.setAside, ...around.setAside],
    findings: [...trees.findings, ...around.findings],
  };
}

/** Findings of columns are all of the inventory's: only it looks for mapped columns. */
const isAbout = (finding: Finding, layer: Layer): boolean =>
  finding.layer === layer || (finding.layer === "columns" && layer === "trees");

function sourceReport(
  key: string,
  read: GeoJsonRead,
  setAside: readonly SetAside[],
  choices: SourceReport["choices"],
): SourceReport {
  const { layer, firstOrdinal, counts } = read;
  const later = setAside.filter(
    (one) => one.layer === layer && one.ordinal >= firstOrdinal && one.ordinal < firstOrdinal + counts.features,
  );
  const faults = read.setAside.filter(({ finding }) => finding.code !== "filtered-out");
  return {
    key,
    read: counts.features,
    used: counts.used - later.length,
    setAside: counts.setAside + later.length,
    leftOut: counts.filteredOut,
    system: read.system.title,
    fault: null,
    reasons: groupFindings([...faults, ...later].map(({ finding }) => finding)),
    notes: groupFindings(read.findings),
    choices,
  };
}

const unread = (key: string, fault: NonNullable<SourceReport["fault"]>): SourceReport => ({
  key,
  read: 0,
  used: 0,
  setAside: 0,
  leftOut: 0,
  system: null,
  fault,
  reasons: [],
  notes: [],
  choices: [],
});
