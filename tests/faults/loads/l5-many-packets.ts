import { join } from "node:path";
import { makeCity } from "../../bench/make-city.ts";
import { zonesOf } from "../report-of-zone.ts";
import { rowOf } from "../rows/row.ts";
import { runChild } from "../rows/run-child.ts";
import { toldWorst, worstOf, wrongWith } from "./measured-runs.ts";

const TREES = 5_000;
/** Memory may grow by so much from an eighth of the zones to all of them: what the list of packets takes. */
const GROWTH = 1.25;

/** L5: packets of very many zones, one by one, so that memory does not grow with them. */
export const manyPackets = rowOf(
  "l5",
  "packets of all zones of a city: 5 min, 800 MB, memory flat in their number",
  [],
  async ({ work, isShort }) => {
    const at = (name: string): string => join(work, `${name}.geojson`);
    const trees = isShort ? 200 : TREES;
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
    const zones = zonesOf(plan);
    const some = zones.slice(0, Math.ceil(zones.length / 8)).flatMap(({ zone }) => ["--zone", zone]);
    const few = await worstOf(1, ["packet", plan, ...some, "--out", join(work, "few")]);
    const all = await worstOf(1, ["packet", plan, "--out", join(work, "all")]);
    const wrong = [...wrongWith("an eighth", few, 300, 800), ...wrongWith("all", all, 300, 800)];
    if (all.peakMB > few.peakMB * GROWTH)
      wrong.push(`memory grows with the zones: ${Math.round(few.peakMB)} to ${Math.round(all.peakMB)} MB`);
    return {
      figure: `${zones.length} zones of ${trees} trees: an eighth ${toldWorst(few)}; all ${toldWorst(all)}`,
      wrong,
    };
  },
);
