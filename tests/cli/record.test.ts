import { execFile } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { COMMAND } from "../faults/command.ts";
import { filesBelow, isSameState, seenBy } from "../faults/folder-state.ts";
import { killRuns } from "../faults/kill-runs.ts";
import { linesOf, reportOfZone, zonesOf } from "../faults/report-of-zone.ts";
import { smallTown } from "../faults/small-town.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "boughline-record-"));
const base = join(folder, "base");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const run = (...argv: string[]): Promise<Ended> =>
  new Promise((resolve) => {
    execFile(
      process.execPath,
      [...COMMAND, ...argv],
      { cwd: root, env: { ...process.env, TZ: "Pacific/Kiritimati", LC_ALL: "tr_TR.UTF-8" }, maxBuffer: 1 << 26 },
      (error, out, err) => resolve({ code: error === null ? 0 : Number(error.code), out, err }),
    );
  });

beforeAll(async () => {
  expect((await run("enrich", ...smallTown(folder, 40, ["roads", "paths"]), "--out", base)).code).toBe(0);
  expect((await run("zone", base)).code).toBe(0);
}, 180_000);

let copies = 0;
/** A fresh copy of the plan, and a file with what a crew reports of its first zone. */
function planAndReport(): { dir: string; file: string } {
  const dir = join(folder, `copy-${copies++}`);
  cpSync(base, dir, { recursive: true, verbatimSymlinks: true });
  const file = `${dir}.json`;
  writeFileSync(file, JSON.stringify(reportOfZone(dir, zonesOf(dir)[0]!)));
  return { dir, file };
}
const history = (dir: string): { event: string; reports?: { file: string }[] }[] =>
  readFileSync(join(dir, "history.jsonl"), "utf8")
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));

test("previews, takes what the preview showed, and the second time takes nothing", async () => {
  const { dir, file } = planAndReport();
  const before = filesBelow(dir);
  const shown = await run("record", dir, file, "--preview", "--json");
  expect(shown.code).toBe(0);
  expect(isSameState(filesBelow(dir), before)).toBe(true);

  const took = await run("record", dir, file, "--json");
  expect(took.code).toBe(0);
  const [preview, taken] = [JSON.parse(shown.out), JSON.parse(took.out)];
  expect(taken.visits).toEqual(preview.visits);
  expect(taken.totals.take).toBe(zonesOf(base)[0]!.visit_ids.length);
  expect(taken.new_revision).toBe(3);
  expect(history(dir).at(-1)).toMatchObject({
    event: "record",
    revision: 3,
    reports: [{ file: file.slice(folder.length + 1) }],
  });
  expect(zonesOf(dir)[0]!).toMatchObject({ state: "under-way" });
  const done = linesOf(dir).filter(({ tree }) => tree.worked?.outcome === "done");
  expect(done.length).toBeGreaterThan(0);
  // What was before is whole: all files of the first two revisions, and the history's beginning.
  const after = filesBelow(dir);
  for (const [path, digest] of before) if (path.startsWith("revisions/")) expect(after.get(path)).toBe(digest);
  expect(
    readFileSync(join(dir, "history.jsonl"), "utf8").startsWith(readFileSync(join(base, "history.jsonl"), "utf8")),
  ).toBe(true);

  const again = await run("record", dir, file);
  expect(again.code).toBe(0);
  expect(again.out).toContain("Nothing was changed: there is nothing new to take.");
  expect(isSameState(filesBelow(dir), after)).toBe(true);

  const told = await run("record", dir);
  expect(told.out).toContain("Recorded in all");
  expect(told.out).toContain("Person-hours reported 12.0");
}, 180_000);

test("takes a conflict only by --take, naming the report where there are two", async () => {
  const { dir, file } = planAndReport();
  const zone = zonesOf(dir)[0]!;
  const other = `${dir}-other.json`;
  const visit = zone.visit_ids[0]!;
  writeFileSync(
    other,
    JSON.stringify(
      reportOfZone(dir, { ...zone, visit_ids: [visit] }, { reportId: "other", who: "B. Birch" }, (entry) => ({
        ...entry,
        notes: "north side only",
        who: "B. Birch",
      })),
    ),
  );
  const both = await run("record", dir, file, other, "--preview", "--json");
  expect(JSON.parse(both.out).totals).toMatchObject({ conflict: 2 });
  const vague = await run("record", dir, file, other, "--preview", "--json", "--take", visit);
  expect(JSON.parse(vague.out).totals).toMatchObject({ conflict: 2 });
  expect((await run("record", dir, file, other, "--take", `${visit}=other`)).code).toBe(0);
  const record = readFileSync(join(dir, "current/record.jsonl"), "utf8");
  expect(record).toContain('"notes":"north side only"');
  expect((await run("record", dir, file, "--take", "T-none/v1")).code).toBe(2);
}, 180_000);

describe("refuses with the reason and changes nothing", () => {
  test.each([
    [
      "another plan's",
      (text: string) => text.replace(/"planId":"[^"]+"/, '"planId":"elsewhere"'),
      /belongs to plan "elsewhere"/,
    ],
    ["a damaged", (text: string) => text.slice(0, -40), /damaged/],
    ["a foreign", () => '{"type":"FeatureCollection","features":[]}', /not a completion/],
    [
      "a hostile",
      (text: string) => text.replace(/"who":"[^"]*"/, '"who":"\\u001b[2J","planId":"x"'),
      /belongs to plan "x"/,
    ],
  ])(
    "%s file beside a good one",
    async (_, change, reason) => {
      const { dir, file } = planAndReport();
      const bad = `${dir}-bad.json`;
      writeFileSync(bad, change(readFileSync(file, "utf8")));
      const before = filesBelow(dir);
      const ended = await run("record", dir, file, bad);
      expect(ended.code).toBe(3);
      expect(ended.out).toMatch(reason);
      expect(ended.out).toContain("Nothing was changed");
      expect(ended.out).not.toContain("\u001b");
      expect(ended.err).not.toMatch(/^\s+at /m);
      expect(isSameState(filesBelow(dir), before)).toBe(true);
    },
    120_000,
  );

  test("a folder without a plan, which stays as it is", async () => {
    expect((await run("record", join(folder, "nothing"), join(folder, "trees.geojson"))).code).toBe(3);
    expect((await run("record", base, join(folder, "missing.json"))).code).toBe(3);
  }, 120_000);
});

test("two runs at once: one takes it, the other is told, and the folder holds one new revision", async () => {
  const { dir, file } = planAndReport();
  const ended = await Promise.all([run("record", dir, file), run("record", dir, file)]);
  // Whoever comes second finds the folder locked, or finds the record already there.
  for (const { code } of ended) expect([0, 5]).toContain(code);
  expect(ended.some(({ code }) => code === 0)).toBe(true);
  expect(history(dir)).toHaveLength(3);
  expect(seenBy(dir).get("current")).toBe("revisions/3");
}, 180_000);

test("killed while writing, the folder holds the old plan or the new one, whole", async () => {
  const { torn, kills } = await killRuns("record", 10, 7);
  expect(kills).toBe(10);
  expect(torn).toEqual([]);
}, 1_200_000);
