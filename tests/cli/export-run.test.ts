import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { EXIT } from "../../src/cli/exit-codes.ts";

const root = join(import.meta.dirname, "../..");
const home = mkdtempSync(join(tmpdir(), "export-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

function boughline(...args: string[]) {
  return spawnSync(process.execPath, ["--import", "tsx", "src/cli/main.ts", ...args], { cwd: root, encoding: "utf8" });
}

const LAYERS = ["trees", "roads"].flatMap((layer) => [`--${layer}`, `sample-geojson/${layer}.geojson`]);
const added = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.(gpkg|fgb|parquet|csv)$|^public/.test(name))
    .sort();

describe("enrich and zone with --also and --public", () => {
  const plan = join(home, "plan");

  it("write the formats asked for into the revision", () => {
    const ran = boughline(
      ...["enrich", ...LAYERS, "--as-of", "2026-05-01", "--out", plan],
      ...["--also", "gpkg,fgb", "--also", "csv", "--public"],
    );
    expect(ran.stderr).toBe("");
    expect(ran.status).toBe(EXIT.done);
    expect(added(join(plan, "revisions/1"))).toEqual([
      "conflicts.csv",
      "conflicts.fgb",
      "findings.csv",
      "plan.gpkg",
      "public",
      "public/trees.csv",
      "public/trees.fgb",
      "public/trees.geojson",
      "public/trees.gpkg",
      "spans.csv",
      "trees.csv",
      "trees.fgb",
      "visits.csv",
      "workload.csv",
      "zones.csv",
      "zones.fgb",
    ]);
    const text = readFileSync(join(plan, "current/public/trees.geojson"), "utf8");
    expect(text).not.toContain('"owner"');
    expect(text).not.toContain('"address"');

    const text1 = readFileSync(join(plan, "revisions/1/public/trees.geojson"), "utf8");
    const carried = boughline("zone", plan);
    expect(carried.stderr).toBe("");
    // Nothing said of them, the next revision has the same files.
    expect(added(join(plan, "revisions/2"))).toEqual(added(join(plan, "revisions/1")));
    const text2 = readFileSync(join(plan, "revisions/2/public/trees.geojson"), "utf8");
    expect(Object.keys(JSON.parse(text2).features[0].properties)).toEqual(
      Object.keys(JSON.parse(text1).features[0].properties),
    );

    const zoned = boughline("zone", plan, "--also", "parquet", "--public", "--public-fields", "owner");
    expect(zoned.stderr).toBe("");
    expect(added(join(plan, "current"))).toEqual([
      "conflicts.parquet",
      "findings.csv",
      "public",
      "public/trees.geojson",
      "public/trees.parquet",
      "spans.csv",
      "trees.parquet",
      "visits.csv",
      "workload.csv",
      "zones.parquet",
    ]);
    expect(readFileSync(join(plan, "current/public/trees.geojson"), "utf8")).toContain('"owner"');

    // A field that was chosen to be public stays so.
    expect(boughline("zone", plan, "--also", "csv").stderr).toBe("");
    expect(added(join(plan, "current"))).toContain("public/trees.csv");
    const chosen = readFileSync(join(plan, "current/public/trees.geojson"), "utf8");
    expect(chosen).toContain('"owner"');
    expect(chosen).not.toContain('"address"');
  }, 240_000);

  it("refuse what they do not know before anything is written", () => {
    const other = join(home, "other");
    const ran = boughline("enrich", ...LAYERS, "--out", other, "--also", "shp");
    expect(ran.status).toBe(EXIT.usage);
    expect(ran.stderr).toBe('--also takes gpkg, fgb, parquet, csv or postgres://..., got "shp".\n');
    expect(readdirSync(home)).toEqual(["plan"]);
  });
});
