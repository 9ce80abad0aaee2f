import { join } from "node:path";
import { makeCity } from "../../bench/make-city.ts";
import { runChild } from "../rows/run-child.ts";

/** The folder of a made-up city's plan with its zones, below `work`. Throws Error where the command does not end well. */
export async function zonedCity(work: string, trees: number): Promise<string> {
  const at = (name: string): string => join(work, `${name}.geojson`);
  await makeCity(
    { trees: at("trees"), buildings: at("buildings"), roads: at("roads") },
    { trees, decimals: 7, seed: 1 },
  );
  const layers = ["trees", "buildings", "roads"].flatMap((layer) => [`--${layer}`, at(layer)]);
  const plan = join(work, "plan");
  for (const argv of [
    ["enrich", ...layers, "--as-of", "2026-11-02", "--out", plan],
    ["zone", plan],
  ]) {
    const { code, err } = await runChild(argv);
    if (code !== 0) throw new Error(`${argv[0]} ended with ${code}: ${err.slice(0, 400)}`);
  }
  return plan;
}
