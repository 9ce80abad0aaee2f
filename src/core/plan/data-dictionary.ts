import { CHANGE_FIELDS } from "./dictionary/change-fields.ts";
import type { DictionaryField } from "./dictionary/dictionary-field.ts";
import { CONFLICT_FIELDS, SIGHT_FIELDS, SURROUNDING_FIELDS, ZONE_FIELDS } from "./dictionary/layer-fields.ts";
import { MANIFEST_FIELDS } from "./dictionary/manifest-fields.ts";
import { PRESCRIPTION_FIELDS } from "./dictionary/prescription-fields.ts";
import { FINDING_FIELDS, SPAN_FIELDS, VISIT_FIELDS, WORKLOAD_FIELDS } from "./dictionary/table-fields.ts";
import { TREE_FIELDS } from "./dictionary/tree-fields.ts";

export type { DictionaryField, FieldType, FieldUnit } from "./dictionary/dictionary-field.ts";
export { TREE_TABLE_FIELDS } from "./dictionary/tree-fields.ts";

/**
 * Every member that this project writes, by file of a revision, in the order it is written: name, type, unit, meaning. Column types of
 * the table files come from here, and a test holds the files to it. `trees.geojson` lists the members added; the city's own, and
 * `set-aside.geojson`, are as they came. `columns.json` and `standard.json` repeat what the run was given, each with a schema of its own.
 */
export const DATA_DICTIONARY = {
  "plan.json": MANIFEST_FIELDS,
  "trees.geojson": TREE_FIELDS,
  "conflicts.geojson": CONFLICT_FIELDS,
  "surroundings.geojson": SURROUNDING_FIELDS,
  "sight.geojson": SIGHT_FIELDS,
  "zones.geojson": ZONE_FIELDS,
  "visits.csv": VISIT_FIELDS,
  "spans.csv": SPAN_FIELDS,
  "workload.csv": WORKLOAD_FIELDS,
  "findings.csv": FINDING_FIELDS,
  "prescriptions.jsonl": PRESCRIPTION_FIELDS,
  "changes.csv": CHANGE_FIELDS,
  "changes.geojson": CHANGE_FIELDS,
} as const satisfies Record<string, readonly DictionaryField[]>;

export type DictionaryFile = keyof typeof DATA_DICTIONARY;
