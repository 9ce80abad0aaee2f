import type { Finding } from "../../core/model/finding.ts";
import { DATA_DICTIONARY, type DictionaryField, TREE_TABLE_FIELDS } from "../../core/plan/data-dictionary.ts";
import { readGeoJson } from "../geojson/read-geojson.ts";
import { columnNames } from "./column-names.ts";
import { dictionaryColumn } from "./dictionary-column.ts";
import { type LayerTable, layerTable, type TableColumn } from "./layer-table.ts";
import { memberColumns } from "./member-columns.ts";
import { treeIds } from "./tree-ids.ts";

/**
 * The trees of a revision as a table, from the bytes of its `trees.geojson` and `prescriptions.jsonl`: the plan's id, the features' own ids where
 * they have one, the city's columns with their names, values, order and types, the `bough_` columns. Of a feature's further members nothing is
 * taken. Each column of the city's that had to be renamed is a finding. Throws Error where the files are not of one plan.
 */
export function treesTable(trees: Uint8Array, prescriptions: Uint8Array): { table: LayerTable; findings: Finding[] } {
  const read = readGeoJson(trees, { layer: "trees", file: "trees.geojson" });
  const ids = treeIds(prescriptions);
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
    dictionaryColumn(idField, ids),
    ...(featureIds.some((id) => id !== null) ? [dictionaryColumn(featureIdField, featureIds)] : []),
    ...own.map(({ type, values }, at): TableColumn => ({ name: names[at]!, type, meaning: null, values })),
    ...members.flatMap(({ name, values }) => (ours.has(name) ? [dictionaryColumn(ours.get(name)!, values)] : [])),
  ];
  const geometries = read.features.map(({ geometry }) => geometry);
  const findings = own.flatMap(({ name }, at) => (name === names[at] ? [] : [renamed(name, names[at]!)]));
  const meaning = "Every tree of the plan with the city's own columns and what the plan says of it";
  return { table: layerTable("trees", meaning, "Point", geometries, columns, ids.length), findings };
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
