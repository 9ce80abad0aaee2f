import { execFile } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "boughline-cli-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command from the checkout as a user would, in another time zone and locale than the developer's. */
const run = (...argv: string[]): Promise<Ended> => runIn("Pacific/Kiritimati", ...argv);

function runIn(zone: string, ...argv: string[]): Promise<Ended> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      ["--import", "tsx", "src/cli/main.ts", ...argv],
      { cwd: root, env: { ...process.env, TZ: zone, LC_ALL: "tr_TR.UTF-8" }, maxBuffer: 1 << 26 },
      (error, out, err) => resolve({ code: error === null ? 0 : Number(error.code), out, err }),
    );
  });
}

const sample = (name: string) => join("sample-geojson", `${name}.geojson`);
const few = join(folder, "few.geojson");
writeFileSync(
  few,
  JSON.stringify({
    type: "FeatureCollection",
    features: [
      {
        type: "Feature",
        properties: { id: "a", species: "Acer rubrum", dbh: 30, height: 12, crown_base: 2, crown_spread: 8 },
        geometry: { type: "Point", coordinates: [-139.5, 44.25] },
      },
      { type: "Feature", properties: { id: "b" }, geometry: null },
    ],
  }),
);

test("help and version are no errors, and every command is listed", async () => {
  const help = await run("--help");
  expect(help.code).toBe(0);
  for (const command of ["enrich", "zone", "packet", "view"]) expect(help.out).toContain(command);
  expect((await run("--version")).code).toBe(0);
});

test.each([
  [2, ["enrich"]],
  [2, ["enrich", "--trees", few, "--out", join(folder, "x"), "--as-of", "2026-02-30"]],
  [2, ["enrich", "--trees", few, "--out", join(folder, "x"), "--units", "furlongs"]],
  [2, ["enrich", "--trees", `${few} where`, "--out", join(folder, "x"), "--no-such-option"]],
  [2, ["enrich", "--trees", few, "--out", join(folder, "x"), "--place", "somewhere"]],
  [3, ["enrich", "--trees", join(folder, "missing.geojson"), "--out", join(folder, "x")]],
  [3, ["zone", join(folder, "nothing")]],
  [3, ["packet", join(folder, "nothing")]],
  [3, ["view", join(folder, "nothing")]],
])("exit code %i, one plain line and no stack trace: %j", async (code, argv) => {
  const ended = await run(...argv);
  expect(ended.code).toBe(code);
  expect(ended.err.trim()).not.toBe("");
  expect(ended.err).not.toMatch(/^\s+at /m);
  expect(existsSync(join(folder, "x"))).toBe(false);
});

test("broken JSON is refused with its line and column, and nothing is written", async () => {
  const broken = join(folder, "broken.geojson");
  writeFileSync(broken, '{"type":"FeatureCollection",\n"features":[}');
  const ended = await run("enrich", "--trees", broken, "--out", join(folder, "y"));
  expect(ended.code).toBe(3);
  expect(ended.err).toMatch(/line 2/i);
  expect(existsSync(join(folder, "y"))).toBe(false);
});

test("a plan is written, is refused in place of another, and is replaced when asked", async () => {
  const out = join(folder, "plan");
  const argv = ["enrich", "--trees", few, "--as-of", "2026-11-02", "--out", out];
  const first = await run(...argv);
  expect(first).toMatchObject({ code: 0, err: "" });
  expect(first.out).toContain("2 read, 1 used, 1 set aside");
  const trees = readFileSync(join(out, "current", "trees.geojson"));
  const refused = await run(...argv);
  expect(refused.code).toBe(5);
  expect(refused.err).toContain("already holds plan");
  expect(readFileSync(join(out, "current", "trees.geojson")).equals(trees)).toBe(true);
  expect((await run(...argv, "--replace", "--fail-on", "warning")).code).toBe(1);
  expect(readFileSync(join(out, "current", "trees.geojson")).equals(trees)).toBe(true);
  expect(readFileSync(join(out, "history.jsonl"), "utf8").trim().split("\n")).toHaveLength(2);
});

test("the same run in two time zones gives the same bytes, and --json prints plan.json", async () => {
  const argv = (out: string) => [
    "enrich",
    "--trees",
    sample("trees"),
    "--roads",
    sample("roads"),
    "--as-of",
    "2026-11-02",
    "--json",
    "--out",
    out,
  ];
  const [a, b] = [join(folder, "a"), join(folder, "b")];
  const one = await run(...argv(a));
  const two = await runIn("America/New_York", ...argv(b));
  expect(one.code).toBe(0);
  expect(JSON.parse(one.out)).toEqual(JSON.parse(two.out));
  for (const name of [
    "plan.json",
    "trees.geojson",
    "conflicts.geojson",
    "prescriptions.jsonl",
    "visits.csv",
    "findings.csv",
  ]) {
    expect(readFileSync(join(a, "current", name)).equals(readFileSync(join(b, "current", name)))).toBe(true);
  }
});
