import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { smallTown } from "../small-town.ts";
import { rowOf } from "./row.ts";
import { runChild, showsTrace } from "./run-child.ts";

const PRELOAD = fileURLToPath(new URL("./change-while-read.mjs", import.meta.url));
const CHANGES = ["append", "cut", "delete", "replace"];

/** F13: an input that changes or vanishes while it is read is refused; a plan is never made of two versions of a file. */
export const changingInput = rowOf(
  "f13",
  "input that changes or vanishes while it is read: refused, never a mix of two versions",
  [],
  async ({ work, isShort, onProgress }) => {
    const wrong: string[] = [];
    const out = join(work, "plan");
    const trees = join(work, "trees.geojson");
    for (const change of CHANGES.slice(0, isShort ? 1 : CHANGES.length)) {
      const argv = ["enrich", ...smallTown(work, 30, ["roads"]), "--threads", "1", "--out", out];
      const env = { BOUGHLINE_FAULT_FILE: trees, BOUGHLINE_FAULT_CHANGE: change };
      const { code, err } = await runChild(argv, { node: ["--import", PRELOAD], env });
      if (code !== 3) wrong.push(`${change}: exit ${code}, ${err.slice(0, 200)}`);
      if (!/changed while being read|does not exist/.test(err) || showsTrace(err))
        wrong.push(`${change}: it says ${err}`);
      onProgress(`${change}: exit ${code}`);
      if (existsSync(out)) wrong.push(`${change}: a folder was made`);
    }
    const { told, mixed } = isShort ? { told: "", mixed: [] } : await whileWriting(work);
    return {
      figure: `${isShort ? 1 : CHANGES.length} changes between size and content refused${told}`,
      wrong: [...wrong, ...mixed],
    };
  },
);

/** Runs beside a writer that puts two versions of the trees into the file in turn; each plan that is made must be of one of them. */
async function whileWriting(work: string): Promise<{ told: string; mixed: string[] }> {
  const mixed: string[] = [];
  const argv = smallTown(work, 300, ["roads"]);
  const trees = join(work, "trees.geojson");
  const one = readFileSync(trees, "utf8");
  const other = one.replaceAll('"id":"', '"id":"Z');
  let refused = 0;
  let made = 0;
  for (let run = 0; run < 10; run += 1) {
    const out = join(work, `beside-${run}`);
    let turn = 0;
    const writer = setInterval(() => {
      turn += 1;
      writeFileSync(trees, turn % 2 === 0 ? one : other);
    }, 3);
    const { code, err } = await runChild(["enrich", ...argv, "--threads", "1", "--out", out]);
    clearInterval(writer);
    if (code === 3) refused += 1;
    else if (code !== 0) mixed.push(`beside a writer: exit ${code}, ${err.slice(0, 200)}`);
    else {
      made += 1;
      const ids = (JSON.parse(readFileSync(join(out, "current/trees.geojson"), "utf8")) as Trees).features.map(
        ({ properties }) => properties.id.startsWith("Z"),
      );
      if (ids.length !== 300 || new Set(ids).size !== 1) mixed.push(`beside a writer: run ${run} planned a mix`);
    }
  }
  return { told: `; 10 runs beside a writer: ${refused} refused, ${made} planned one version`, mixed };
}

interface Trees {
  readonly features: readonly { readonly properties: { readonly id: string } }[];
}
