import { isMissing } from "../units/is-missing.ts";
import { type ColumnMap, columnSource } from "./column-map.ts";
import type { SourceFeature } from "./feature.ts";
import type { Layer } from "./terms.ts";

const MAX_NAME = 256;

/**
 * How findings name a feature, at most 256 characters: the id in the column that feeds `id`, else the feature's own id, else `#` and its
 * place in the file from 0. Trees are called the same in the plan, but for the `~2` of an id that another tree has already.
 */
export const featureName = (columns: ColumnMap, feature: SourceFeature): string =>
  mappedId(columns, feature.layer, feature.properties) ?? nameInFile(feature.id, feature.index);

/** How a feature is named while it is not known which column feeds `id`: by its own id, else `#` and its place in the file. */
export const nameInFile = (id: string | number | null, index: number): string =>
  id === null ? `#${index}` : String(id).slice(0, MAX_NAME);

/** The id in the column that feeds `id`, as text; null where the column is absent, says that nothing is known, or holds no plain value. */
export function mappedId(
  columns: ColumnMap,
  layer: Layer,
  properties: Readonly<Record<string, unknown>>,
): string | null {
  const { column, values, zero } = columnSource(columns, layer, "id");
  if (!Object.hasOwn(properties, column)) return null;
  const value = properties[column];
  if (typeof value !== "string" && typeof value !== "number" && typeof value !== "boolean") return null;
  const text = String(value).slice(0, MAX_NAME).trim();
  const word = Object.entries(values ?? {}).find(([from]) => from.trim().toLowerCase() === text.toLowerCase())?.[1];
  const id = word ?? text;
  if (isMissing(id) || (zero === "unknown" && Number(id) === 0)) return null;
  return id.slice(0, MAX_NAME).trim() || null;
}
