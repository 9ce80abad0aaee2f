import { readFileSync } from "node:fs";
import { join } from "node:path";
import { LAYERS } from "../../../src/core/model/terms.ts";
import type { IsoDate } from "../../../src/core/units/calendar.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import type { LayerFile } from "../../../src/formats/plan/plan-request.ts";
import type { RevisionFiles } from "../../../src/formats/write/revision-files.ts";

const SAMPLE = join(import.meta.dirname, "../../../sample-geojson");

async function revisionOf(files: readonly LayerFile[]): Promise<RevisionFiles> {
  const made = await makePlan(
    {
      revision: 1,
      files,
      columns: {},
      standardJson: null,
      options: {
        asOf: "2026-05-01" as IsoDate,
        units: "us",
        drive: "right",
        place: { hardinessZone: null, region: null },
      },
      crs: null,
      withZones: true,
    },
    () => {},
  );
  return made.files;
}

/** The files of a plan of the sample town, with zones. */
export const sampleRevision = (): Promise<RevisionFiles> =>
  revisionOf(
    LAYERS.map((layer) => ({
      layer,
      name: `${layer}.geojson`,
      bytes: readFileSync(join(SAMPLE, `${layer}.geojson`)),
      filter: null,
    })),
  );

/** The files of a plan of trees alone, given as the text of a GeoJSON file. */
export const treesRevision = (geoJson: string): Promise<RevisionFiles> =>
  revisionOf([{ layer: "trees", name: "trees.geojson", bytes: new TextEncoder().encode(geoJson), filter: null }]);

/** The files of a plan of trees alone, given as a file of any format. */
export const fileRevision = (name: string, bytes: Uint8Array): Promise<RevisionFiles> =>
  revisionOf([{ layer: "trees", name, bytes, filter: null }]);

/** Trees whose columns are what cities' exports bring: each feature a line, the members of its properties as they are written. */
export function treesText(...properties: string[]): string {
  const lines = properties.map(
    (text, at) =>
      `{"type":"Feature","properties":{${text}},"geometry":{"type":"Point","coordinates":[-89.4${at},43.07,${260 + at}.5]}}`,
  );
  return `{"type":"FeatureCollection","features":[\n${lines.join(",\n")}\n]}\n`;
}
