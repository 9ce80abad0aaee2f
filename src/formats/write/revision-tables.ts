import type { Feature, FeatureCollection, Geometry } from "geojson";
import type { Finding } from "../../core/model/finding.ts";
import { DATA_DICTIONARY, type DictionaryField } from "../../core/plan/data-dictionary.ts";
import { readCsv } from "../csv.ts";
import { dictionaryColumn } from "./dictionary-column.ts";
import { type CellValue, type LayerGeometryType, type LayerTable, layerTable } from "./layer-table.ts";
import { PRIVATE_FIELDS, publicTrees } from "./public-trees.ts";
import { fileBytes, fileText, type RevisionFiles } from "./revision-files.ts";
import { treesTable } from "./trees-table.ts";

/** Which of the city's own columns go into a table: those that feed a field, or all. */
export type TableColumns = "mapped" | "all";

export interface RevisionTables {
  /** Trees, conflicts, surroundings, sight, zones, visits and findings, in this order. */
  readonly tables: readonly LayerTable[];
  /** One for each column of the city's that had to be renamed. */
  readonly findings: readonly Finding[];
}

/**
 * The tables of a revision, made of its files. Trees have the plan's id first, then the city's own columns with their names, values, order
 * and types, then the `bough_` columns; the types of our own columns are the data dictionary's. Lists become JSON text. Members of a tree
 * feature outside its properties, and with `mapped` the columns that feed no field, stay in `trees.geojson` alone, but for its id. Throws Error naming a file that is missing.
 */
export function revisionTables(files: RevisionFiles, columns: TableColumns = "all"): RevisionTables {
  // With the private fields chosen, what is left out is just what feeds no field.
  const treeBytes = columns === "mapped" ? publicTrees(files, PRIVATE_FIELDS) : fileBytes(files, "trees.geojson");
  const { table: trees, findings } = treesTable(treeBytes, fileBytes(files, "prescriptions.jsonl"));
  return {
    tables: [
      trees,
      featureTable(files, "conflicts", "Polygon", "What a crown is, or within two cycles will be, too close to"),
      featureTable(
        files,
        "surroundings",
        "Geometry",
        "What stands around the trees, with the figures that the run used",
      ),
      featureTable(files, "sight", "Polygon", "Sight triangles at intersections"),
      featureTable(files, "zones", "MultiPolygon", "Work zones of about a crew-day"),
      rowTable(files, "visits", "Visits planned, in tree order and then in order of time"),
      rowTable(files, "findings", "What was found in the input or the plan that a person should know"),
    ],
    findings,
  };
}

function featureTable(
  files: RevisionFiles,
  name: "conflicts" | "surroundings" | "sight" | "zones",
  geometryType: LayerGeometryType,
  meaning: string,
): LayerTable {
  const file = `${name}.geojson` as const;
  const { features } = JSON.parse(fileText(files, file)) as FeatureCollection<Geometry | null>;
  const columns = DATA_DICTIONARY[file].map((field) =>
    dictionaryColumn(
      field,
      features.map((feature) => memberValue(feature, field)),
    ),
  );
  const geometries = features.map(({ geometry }) => geometry);
  return layerTable(name, meaning, geometryType, geometries, columns, features.length);
}

function rowTable(files: RevisionFiles, name: "visits" | "findings", meaning: string): LayerTable {
  const file = `${name}.csv` as const;
  const [header = [], ...rows] = readCsv(fileText(files, file));
  const columns = DATA_DICTIONARY[file].map((field) => {
    const at = header.indexOf(field.name);
    return dictionaryColumn(
      field,
      rows.map((row) => csvValue(row[at] ?? "", field)),
    );
  });
  return layerTable(name, meaning, null, [], columns, rows.length);
}

function memberValue(feature: Feature<Geometry | null>, { name }: DictionaryField): CellValue {
  const value: unknown = feature.properties?.[name] ?? null;
  return typeof value === "object" && value !== null ? JSON.stringify(value) : (value as CellValue);
}

function csvValue(cell: string, { type, isNullable }: DictionaryField): CellValue {
  if (type === "number" || type === "integer") return cell === "" ? null : Number(cell);
  if (type === "boolean") return cell === "true";
  return cell === "" && (isNullable || type === "date") ? null : cell;
}
