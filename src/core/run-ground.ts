import type { Point } from "geojson";
import { type Inventory, readTrees } from "./inventory/read-trees.ts";
import type { ColumnMap } from "./model/column-map.ts";
import type { SourceFeature } from "./model/feature.ts";
import type { Finding } from "./model/finding.ts";
import type { PlanOptions, SetAside } from "./model/plan.ts";
import type { Layer } from "./model/terms.ts";
import type { Standard } from "./standard/standard.ts";
import { buildSurroundings } from "./surroundings/build-surroundings.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";

/** What is read once, for all trees: the trees themselves and what stands around them. */
export interface RunGround {
  readonly inventory: Inventory;
  readonly surroundings: Surroundings;
  /** Features the stages could not use, beside those the reader set aside. */
  readonly setAside: readonly SetAside[];
  readonly findings: readonly Finding[];
}

/** What {@link layGround} needs; features passed the reader's checks, and a layer that was not given is absent. */
export interface GroundInput {
  readonly layers: { readonly [L in Layer]?: readonly SourceFeature[] };
  readonly columns: ColumnMap;
  readonly standard: Standard;
  readonly options: PlanOptions;
  /** Called with the share done of the whole run, 0 to 1, and what is being done. */
  readonly onProgress?: (share: number, doing: string) => void;
}

/** Reads the trees, with what is common to all of them such as medians and ids, and places what stands around them. */
export function layGround({ layers, columns, standard, options, onProgress }: GroundInput): RunGround {
  onProgress?.(0, "Reading the trees");
  const trees = (layers.trees ?? []) as readonly SourceFeature<Point>[];
  const inventory = readTrees(trees, columns, standard, options);
  onProgress?.(0.15, "Placing what stands around them");
  const around = buildSurroundings(layers, columns, standard, options);
  return {
    inventory,
    surroundings: around.surroundings,
    setAside: [...inventory.setAside, ...around.setAside],
    findings: [...inventory.findings, ...around.findings],
  };
}
