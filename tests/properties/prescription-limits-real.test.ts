import { readFileSync } from "node:fs";
import type { FeatureCollection } from "geojson";
import { describe, expect, it } from "vitest";
import { parseColumnMap } from "../../src/core/inventory/column-map-schema.ts";
import type { Conflict } from "../../src/core/model/conflict.ts";
import type { SourceFeature } from "../../src/core/model/feature.ts";
import type { Place } from "../../src/core/model/plan.ts";
import { LAYERS, type Layer } from "../../src/core/model/terms.ts";
import { runPipeline } from "../../src/core/pipeline.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { breaches } from "./prescription/laws.ts";

const standard = usCommon();

/** The features of a folder's files, as the reader hands them to the core: all of these files are clean. */
function layersOf(folder: string, files: Partial<Record<Layer, string>>): Partial<Record<Layer, SourceFeature[]>> {
  const layers: Partial<Record<Layer, SourceFeature[]>> = {};
  for (const layer of LAYERS) {
    const name = files[layer];
    if (name === undefined) continue;
    const { features } = JSON.parse(readFileSync(`${folder}/${name}.geojson`, "utf8")) as FeatureCollection;
    layers[layer] = features
      .filter(({ geometry }) => geometry !== null)
      .map(({ id, geometry, properties }, at) => ({
        layer,
        file: `${name}.geojson`,
        index: at,
        ordinal: at,
        id: id ?? null,
        properties: properties ?? {},
        geometry,
      }));
  }
  return layers;
}

const columnsOf = (text: string) => {
  const parsed = parseColumnMap(JSON.parse(text));
  if ("faults" in parsed) throw new Error(parsed.faults.join());
  return parsed.columns;
};

const town = Object.fromEntries(LAYERS.map((layer) => [layer, layer]));
const campus = { trees: "trees", buildings: "buildings", roads: "road-areas", paths: "walkway-areas" };
const campusColumns = readFileSync("tests/fixtures/ubc/columns.json", "utf8");

describe.each([
  // A day in an open window, one while leaves flush, and one in a region with a ban.
  ["the sample town in July", "sample-geojson", town, "{}", "2026-07-01", { hardinessZone: 5, region: "US-NY" }],
  ["the sample town in May", "sample-geojson", town, "{}", "2026-05-10", { hardinessZone: 5, region: "US-WI" }],
  [
    "the campus in winter",
    "tests/fixtures/ubc",
    campus,
    campusColumns,
    "2026-11-27",
    { hardinessZone: 8, region: "CA-BC" },
  ],
  [
    "the campus in spring",
    "tests/fixtures/ubc",
    campus,
    campusColumns,
    "2027-05-02",
    { hardinessZone: 8, region: "CA-BC" },
  ],
] as const)("in %s", (_name, folder, files, columns, asOf, place: Place) => {
  const options = { asOf: isoDate(asOf), units: "metric" as const, drive: "right" as const, place };
  const { plan } = runPipeline({
    planId: "p",
    revision: 1,
    layers: layersOf(folder, files),
    inputs: [],
    columns: columnsOf(columns),
    standard,
    options,
    firstSeen: new Map(),
  });
  const byRow = new Map<number, Conflict[]>();
  for (const conflict of plan.conflicts as readonly Conflict[]) {
    byRow.set(conflict.treeRow, [...(byRow.get(conflict.treeRow) ?? []), conflict]);
  }

  it("no visit breaks a limit, cuts the top, leaves its season, comes too early or follows a dose too soon", () => {
    const found = plan.trees.flatMap((tree, at) =>
      breaches({
        tree,
        conflicts: byRow.get(tree.row) ?? [],
        setting: plan.settings[at]!,
        plan: plan.prescriptions[at]!,
        standard,
        options,
      }).map((words) => `${tree.id}: ${words}`),
    );
    expect(found).toEqual([]);
  });

  it("has visits of all sorts to check", () => {
    const visits = plan.prescriptions.flatMap((prescription) => prescription.visits);
    expect(visits.length).toBeGreaterThan(80);
    expect(plan.prescriptions.some((prescription) => prescription.visits.length > 1)).toBe(true);
    expect(visits.some(({ urgency }) => urgency === "now")).toBe(true);
  });
});
