import { join } from "node:path";
import { rowOf } from "../rows/row.ts";
import { toldWorst, worstOf, wrongWith } from "./measured-runs.ts";
import { gridTree, writeLayer } from "./write-layers.ts";

const TREES = 100_000;
const REPORT_BYTES = 2_000_000;

/** L4: very many trees with the same gap; the report sums it up instead of telling it a hundred thousand times. */
export const noHeights = rowOf(
  "l4",
  "100,000 trees without height, checked: 20 s, report of 2 MB",
  [],
  async ({ work, isShort }) => {
    const count = isShort ? TREES / 100 : TREES;
    const trees = join(work, "trees.geojson");
    await writeLayer(trees, count, (at) => gridTree(at, count, { dbh: 20 + (at % 40) }));
    const worst = await worstOf(isShort ? 1 : 3, ["check", "--trees", trees, "--json"]);
    const bytes = Buffer.byteLength(worst.last.out);
    return {
      figure: `${count} trees: ${toldWorst(worst)}; report of ${bytes} bytes`,
      wrong: [
        ...wrongWith("check", worst, 20, 1200),
        ...(bytes <= REPORT_BYTES ? [] : [`the report has ${bytes} bytes, more than ${REPORT_BYTES}`]),
      ],
    };
  },
);
