import { readFileSync } from "node:fs";
import path from "node:path";
import type { Feature, FeatureCollection, Point } from "geojson";
import { describe, expect, it } from "vitest";
import { parseIsoDate } from "../../../src/core/units/calendar.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import type { LayerFile, PlanOutput } from "../../../src/formats/plan/plan-request.ts";
import { bytesOf } from "./reading.ts";

const TOWN = path.join(import.meta.dirname, "../../../sample-geojson");
/** Enough trees of the sample town to meet buildings and roads. */
const TREES = 150;

const sample = (name: string): string => readFileSync(path.join(TOWN, name), "utf8");
const layer = (name: "buildings" | "roads"): LayerFile => ({
  layer: name,
  name: `${name}.geojson`,
  bytes: bytesOf(sample(`${name}.geojson`)),
  filter: null,
});

const plan = (file: Omit<LayerFile, "layer" | "filter">): Promise<PlanOutput> =>
  makePlan(
    {
      revision: 1,
      files: [{ ...file, layer: "trees", filter: null }, layer("buildings"), layer("roads")],
      columns: {},
      standardJson: null,
      options: {
        asOf: parseIsoDate("2027-01-15")!,
        units: "us",
        drive: "right",
        place: { hardinessZone: null, region: null },
      },
      crs: null,
      withZones: false,
    },
    () => {},
  );

/** What the plan says of each tree, by the tree's own id, and its place. */
function decisions({ files }: PlanOutput): Map<unknown, unknown> {
  const { features } = JSON.parse(new TextDecoder().decode(files.get("trees.geojson"))) as FeatureCollection;
  return new Map(
    features.map(({ properties, geometry }) => [
      properties!.id,
      [geometry, Object.fromEntries(Object.entries(properties!).filter(([name]) => name.startsWith("bough_")))],
    ]),
  );
}

/** A table of the features, longitude and latitude last, cells quoted as RFC 4180 asks. */
function csvOf(features: readonly Feature[], delimiter: string): string {
  const names = [...new Set(features.flatMap(({ properties }) => Object.keys(properties!)))];
  const cell = (value: unknown): string => {
    const text =
      value === null || value === undefined ? "" : typeof value === "object" ? JSON.stringify(value) : String(value);
    return `"${text.replaceAll('"', '""')}"`;
  };
  const rows = features.map(({ properties, geometry }) => [
    ...names.map((name) => properties![name]),
    ...(geometry as Point).coordinates.slice(0, 2),
  ]);
  return [[...names, "longitude", "latitude"], ...rows].map((row) => row.map(cell).join(delimiter)).join("\r\n");
}

describe("a plan from a table", () => {
  it("decides for every tree as the plan from GeoJSON does", { timeout: 120_000 }, async () => {
    const { features } = JSON.parse(sample("trees.geojson")) as FeatureCollection;
    const some = features.slice(0, TREES).map((feature) => ({
      ...feature,
      properties: { ...feature.properties, id: feature.properties!.id ?? feature.id },
    }));
    const geojson = await plan({
      name: "trees.geojson",
      bytes: bytesOf(JSON.stringify({ type: "FeatureCollection", features: some })),
    });
    const wanted = decisions(geojson);
    expect(wanted.size).toBeGreaterThan(TREES / 2);
    for (const delimiter of [",", ";"]) {
      const table = await plan({ name: "trees.csv", bytes: bytesOf(`\ufeff${csvOf(some, delimiter)}`) });
      expect(decisions(table)).toEqual(wanted);
      expect(table.findings.filter(({ code }) => code === "format-read")).toHaveLength(1);
    }
  });

  it("refuses a table without positions in plain sentences", async () => {
    await expect(plan({ name: "trees.csv", bytes: bytesOf("id,species\n1,Acer\n") })).rejects.toMatchObject({
      name: "RefusedInput",
      sentences: [
        "trees.csv: No column of the table gives a position. Its columns: id, species.",
        "Add columns longitude and latitude (or x and y with --crs EPSG:n), or a column with geometries as well-known text.",
      ],
    });
  });
});
