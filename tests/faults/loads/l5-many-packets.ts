import { join } from "node:path";
import { zonesOf } from "../report-of-zone.ts";
import { rowOf } from "../rows/row.ts";
import { toldWorst, worstOf, wrongWith } from "./measured-runs.ts";
import { zonedCity } from "./zoned-city.ts";

const TREES = 5_000;
/** Memory may grow by so much from an eighth of the zones to all of them: what the list of packets takes. */
const GROWTH = 1.25;

/** L5: packets of very many zones, one by one, so that memory does not grow with them. */
export const manyPackets = rowOf(
  "l5",
  "packets of all zones of a city: 5 min, 800 MB, memory flat in their number",
  [],
  async ({ work, isShort }) => {
    const trees = isShort ? 200 : TREES;
    const plan = await zonedCity(work, trees);
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
