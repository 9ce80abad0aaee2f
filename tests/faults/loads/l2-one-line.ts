import { rmSync } from "node:fs";
import { join } from "node:path";
import { rowOf } from "../rows/row.ts";
import { toldWorst, worstOf, wrongWith } from "./measured-runs.ts";
import { gridTree, writeLayer } from "./write-layers.ts";

const TREES = 300_000;

/** L2: very many trees on one line of text. */
export const oneLine = rowOf("l2", "300,000 trees on one line: 6 min, 2 GB", [], async ({ work, isShort }) => {
  const count = isShort ? TREES / 100 : TREES;
  const trees = join(work, "trees.geojson");
  await writeLayer(
    trees,
    count,
    (at) => gridTree(at, count, { dbh: 30, height: 9, address: `${at + 1} Example Avenue, Sample Harbor` }),
    ",",
  );
  const out = join(work, "plan");
  const read = await worstOf(1, ["check", "--trees", trees]);
  const planned = await worstOf(1, ["enrich", "--trees", trees, "--as-of", "2026-11-02", "--out", out], [], () =>
    rmSync(out, { recursive: true, force: true }),
  );
  return {
    figure: `${count} trees: check ${toldWorst(read)}; enrich ${toldWorst(planned)}`,
    wrong: [...wrongWith("check", read, 360, 2000), ...wrongWith("enrich", planned, 360, 2000)],
  };
});
