import type { Feature, FeatureCollection, Geometry } from "geojson";
import type { Finding } from "../../core/model/finding.ts";
import {
  DATA_DICTIONARY,
  type DictionaryField,
  type FieldType,
  TREE_TABLE_FIELDS,
} from "../../core/plan/data-dictionary.ts";
import { readCsv } from "../csv.ts";
import { readGeoJson } from "../geojson/read-geojson.ts";
import { columnNames } from "./column-names.ts";
import type { CellValue, ColumnType, LayerGeometryType, LayerTable, TableColumn } from "./layer-table.ts";
import { memberColumns } from "./member-columns.ts";
import { treeIds } from "./tree-ids.ts";

/** Files of a revision by name, as they are written to its folder. */
export type RevisionFiles = ReadonlyMap<string, Uint8Array>;

export interface RevisionTables {
  /** Trees, conflicts, surroundings, sight, zones, visits and findings, in this order. */
  readonly tables: readonly LayerTable[];
  /** One for each column of the city's that had to be renamed. */
  readonly findings: readonly Finding[];
}

/**
 * The tables of a revision, made of its files. Trees have the plan's id first, then the city's own columns with their names, values, order
 * and types, then the `bough_` columns; the types of our own columns are the data dictionary's. Lists become JSON text. Members of a tree
 * feature outside its properties stay in `trees.geojson` alone, but for its id. Throws Error naming a file that is missing.
 */
export function revisionTables(files: RevisionFiles): RevisionTables {
  const { table: trees, findings } = treeTable(files);
  return {
    tables: [
      trees,
      layerTable(files, "conflicts", "Polygon", "What a crown is, or within two cycles will be, too close to"),
      layerTable(files, "surroundings", "Geometry", "What stands around the trees, with the figures that the run used"),
      layerTable(files, "sight", "Polygon", "Sight triangles at intersections"),
      layerTable(files, "zones", "MultiPolygon", "Work zones of about a crew-day"),
      rowTable(files, "visits", "Visits planned, in tree order and then in order of time"),
      rowTable(files, "findings", "What was found in the input or the plan that a person should know"),
    ],
    findings,
  };
}

function treeTable(files: RevisionFiles): { table: LayerTable; findings: Finding[] } {
  const read = readGeoJson(bytesOf(files, "trees.geojson"), { layer: "trees", file: "trees.geojson" });
  const ids = treeIds(bytesOf(files, "prescriptions.jsonl"));
  if (ids.length !== read.features.length) {
    throw new Error(
      `Expected a line of prescriptions.jsonl for each of ${read.features.length} trees, got ${ids.length}`,
    );
  }
  const members = memberColumns(read);
  const ours = new Map(DATA_DICTIONARY["trees.geojson"].map((field) => [field.name, field]));
  const own = members.filter(({ name }) => !ours.has(name));
  const names = columnNames(
    own.map(({ name }) => name),
    [...ours.keys(), ...TREE_TABLE_FIELDS.map(({ name }) => name)],
  );
  const [idField, featureIdField] = TREE_TABLE_FIELDS as readonly [DictionaryField, DictionaryField];
  const featureIds = read.features.map(({ id }) => (id === null ? null : String(id)));
  const columns: TableColumn[] = [
    column(idField, ids),
    ...(featureIds.some((id) => id !== null) ? [column(featureIdField, featureIds)] : []),
    ...own.map(({ type, values }, at): TableColumn => ({ name: names[at]!, type, meaning: null, values })),
    ...members.flatMap(({ name, values }) => (ours.has(name) ? [column(ours.get(name)!, values)] : [])),
  ];
  const geometries = read.features.map(({ geometry }) => geometry);
  const findings = own.flatMap(({ name }, at) => (name === names[at] ? [] : [renamed(name, names[at]!)]));
  const meaning = "Every tree of the plan with the city's own columns and what the plan says of it";
  return { table: tableOf("trees", meaning, "Point", geometries, columns, ids.length), findings };
}

function layerTable(
  files: RevisionFiles,
  name: "conflicts" | "surroundings" | "sight" | "zones",
  geometryType: LayerGeometryType,
  meaning: string,
): LayerTable {
  const file = `${name}.geojson` as const;
  const { features } = JSON.parse(textOf(files, file)) as FeatureCollection<Geometry | null>;
  const columns = DATA_DICTIONARY[file].map((field) =>
    column(
      field,
      features.map((feature) => memberValue(feature, field)),
    ),
  );
  const geometries = features.map(({ geometry }) => geometry);
  return tableOf(name, meaning, geometryType, geometries, columns, features.length);
}

function rowTable(files: RevisionFiles, name: "visits" | "findings", meaning: string): LayerTable {
  const file = `${name}.csv` as const;
  const [header = [], ...rows] = readCsv(textOf(files, file));
  const columns = DATA_DICTIONARY[file].map((field) => {
    const at = header.indexOf(field.name);
    return column(
      field,
      rows.map((row) => csvValue(row[at] ?? "", field)),
    );
  });
  return tableOf(name, meaning, null, [], columns, rows.length);
}

function tableOf(
  name: string,
  meaning: string,
  expected: LayerGeometryType | null,
  geometries: readonly (Geometry | null)[],
  columns: readonly TableColumn[],
  rowCount: number,
): LayerTable {
  const isAsExpected = geometries.every((geometry) => geometry === null || geometry.type === expected);
  const geometryType = expected === null || isAsExpected ? expected : "Geometry";
  return { name, meaning, geometryType, geometries, columns, rowCount };
}

const COLUMN_TYPES: Readonly<Record<FieldType, ColumnType>> = {
  text: "text",
  integer: "integer",
  number: "real",
  boolean: "boolean",
  date: "date",
  interval: "text",
  words: "text",
  texts: "text",
  numbers: "text",
  object: "text",
  objects: "text",
};

function column({ name, type, unit, meaning }: DictionaryField, values: readonly CellValue[]): TableColumn {
  return { name, type: COLUMN_TYPES[type], meaning: unit === null ? meaning : `${meaning} (${unit})`, values };
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

function renamed(name: string, given: string): Finding {
  return {
    code: "column-renamed",
    severity: "info",
    layer: "trees",
    file: "trees.geojson",
    feature: null,
    field: name.slice(0, 256),
    value: given.slice(0, 256),
    reason: `Table files name this column ${given.slice(0, 200)}: they keep its own name for the key or the geometry, or take it for another column's.`,
    whatToDo: "Nothing; trees.geojson keeps the name.",
  };
}

function bytesOf(files: RevisionFiles, name: string): Uint8Array {
  const bytes = files.get(name);
  if (bytes === undefined) throw new Error(`This is not a whole revision: ${name} is missing`);
  return bytes;
}

const textOf = (files: RevisionFiles, name: string): string => new TextDecoder().decode(bytesOf(files, name));
