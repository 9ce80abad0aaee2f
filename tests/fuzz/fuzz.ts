/**
 * Throws seeded, damaged input at the program and saves what breaks it.
 *
 *     npm run fuzz                         100,000 cases, seed 1
 *     npm run fuzz -- --runs 5000 --seed 7
 *
 * Each find goes to `tests/bad-input/found/` as the file, with its seed, kind and problem beside it; the tests run them for ever.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { prepare, problemOf } from "./invariants.ts";
import { makeCase } from "./make-case.ts";
import { randomFrom } from "./random.ts";

const FOLDER = "tests/bad-input/found/";
const { values } = parseArgs({
  options: { runs: { type: "string", default: "100000" }, seed: { type: "string", default: "1" } },
});
const runs = Number(values.runs);
const seed = Number(values.seed);

await prepare();
const started = performance.now();
const problems = new Map<string, number>();
let slowestMs = 0;
for (let run = 0; run < runs; run += 1) {
  const one = makeCase(randomFrom(seed * 1_000_003 + run));
  const before = performance.now();
  const problem = await problemOf(one);
  slowestMs = Math.max(slowestMs, performance.now() - before);
  if (problem !== null) {
    const kind = `${one.kind}: ${problem.replace(/\d+/g, "n").slice(0, 120)}`;
    const count = (problems.get(kind) ?? 0) + 1;
    problems.set(kind, count);
    if (count <= 2) save(run, one, problem);
  }
  if ((run + 1) % 1000 === 0) {
    const seconds = (performance.now() - started) / 1000;
    process.stdout.write(
      `${run + 1} of ${runs}, ${Math.round((run + 1) / seconds)} a second, slowest ${Math.round(slowestMs)} ms, ${problems.size} kinds of problem\n`,
    );
  }
}
for (const [kind, count] of problems) process.stdout.write(`${count} times ${kind}\n`);
process.exitCode = problems.size === 0 ? 0 : 1;

function save(run: number, one: ReturnType<typeof makeCase>, problem: string): void {
  mkdirSync(FOLDER, { recursive: true });
  const name = `${FOLDER}${one.kind}-${seed}-${run}`;
  writeFileSync(`${name}.geojson`, one.bytes);
  const { kind, layer, columns, crs, isLocal } = one;
  writeFileSync(`${name}.json`, `${JSON.stringify({ kind, layer, columns, crs, isLocal, problem }, null, 2)}\n`);
  process.stdout.write(`${name}: ${problem}\n`);
}
