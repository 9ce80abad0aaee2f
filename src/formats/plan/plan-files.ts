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
  const lines = plan.trees.map((tree, row) =>
    JSON.stringify({ tree, setting: plan.settings[row], prescription: plan.prescriptions[row] }),
  );
  return new Map(
    (
      [
        ["plan.json", pretty(planManifest(plan))],
        ["conflicts.geojson", collectionText(conflictFeatures(plan.conflicts))],
        ["surroundings.geojson", collectionText(surroundingFeatures(plan.surroundings))],
        ["sight.geojson", collectionText(sightFeatures(plan.sight))],
        ["zones.geojson", collectionText(zoneFeatures(plan.zones))],
        ["prescriptions.jsonl", lines.map((line) => `${line}\n`).join("")],
        ["visits.csv", tableText(visitTable(plan))],
        ["spans.csv", tableText(spanTable(plan))],
        ["workload.csv", tableText(workloadTable(workload(expected)))],
        ["findings.csv", tableText(findingTable(plan.findings))],
        ["columns.json", pretty(columns)],
        ["standard.json", pretty(standardJson)],
      ] as const
    ).map(([name, text]) => [name, new TextEncoder().encode(text)]),
  );
}

const pretty = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
const tableText = (table: Table): string => writeCsv(table.header, table.rows);

/** A feature collection with one feature a line, so that a person and a diff can read it. */
function collectionText(collection: { readonly features: readonly { readonly properties: Flat }[] }): string {
  const lines = collection.features.map((feature) => JSON.stringify(feature));
  return `{"type":"FeatureCollection","features":[\n${lines.join(",\n")}\n]}\n`;
}
