import { existsSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { parseArgs } from "node:util";
import { Stryker } from "@stryker-mutator/core";

/**
 * Changes the core one small step at a time and runs the tests of its stage on each change: `npm run mutate -- schedule` for a stage,
 * `npm run mutate -- src/core/schedule/urgency.ts` for files. What no test noticed is printed; `dist/mutation/` keeps the report, and a
 * second run only tries what changed since. `--tests` names other test files, `--jobs` how many run at once.
 */
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { tests: { type: "string", multiple: true }, jobs: { type: "string", default: "1" } },
});
if (positionals.length === 0) {
  console.error("Name a stage of src/core or files in one: npm run mutate -- schedule");
  process.exit(2);
}

const ROOT = path.join(import.meta.dirname, "../..");
process.chdir(ROOT);
const places = positionals.map((name) => (existsSync(name) ? name : `src/core/${name}`));
const mutate = places.map((place) => (statSync(place).isDirectory() ? `${place}/**/*.ts` : place));
const stages = [...new Set(places.map((place) => place.split("/")[2]!))];
process.env.MUTATION_TESTS = JSON.stringify(values.tests ?? stages.map((stage) => `tests/core/${stage}/**/*.test.ts`));

const name = positionals.map((place) => place.replaceAll("/", ".")).join("+");
const mutants = await new Stryker({
  mutate,
  testRunner: "vitest",
  plugins: ["@stryker-mutator/vitest-runner"],
  vitest: { configFile: "tests/mutation/vitest.config.ts", related: false },
  coverageAnalysis: "perTest",
  concurrency: Number(values.jobs),
  timeoutMS: 30_000,
  incremental: true,
  incrementalFile: `dist/mutation/${name}.incremental.json`,
  tempDirName: path.join(tmpdir(), "boughline-mutants"),
  ignorePatterns: ["/*", "!/src", "!/tests", "/tests/bad-input", "!/package.json", "!/tsconfig.json"],
  // A file that is not there: Stryker would rewrite tsconfig.json by an interface that TypeScript 7 no longer has, and nothing here needs it.
  tsconfigFile: "none.json",
  reporters: ["progress-append-only", "clear-text", "json"],
  clearTextReporter: { allowColor: false, allowEmojis: false, logTests: false, reportTests: false },
  jsonReporter: { fileName: `dist/mutation/${name}.json` },
  allowConsoleColors: false,
}).runMutationTest();
console.log(`${mutants.length} mutants of ${mutate.join(", ")}`);
