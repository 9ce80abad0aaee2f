import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const sample = (layer: string): string =>
  fileURLToPath(new URL(`../../sample-geojson/${layer}.geojson`, import.meta.url));

/** Layers of the sample town that stand around its trees. */
const AROUND = ["buildings", "roads", "paths", "signs", "signals", "conductors"] as const;

/** Writes the sample town's first `count` trees into a folder; gives the arguments that plan them with what stands around, on a fixed date. */
export function smallTown(
  folder: string,
  count: number,
  around: readonly (typeof AROUND)[number][] = AROUND,
): string[] {
  const town = JSON.parse(readFileSync(sample("trees"), "utf8")) as { features: unknown[] };
  const trees = join(folder, "trees.geojson");
  writeFileSync(trees, JSON.stringify({ ...town, features: town.features.slice(0, count) }));
  const layers = around.flatMap((layer) => [`--${layer}`, sample(layer)]);
  return ["--trees", trees, ...layers, "--as-of", "2026-11-02"];
}
