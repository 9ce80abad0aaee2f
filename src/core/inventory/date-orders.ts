import { type ColumnMap, columnSource, type Field } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import { type DateOrder, provenOrder } from "../units/parse-date.ts";

export type DateOrders = ReadonlyMap<Field<"trees">, DateOrder>;

const DATE_FIELDS = ["planted", "last_pruned"] as const;

/**
 * The order of day and month that a date column proves by its own values: where some can only be read one way round and none only the
 * other, all of them are written so. A column that proves nothing, or both, has no entry.
 */
export function dateOrders(features: readonly SourceFeature[], columns: ColumnMap): DateOrders {
  const orders = new Map<Field<"trees">, DateOrder>();
  for (const field of DATE_FIELDS) {
    const { column } = columnSource(columns, "trees", field);
    const proven = new Set<DateOrder>();
    for (const { properties } of features) {
      const order = Object.hasOwn(properties, column) ? provenOrder(properties[column]) : null;
      if (order !== null) proven.add(order);
    }
    if (proven.size === 1) orders.set(field, [...proven][0]!);
  }
  return orders;
}
