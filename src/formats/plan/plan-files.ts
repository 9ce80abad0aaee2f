import type { ColumnMap } from "../../core/model/column-map.ts";
import type { Plan } from "../../core/model/plan.ts";
import {
  conflictFeatures,
  type Flat,
  sightFeatures,
  surroundingFeatures,
  zoneFeatures,
} from "../../core/plan/plan-features.ts";
import { planManifest } from "../../core/plan/plan-manifest.ts";
import { findingTable, type Table, visitTable } from "../../core/plan/plan-tables.ts";
import { spanTable } from "../../core/plan/span-table.ts";
import { workloadTable } from "../../core/plan/workload-table.ts";
import { forecastVisits } from "../../core/schedule/forecast-visits.ts";
import { workload } from "../../core/schedule/workload.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { writeCsv } from "../csv.ts";
import { ChunkWriter } from "../geojson/chunk-writer.ts";
import { joinBytes } from "../join-bytes.ts";

/**
 * The files of a revision made from the plan alone, by name. The two that carry original bytes, `trees.geojson` and
 * `set-aside.geojson`, are spliced from the inputs elsewhere.
 */
export function planFiles(
  plan: Plan,
  columns: ColumnMap,
  standard: Standard,
  standardJson: unknown,
): Map<string, Uint8Array> {
  const { trees, prescriptions, conflicts, settings, options } = plan;
  const expected = forecastVisits(trees, prescriptions, conflicts, settings, standard, options);
  return new Map(
    (
      [
        ["plan.json", [pretty(planManifest(plan))]],
        ["conflicts.geojson", collectionText(plan.conflicts, conflictFeatures)],
        ["surroundings.geojson", collectionText(plan.surroundings, surroundingFeatures)],
        ["sight.geojson", collectionText(plan.sight, sightFeatures)],
        ["zones.geojson", collectionText(plan.zones, zoneFeatures)],
        ["prescriptions.jsonl", prescriptionLines(plan)],
        ["visits.csv", [tableText(visitTable(plan))]],
        ["spans.csv", [tableText(spanTable(plan))]],
        ["workload.csv", [tableText(workloadTable(workload(expected)))]],
        ["findings.csv", [tableText(findingTable(plan.findings))]],
        ["columns.json", [pretty(columns)]],
        ["standard.json", [pretty(standardJson)]],
      ] as const
    ).map(([name, texts]) => [name, joinBytes(encoded(texts))]),
  );
}

/** JSON that a person can read, with a line end. */
export const pretty = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
/** A table as CSV. */
export const tableText = (table: Table): string => writeCsv(table.header, table.rows);

/** A line a tree: the tree, what it stands beside and what it gets. */
function* prescriptionLines(plan: Plan): Generator<string, void, undefined> {
  for (let row = 0; row < plan.trees.length; row += 1) {
    const [tree, setting, prescription] = [plan.trees[row], plan.settings[row], plan.prescriptions[row]];
    yield `${JSON.stringify({ tree, setting, prescription })}\n`;
  }
}

/** Things made into features at once: enough to cost nothing, few enough that a large plan's features never stand in memory together. */
const AT_ONCE = 1000;

/** A feature collection with one feature a line, so that a person and a diff can read it. */
export function* collectionText<Thing>(
  things: readonly Thing[],
  featuresOf: (some: readonly Thing[]) => { readonly features: readonly { readonly properties: Flat }[] },
): Generator<string, void, undefined> {
  let isFirst = true;
  yield COLLECTION.head;
  for (let from = 0; from < things.length; from += AT_ONCE) {
    for (const feature of featuresOf(things.slice(from, from + AT_ONCE)).features) {
      yield isFirst ? JSON.stringify(feature) : `,\n${JSON.stringify(feature)}`;
      isFirst = false;
    }
  }
  yield COLLECTION.tail;
}

/** What stands around the lines of a feature collection. */
export const COLLECTION = { head: '{"type":"FeatureCollection","features":[\n', tail: "\n]}\n" };

/** Texts one after another as bytes; together they may be longer than a text can be. */
export function encoded(texts: Iterable<string>): Uint8Array[] {
  const writer = new ChunkWriter();
  for (const text of texts) writer.text(text);
  return writer.end();
}
