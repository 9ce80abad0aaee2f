import type { Layer } from "./terms.ts";

/** Canonical fields by layer; a column map says which of a city's columns feeds which of these. */
export const FIELDS = {
  trees: [
    "id",
    "species",
    "genus",
    "common_name",
    "form",
    "dbh",
    "girth",
    "height",
    "crown_base",
    "crown_radius",
    "crown_spread",
    "crown_width_1",
    "crown_width_2",
    "radius_n",
    "radius_e",
    "radius_s",
    "radius_w",
    "crown_offset",
    "crown_offset_direction",
    "lean",
    "lean_direction",
    "planted",
    "caliper_at_planting",
    "last_pruned",
    "last_dose",
    "condition",
    "alive",
    "defects",
    "stems",
    "ground_z",
    "headroom_over_road",
    "street",
    "address",
    "side",
    "owner",
    "protected",
  ],
  buildings: ["id", "name", "height", "levels", "min_height"],
  roads: [
    "id",
    "name",
    "class",
    "speed",
    "lanes",
    "width",
    "oneway",
    "parking",
    "shoulder",
    "shoulder_width",
    "sidewalk",
    "cycleway",
    "surface",
    "bus",
    "fire_lane",
    "layer",
    "grade",
    "median_width",
  ],
  paths: ["id", "name", "class", "width", "surface", "layer"],
  signs: ["id", "kind", "facing", "height"],
  signals: ["id", "kind", "facing", "height"],
  conductors: [
    "id",
    "circuit",
    "span",
    "voltage",
    "attachment_height_1",
    "attachment_height_2",
    "sag",
    "sag_temperature",
    "tension",
    "weight",
    "conductor",
    "insulator_length",
    "insulation",
    "location",
    "ground_z_1",
    "ground_z_2",
    "cables",
  ],
} as const satisfies Record<Layer, readonly string[]>;

export type Field<L extends Layer> = (typeof FIELDS)[L][number];

/** Units a plain number in a column can be in. A value that names its own unit (`12 in`) outranks the column's. */
export type ColumnUnit =
  | "m"
  | "cm"
  | "mm"
  | "ft"
  | "in"
  | "km/h"
  | "mph"
  | "V"
  | "kV"
  | "C"
  | "F"
  | "N"
  | "kN"
  | "lb"
  | "N/m"
  | "kg/m"
  | "lb/ft"
  | "percent"
  | "share"
  | "degrees"
  | "none";

/** One column of a city's table. */
export interface ColumnSource {
  readonly column: string;
  readonly unit?: ColumnUnit;
  /** What 0 means in this column. Default `value`; a dbh of 0 is always `unknown`. */
  readonly zero?: "value" | "unknown";
  /** City words to canonical ones, compared without regard to case, for example `{ "Coniferous": "conifer" }`. */
  readonly values?: Readonly<Record<string, string>>;
}

/** Which column feeds which canonical field, by layer. A field that is left out is looked up under its own name. */
export type ColumnMap = { readonly [L in Layer]?: { readonly [F in Field<L>]?: ColumnSource } };

/** The value a feature has for a canonical field, untouched; undefined when the column is absent, null or empty text. */
export function columnValue<L extends Layer>(
  map: ColumnMap,
  layer: L,
  field: Field<L>,
  properties: Readonly<Record<string, unknown>>,
): unknown {
  const name = columnSource(map, layer, field).column;
  if (!Object.hasOwn(properties, name)) return undefined;
  const value = properties[name];
  return value === null || value === "" ? undefined : value;
}

/** The column of a canonical field; the field's own name when the map says nothing. */
export function columnSource<L extends Layer>(map: ColumnMap, layer: L, field: Field<L>): ColumnSource {
  const layerMap = map[layer] as Readonly<Record<string, ColumnSource>> | undefined;
  return layerMap !== undefined && Object.hasOwn(layerMap, field) ? layerMap[field]! : { column: field };
}

/** The unit a bare number has where neither the column map nor the value names one. */
export const DEFAULT_UNITS: Readonly<Record<string, ColumnUnit>> = {
  dbh: "cm",
  girth: "cm",
  caliper_at_planting: "cm",
  last_dose: "percent",
  speed: "km/h",
  voltage: "V",
  sag_temperature: "C",
  tension: "N",
  weight: "N/m",
  facing: "degrees",
  lean: "degrees",
  lean_direction: "degrees",
  crown_offset_direction: "degrees",
  grade: "percent",
};

/** The unit of a bare number in a canonical field's column: the map's, else the field's default, else meters. */
export function columnUnit<L extends Layer>(map: ColumnMap, layer: L, field: Field<L>): ColumnUnit {
  return columnSource(map, layer, field).unit ?? DEFAULT_UNITS[field] ?? "m";
}
