import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { enrich } from "../../src/cli/commands/enrich.ts";
import { zone } from "../../src/cli/commands/zone.ts";
import { readHistory } from "../../src/cli/folder/history.ts";

const SAMPLE = new URL("../../sample-geojson/", import.meta.url).pathname;
let scratch: string;
let dir: string;
let printed = "";

beforeAll(async () => {
  scratch = await mkdtemp(join(tmpdir(), "boughline-previous-"));
  dir = join(scratch, "plan");
  vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    printed += String(text);
    return true;
  });
  const town = JSON.parse(await readFile(`${SAMPLE}trees.geojson`, "utf8"));
  const few = { ...town, features: town.features.slice(0, 60) };
  await writeFile(join(scratch, "trees.geojson"), JSON.stringify(few));
  await enrich({
    trees: [join(scratch, "trees.geojson")],
    roads: [`${SAMPLE}roads.geojson`],
    paths: [`${SAMPLE}paths.geojson`],
    place: "US-WI, zone 5",
    drive: "left",
    asOf: "2026-11-02",
    out: dir,
  });
  await zone(dir, {});
}, 240_000);

afterAll(async () => {
  vi.restoreAllMocks();
  await rm(scratch, { recursive: true, force: true });
});

const manifest = async (folder: string) => JSON.parse(await readFile(join(folder, "current", "plan.json"), "utf8"));

test("the same folder gets the next revision of the same plan, with layers, rules and place of the one before", async () => {
  const before = await manifest(dir);
  printed = "";
  expect(await enrich({ previous: dir, asOf: "2027-11-02", out: dir })).toBe(0);
  const now = await manifest(dir);
  expect(now).toMatchObject({
    plan: before.plan,
    revision: 3,
    drive: "left",
    place: before.place,
    standard: before.standard,
  });
  expect(now.counts.trees).toBe(60);
  expect(now.changes).toMatchObject({ since_revision: 1, previous_revision: 2, trees: { matched: 60 } });
  expect(now.changes.by_cause).toMatchObject({ data: 0, rule: 0, surroundings: 0, model: 0 });
  expect(now.counts.zones).toBeGreaterThan(0);
  expect(printed).toContain("What is new since revision 1, as of 2026-11-02");
  const { lines } = await readHistory(dir);
  expect(lines.map(({ event }) => event)).toEqual(["enrich", "zone", "enrich"]);
}, 240_000);

test("another folder gets the same plan under the next number", async () => {
  const other = join(scratch, "other");
  await enrich({ previous: dir, asOf: "2028-11-02", out: other });
  expect(await manifest(other)).toMatchObject({ plan: (await manifest(dir)).plan, revision: 4 });
}, 240_000);

test("nothing is carried back, and a date of measuring needs a plan", async () => {
  await expect(enrich({ previous: dir, asOf: "2020-01-01", out: dir })).rejects.toThrow(/before the date/);
  await expect(enrich({ measuredOn: "2027-01-01", trees: ["x"], out: dir })).rejects.toThrow(/needs --previous/);
  await expect(enrich({ previous: join(scratch, "none"), out: dir })).rejects.toThrow(/holds no plan/);
});
