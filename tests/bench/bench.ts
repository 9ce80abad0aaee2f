/**
 * Measures whole runs and single stages on a seeded city. Nothing is asserted: times are no test.
 *
 *     npm run bench                                  5,000 trees, five runs
 *     npm run bench -- --trees 200000 --runs 5       a whole city
 *     npm run bench -- --decimals 15                 coordinates as unrounded exports write them
 *     npm run bench -- --threads 1,2                 whole runs on each number of threads
 *     npm run bench -- --warm-up 0                   without the run that is not counted
 *     npm run bench -- --write                       puts the tables into docs/performance.md
 */
import { createHash } from "node:crypto";
import {
  createReadStream,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import os from "node:os";
import path from "node:path";
import { parseArgs } from "node:util";
import { type Figures, figuresOf, type Measured, markdownTable } from "./bench-table.ts";
import { enrichName, FLOOR, goalRows, goalTable, NATIVE_GEOS, POSTGIS } from "./goals.ts";
import { joinByNativeGeos } from "./join-by-native-geos.ts";
import { joinByPostgis } from "./join-by-postgis.ts";
import type { OutsideJoin } from "./join-outside.ts";
import { type CityFiles, makeCity } from "./make-city.ts";
import { measure, runProcess, type Usage } from "./run-process.ts";
import { stagesOf } from "./stages.ts";

const { values } = parseArgs({
  options: {
    trees: { type: "string", default: "5000" },
    runs: { type: "string", default: "5" },
    decimals: { type: "string", default: "7" },
    seed: { type: "string", default: "1" },
    threads: { type: "string", default: "1,2" },
    "warm-up": { type: "string", default: "1" },
    only: { type: "string", default: "" },
    write: { type: "boolean", default: false },
  },
});
const runs = Number(values.runs);
const warmUps = Number(values["warm-up"]);
const PAGE = path.join(import.meta.dirname, "../../docs/performance.md");

const folder = mkdtempSync(path.join(os.tmpdir(), "boughline-bench-"));
try {
  await main();
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function main(): Promise<void> {
  const files = filesNamed("");
  const options = { trees: Number(values.trees), decimals: Number(values.decimals), seed: Number(values.seed) };
  const counts = await makeCity(files, options);
  const shape = (Object.keys(files) as (keyof CityFiles)[])
    .map((layer) => `${counts[layer].toLocaleString("en-US")} ${layer} (${megabytes(files[layer])} MB)`)
    .join(", ");
  const about = [
    `City: ${shape}; seed ${options.seed}, ${options.decimals} decimals. All of it is invented.`,
    `Machine: ${os.cpus().length} x ${os.cpus()[0]?.model.trim() ?? "unknown"}, ${Math.round(os.totalmem() / 2 ** 30)} GB, Node ${process.version}, ${os.platform()} ${os.release()}; load average ${os.loadavg()[0]!.toFixed(1)} at the start.`,
    `Command: npm run bench -- ${process.argv.slice(2).join(" ")}`.trim(),
  ];
  for (const line of about) process.stdout.write(`${line}\n`);

  const whole = values.only === "stages" ? [] : await wholeRuns(files);
  const unrounded = filesNamed("unrounded-");
  if (values.only !== "whole") await makeCity(unrounded, { ...options, decimals: 15 });
  const stages = values.only === "whole" ? [] : await stageRuns(files, unrounded);
  const goals = goalRows([...whole, ...stages]);
  const tables = [
    ...(whole.length === 0 ? [] : ["### Whole processes\n", markdownTable(whole, FLOOR), ""]),
    ...(stages.length === 0 ? [] : ["### Stages, in one warm process\n", markdownTable(stages, stages[0]!.name), ""]),
    ...(goals.length === 0 ? [] : ["### Goals beside what was measured\n", goalTable(goals), ""]),
  ].join("\n");
  process.stdout.write(`\n${tables}\n`);
  if (values.write) writePage(about, tables, { about, whole, stages, goals });
}

/** One warm-up each, then the contenders in turn, so that a busy minute meets all of them. */
async function wholeRuns({ trees, buildings, roads }: CityFiles): Promise<Figures[]> {
  const stringified = path.join(folder, "stringified.geojson");
  const plan = path.join(folder, "plan");
  const layers = ["--trees", trees, "--buildings", buildings, "--roads", roads];
  const contenders = [
    {
      name: FLOOR,
      run: () => runProcess(folder, "tests/bench/parse-and-stringify.ts", [trees, buildings, roads, stringified]),
      checksum: () => digestOf([stringified]),
    },
    ...values.threads.split(",").map((threads) => ({
      name: enrichName(threads),
      run: () => {
        rmSync(plan, { recursive: true, force: true });
        const how = ["--as-of", "2026-11-02", "--place", "US-WI, zone 5", "--threads", threads, "--out", plan];
        return runProcess(folder, "src/cli/main.ts", ["enrich", ...layers, ...how]);
      },
      checksum: () =>
        digestOf(
          readdirSync(path.join(plan, "current"))
            .sort()
            .map((name) => path.join(plan, "current", name)),
        ),
    })),
  ];
  const measured: { usages: Usage[]; checksums: Set<string> }[] = contenders.map(() => ({
    usages: [],
    checksums: new Set(),
  }));
  for (let run = 1 - warmUps; run <= runs; run += 1) {
    for (const [at, contender] of contenders.entries()) {
      const usage = await contender.run();
      measured[at]!.checksums.add(await contender.checksum());
      if (run > 0) measured[at]!.usages.push(usage);
      process.stderr.write(`run ${run} of ${runs}: ${contender.name}: user ${Math.round(usage.userMs)} ms\n`);
    }
  }
  const plans = new Set(measured.slice(1).flatMap(({ checksums }) => [...checksums]));
  if (plans.size > 1) throw new Error("Plans differ by the number of threads");
  return contenders.map(({ name }, at) =>
    finished({ name, runs: measured[at]!.usages, times: 1 }, measured[at]!.checksums),
  );
}

async function stageRuns(files: CityFiles, unrounded: CityFiles): Promise<Figures[]> {
  const { stages, join, sumM } = await stagesOf(files, unrounded);
  const measured = stages.map(() => ({ usages: [] as Usage[], checksums: new Set<string>() }));
  for (let run = 1 - warmUps; run <= runs; run += 1) {
    for (const [at, stage] of stages.entries()) {
      const { usage, checksum } = await measure(stage.work);
      measured[at]!.checksums.add(String(checksum));
      if (run > 0) measured[at]!.usages.push(usage);
    }
    process.stderr.write(`run ${run} of ${runs}: stages\n`);
  }
  return [
    ...stages.map(({ name, times }, at) =>
      finished({ name, runs: measured[at]!.usages, times }, measured[at]!.checksums),
    ),
    ...outside(NATIVE_GEOS, joinByNativeGeos(folder, join, runs), sumM, join.trees.length),
    ...outside(POSTGIS, joinByPostgis(join, runs), sumM, join.trees.length),
  ];
}

/** A join by another program, if it is there; throws where its sum is not ours to the rounding of coordinates of five million meters. */
function outside(name: string, joined: OutsideJoin | null, sumM: number, trees: number): Figures[] {
  if (joined === null) {
    process.stderr.write(`left out, as it is not on this machine: ${name}\n`);
    return [];
  }
  if (!(Math.abs(joined.sumM - sumM) < 1e-6 * trees)) throw new Error(`${name} gave ${joined.sumM} m, ours ${sumM} m`);
  return [figuresOf({ name, runs: joined.usages, times: 1, checksum: String(joined.sumM) })];
}

/** A contender that does not give the same every time is no contender. */
function finished(measured: Omit<Measured, "checksum">, checksums: ReadonlySet<string>): Figures {
  if (checksums.size !== 1) throw new Error(`${measured.name} gave ${checksums.size} different results`);
  return figuresOf({ ...measured, checksum: [...checksums][0]! });
}

async function digestOf(files: readonly string[]): Promise<string> {
  const hash = createHash("sha256");
  for (const file of files) for await (const piece of createReadStream(file)) hash.update(piece as Buffer);
  return hash.digest("hex").slice(0, 16);
}

/** Replaces what stands between the marks of the page; the figures follow the tables as JSON. */
function writePage(about: readonly string[], tables: string, figures: unknown): void {
  if (!existsSync(PAGE)) throw new Error(`${PAGE} is missing`);
  const page = readFileSync(PAGE, "utf8");
  const [begin, end] = ["<!-- bench -->", "<!-- /bench -->"];
  const json = `<details><summary>The same as JSON</summary>\n\n\`\`\`json\n${JSON.stringify(figures, null, 1)}\n\`\`\`\n\n</details>`;
  const text = `${begin}\n\n${about.map((line) => `- ${line}`).join("\n")}\n\n${tables}\n${json}\n\n${end}`;
  writeFileSync(PAGE, page.slice(0, page.indexOf(begin)) + text + page.slice(page.indexOf(end) + end.length));
}

function filesNamed(prefix: string): CityFiles {
  const [trees, buildings, roads] = ["trees", "buildings", "roads"].map((layer) =>
    path.join(folder, `${prefix}${layer}.geojson`),
  ) as [string, string, string];
  return { trees, buildings, roads };
}

function megabytes(file: string): string {
  return (statSync(file).size / 1e6).toFixed(1);
}
