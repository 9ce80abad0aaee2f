import { readFileSync } from "node:fs";
import type { Feature, FeatureCollection, Geometry, Point } from "geojson";
import { type CellValue, type LayerTable, layerTable, type TableColumn } from "../../src/formats/write/layer-table.ts";
import { writeGeoPackage } from "../../src/formats/write/write-geopackage.ts";

const TOWN = new URL("../../sample-geojson/", import.meta.url);

/** What stands in a column that no field is fed by; it must appear nowhere but in the plan's own files. */
export const SECRET = "inspector.jane@city.example";

const read = <G extends Geometry>(name: string): FeatureCollection<G> =>
  JSON.parse(readFileSync(new URL(name, TOWN), "utf8"));

/**
 * The sample town's trees as a city exports them: diameters in inches under a name that says so, heights in feet under one that does not,
 * a column of inspectors, the fourth tree without a position. The first `count` of them.
 */
export function treesCsv(count = Number.POSITIVE_INFINITY): string {
  const features = read<Point>("trees.geojson").features.slice(0, count);
  const rows = features.map(({ properties, geometry }, at) => {
    const { id, species, dbh, height, crown_spread, street, condition } = properties as Record<string, string | number>;
    const [x, y] = geometry.coordinates;
    return [
      id,
      species,
      dbh === null ? "" : Math.round(Number(dbh) / 2.54),
      height === null ? "" : Math.round(Number(height) / 0.3048),
      crown_spread === null ? "" : (Number(crown_spread) / 0.3048).toFixed(1),
      condition,
      street,
      SECRET,
      at === 3 ? "" : x,
      at === 3 ? "" : y,
    ].join(",");
  });
  return ["TREE_ID,Botanical,DBH (in),Total,Spread (ft),COND,ON_STREET,INSPECTOR,LONGITUDE,LATITUDE", ...rows, ""].join(
    "\n",
  );
}

/** One GeoPackage with three tables: street surfaces with a kind, house outlines, and hydrants that are no layer. */
export async function cityGeoPackage(): Promise<Uint8Array> {
  const roads = read("roads.geojson").features;
  const kinds = roads.map((_road, at) => (at % 4 === 3 ? "Planned" : at % 4 === 2 ? "Alley" : "Road"));
  const hydrants = read<Point>("trees.geojson").features.slice(0, 5);
  return await writeGeoPackage(
    [
      table("street_centerlines", roads, { KIND: kinds }),
      table("bldg_outlines", read("buildings.geojson").features, {}),
      table("hydrants", hydrants, { PRESSURE: hydrants.map((_one, at) => 40 + at) }),
    ],
    "2026-11-02",
  );
}

function table(name: string, features: readonly Feature[], more: Readonly<Record<string, CellValue[]>>): LayerTable {
  const names = Object.keys(features[0]!.properties!).filter((column) => name !== "hydrants" || column === "id");
  const columns = [
    ...names.map((column) =>
      columnOf(
        column,
        features.map(({ properties }) => (properties![column] ?? null) as CellValue),
      ),
    ),
    ...Object.entries(more).map(([column, values]) => columnOf(column, values)),
  ];
  return layerTable(
    name,
    name,
    "Geometry",
    features.map(({ geometry }) => geometry),
    columns,
    features.length,
  );
}

function columnOf(name: string, values: CellValue[]): TableColumn {
  const isNumber =
    values.some((value) => typeof value === "number") &&
    values.every((value) => value === null || typeof value === "number");
  return isNumber
    ? { name, type: "real", meaning: null, values }
    : { name, type: "text", meaning: null, values: values.map((value) => (value === null ? null : String(value))) };
}
