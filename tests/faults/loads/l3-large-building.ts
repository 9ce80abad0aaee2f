import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { rowOf } from "../rows/row.ts";
import { toldWorst, worstOf, wrongWith } from "./measured-runs.ts";
import { featureOf, gridTree, positionAt, writeLayer } from "./write-layers.ts";

const POSITIONS = 1_000_000;
const RADIUS_M = 20_000;

/** L3: one building with a million corners. */
export const largeBuilding = rowOf(
  "l3",
  "one building of 1,000,000 positions: 20 s, 800 MB",
  [],
  async ({ work, isShort }) => {
    const count = isShort ? POSITIONS / 100 : POSITIONS;
    const trees = join(work, "trees.geojson");
    const buildings = join(work, "buildings.geojson");
    await writeLayer(trees, 30, (at) => gridTree(at, 30, { dbh: 30, height: 9 }));
    const ring = Array.from({ length: count - 1 }, (_, at) => {
      const turn = (2 * Math.PI * at) / (count - 1);
      // A wavy outline, west of the trees, of which one bay comes near them.
      const radiusM = RADIUS_M + 5 * Math.sin(turn * 50);
      return positionAt(radiusM * Math.cos(turn) - RADIUS_M - 8, radiusM * Math.sin(turn));
    });
    const shape = featureOf("Polygon", `[[${ring.join(",")},${ring[0]}]]`, { id: "B-1", height: 8 });
    writeFileSync(buildings, `{"type":"FeatureCollection","features":[${shape}]}`);
    const out = join(work, "plan");
    const argv = ["enrich", "--trees", trees, "--buildings", buildings, "--as-of", "2026-11-02", "--out", out];
    const worst = await worstOf(isShort ? 1 : 3, argv, [], () => rmSync(out, { recursive: true, force: true }));
    return { figure: `${count} positions: ${toldWorst(worst)}`, wrong: wrongWith("whole run", worst, 20, 800) };
  },
);
