import { type ColumnMap, columnUnit, columnValue, type Field } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { Layer } from "../model/terms.ts";
import { parseLengthM } from "../units/parse-length.ts";

const MAX_TEXT = 256;

/** The value of a canonical field, else of the first OpenStreetMap tag that is present; undefined when none is. */
export function readValue<L extends Layer>(
  columns: ColumnMap,
  layer: L,
  field: Field<L>,
  feature: SourceFeature,
  ...tags: readonly string[]
): unknown {
  const mapped = columnValue(columns, layer, field, feature.properties);
  if (mapped !== undefined) return mapped;
  for (const tag of tags) {
    const value = readTag(feature, tag);
    if (value !== undefined) return value;
  }
  return undefined;
}

/** The value of a property by its own name; undefined when absent, null or empty text. */
export function readTag(feature: SourceFeature, tag: string): unknown {
  if (!Object.hasOwn(feature.properties, tag)) return undefined;
  const value = feature.properties[tag];
  return value === null || value === "" ? undefined : value;
}

/** Text as given, cut to 256 characters; a number or boolean as text; null for anything else. */
export function textOf(value: unknown): string | null {
  if (typeof value === "string") return value.slice(0, MAX_TEXT).trim() || null;
  return typeof value === "number" || typeof value === "boolean" ? String(value) : null;
}

/** Lower-case text with blanks and underscores as single hyphens; empty for what is no text. */
export function wordOf(value: unknown): string {
  return (textOf(value) ?? "").toLowerCase().split(/[\s_]/).filter(Boolean).join("-");
}

/** Whether a value says yes: true, a number above 0, `yes`, `y`, `true`, `t`. */
export function isYes(value: unknown): boolean {
  if (typeof value === "boolean") return value;
  if (typeof value === "number") return value > 0;
  const word = wordOf(value);
  return word === "yes" || word === "y" || word === "true" || word === "t" || (word !== "" && Number(word) > 0);
}

/** A length in meters, 0 or more, of a canonical field or a tag (bare numbers of tags are meters); null when absent or not a length. */
export function readLengthOrZeroM<L extends Layer>(
  columns: ColumnMap,
  layer: L,
  field: Field<L>,
  feature: SourceFeature,
  ...tags: readonly string[]
): number | null {
  const mapped = columnValue(columns, layer, field, feature.properties);
  const lengthM =
    mapped === undefined
      ? parseLengthM(readValue(columns, layer, field, feature, ...tags), "m")
      : parseLengthM(mapped, columnUnit(columns, layer, field));
  return lengthM !== null && Number.isFinite(lengthM) && lengthM >= 0 ? lengthM : null;
}

/** As {@link readLengthOrZeroM}, for lengths of which 0 says that they are unknown. */
export function readLengthM<L extends Layer>(
  columns: ColumnMap,
  layer: L,
  field: Field<L>,
  feature: SourceFeature,
  ...tags: readonly string[]
): number | null {
  const lengthM = readLengthOrZeroM(columns, layer, field, feature, ...tags);
  return lengthM === 0 ? null : lengthM;
}
