import { rmSync } from "node:fs";
import { join } from "node:path";
import { makeCity } from "../../bench/make-city.ts";
import { rowOf } from "../rows/row.ts";
import { toldWorst, worstOf, wrongWith } from "./measured-runs.ts";
import { featureOf, positionAt, writeLayer } from "./write-layers.ts";

const TREES = 100_000;
const SPANS = 2_000;

/** L1: a city of 100,000 trees planned whole with its tables. */
export const city = rowOf(
  "l1",
  "100,000 trees, 50,000 buildings, 5,000 roads, 2,000 spans: 120 s, 1.2 GB",
  [],
  async ({ work, isShort }) => {
    const trees = isShort ? TREES / 100 : TREES;
    const at = (name: string): string => join(work, `${name}.geojson`);
    await makeCity(
      { trees: at("trees"), buildings: at("unused"), roads: at("roads") },
      { trees, decimals: 7, seed: 1 },
    );
    await makeCity(
      { trees: at("unused"), buildings: at("buildings"), roads: at("unused") },
      { trees: trees / 2, decimals: 7, seed: 1 },
    );
    // Beside the curbs of the first streets, a block's length each.
    const wide = Math.ceil(Math.sqrt(trees / 40));
    await writeLayer(at("conductors"), isShort ? SPANS / 100 : SPANS, (span) => {
      const [eastM, northM] = [(span % wide) * 130, Math.floor(span / wide) * 130 + 5.5];
      return featureOf("LineString", `[${positionAt(eastM, northM)},${positionAt(eastM + 40, northM)}]`, {
        id: `C-${span + 1}`,
        voltage: 12_470,
        attachment_height_1: 10.4,
        attachment_height_2: 10.4,
        sag: 0.4,
        insulation: "bare",
        location: "overhead",
      });
    });
    const layers = ["trees", "buildings", "roads", "conductors"].flatMap((layer) => [`--${layer}`, at(layer)]);
    const out = join(work, "plan");
    const argv = ["enrich", ...layers, "--as-of", "2026-11-02", "--also", "csv", "--out", out];
    const worst = await worstOf(isShort ? 1 : 3, argv, ["--max-old-space-size=1024"], () =>
      rmSync(out, { recursive: true, force: true }),
    );
    return { figure: `${trees} trees: ${toldWorst(worst)}`, wrong: wrongWith("whole run", worst, 120, 1200) };
  },
);
