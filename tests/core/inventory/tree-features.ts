import type { Point } from "geojson";
import { type Inventory, readTrees } from "../../../src/core/inventory/read-trees.ts";
import type { ColumnMap } from "../../../src/core/model/column-map.ts";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import type { PlanOptions } from "../../../src/core/model/plan.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

export const OPTIONS: PlanOptions = {
  asOf: isoDate("2026-06-15"),
  units: "metric",
  drive: "right",
  place: { hardinessZone: null, region: null },
};

/** Tree features with the given properties, each at a point of its own. */
export const treeFeatures = (rows: readonly Record<string, unknown>[]): SourceFeature<Point>[] =>
  rows.map((properties, index) => ({
    layer: "trees",
    file: "trees.geojson",
    index,
    ordinal: index,
    id: null,
    properties,
    geometry: { type: "Point", coordinates: [-123 + index / 10_000, 49] },
  }));

export const read = (
  rows: readonly Record<string, unknown>[],
  columns: ColumnMap = {},
  options: PlanOptions = OPTIONS,
): Inventory => readTrees(treeFeatures(rows), columns, usCommon(), options);

/** The only tree that a row of properties makes. */
export const readOne = (row: Record<string, unknown>, columns: ColumnMap = {}, options: PlanOptions = OPTIONS) => {
  const { trees, findings } = read([row], columns, options);
  const [tree] = trees;
  if (tree === undefined) throw new Error("The row made no tree");
  return { tree, findings, codes: findings.map((finding) => finding.code) };
};
