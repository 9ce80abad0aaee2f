import { type ColumnMap, FIELDS } from "../../core/model/column-map.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";

/** A city's own columns of one tree. */
export interface TreeColumns {
  /** Columns that may be shown, with their values as text. */
  readonly shown: readonly (readonly [name: string, value: string])[];
  /** Names of the columns that feed no field, chosen ones too: they may hold names of staff and owners. */
  readonly unmapped: readonly string[];
}

/** Longest text shown of a city's value; the whole of it stays in the files. */
const MAX_VALUE = 256;

/**
 * The filled columns of a tree: those that feed a field of the plan's column map, and those that `chosen` names. A plan whose column map is not
 * at hand shows columns that are called like a field.
 */
export function treeColumns(opened: OpenedPlan, row: number, chosen: ReadonlySet<string>): TreeColumns {
  const properties = opened.trees.features[row]?.properties ?? {};
  const mapped = mappedColumns(opened.columns ?? {});
  const own = Object.entries(properties).filter(
    ([name, value]) => !name.startsWith("bough_") && value !== null && value !== "",
  );
  const isShown = ([name]: readonly [string, unknown]) => mapped.has(name) || chosen.has(name);
  return {
    shown: own.filter(isShown).map(([name, value]) => {
      const text = typeof value === "object" ? JSON.stringify(value) : String(value);
      return [name, text.slice(0, MAX_VALUE)] as const;
    }),
    unmapped: own.filter((one) => !mapped.has(one[0])).map(([name]) => name),
  };
}

/** Columns that feed a field of the trees; a field that the map leaves out is fed by the column of its own name. */
function mappedColumns(columns: ColumnMap): ReadonlySet<string> {
  const trees: Readonly<Record<string, { readonly column: string } | undefined>> = columns.trees ?? {};
  return new Set(FIELDS.trees.map((field) => (Object.hasOwn(trees, field) ? trees[field]!.column : field)));
}
