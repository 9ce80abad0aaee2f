import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import type { PlanManifest } from "../../src/core/plan/plan-manifest.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "boughline-zone-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const argv = (...options: string[]): string[] => ["--import", "tsx", "src/cli/main.ts", ...options];
const boughline = (...options: string[]): string =>
  execFileSync(process.execPath, argv(...options), {
    cwd: root,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "ignore"],
  });
const manifestOf = (...options: string[]): PlanManifest => JSON.parse(boughline(...options, "--json")) as PlanManifest;

/** Eighteen low maples in a row beside a street. */
const trees = join(folder, "trees.geojson");
const roads = join(folder, "roads.geojson");
const collection = (features: object[]): string => JSON.stringify({ type: "FeatureCollection", features });
writeFileSync(
  trees,
  collection(
    Array.from({ length: 18 }, (_, at) => ({
      type: "Feature",
      properties: { id: `t${at}`, species: "Acer rubrum", dbh: 30, height: 11, crown_base: 2, crown_spread: 9 },
      geometry: { type: "Point", coordinates: [-93 + at * 0.00025, 45.00005] },
    })),
  ),
);
writeFileSync(
  roads,
  collection([
    {
      type: "Feature",
      properties: { name: "Alder Street", highway: "residential", width: 8 },
      geometry: {
        type: "LineString",
        coordinates: [
          [-93.002, 45],
          [-92.99, 45],
        ],
      },
    },
  ]),
);

test("zone takes its crew-day from its options, the next run keeps them, and a wrong one writes nothing", () => {
  const plan = join(folder, "plan");
  boughline(
    "enrich",
    "--trees",
    trees,
    "--roads",
    roads,
    "--as-of",
    "2026-11-02",
    "--place",
    "US-WI, zone 5",
    "--out",
    plan,
  );
  const whole = manifestOf("zone", plan);
  const short = manifestOf("zone", plan, "--crew-hours", "2", "--anew");
  // A day of 2 h holds 2.2 h at most, one of 8 h 8.8 h: at least as many zones, and more as soon as the work is over 2.2 h.
  expect(short.counts.zones).toBeGreaterThan(whole.counts.zones);
  expect(short.zoning).toMatchObject({ crew_hours: 2 });
  const refused = spawnSync(process.execPath, argv("zone", plan, "--crew-hours", "30"), {
    cwd: root,
    encoding: "utf8",
  });
  expect([refused.status, refused.stderr]).toEqual([
    2,
    expect.stringContaining("--crew-hours: expected a number from 1 to 24"),
  ]);
  const again = manifestOf("zone", plan);
  expect([again.zoning, again.revision]).toEqual([short.zoning, short.revision + 1]);
}, 300_000);
