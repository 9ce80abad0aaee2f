import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { COMMAND } from "../faults/command.ts";
import { filesBelow, isSameState } from "../faults/folder-state.ts";
import { linesOf } from "../faults/report-of-zone.ts";
import { smallTown } from "../faults/small-town.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "boughline-words-"));
const dir = join(folder, "plan");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...argv: string[]): Promise<{ code: number; out: string; err: string }> =>
  new Promise((resolve) => {
    execFile(
      process.execPath,
      [...COMMAND, ...argv],
      { cwd: root, env: { ...process.env, TZ: "Pacific/Kiritimati" }, maxBuffer: 1 << 26 },
      (error, out, err) => resolve({ code: error === null ? 0 : Number(error.code), out, err }),
    );
  });

beforeAll(async () => {
  expect((await run("enrich", ...smallTown(folder, 40, ["roads", "paths"]), "--out", dir)).code).toBe(0);
  expect((await run("zone", dir)).code).toBe(0);
}, 180_000);

test("a table of words is previewed, taken with what can be used, and changes nothing the second time", async () => {
  const [tree] = linesOf(dir).filter(({ prescription }) => prescription.visits.length > 0);
  const { id } = tree!.tree;
  const file = join(folder, "words.csv");
  const head = "tree,visit,word,value,from,to,due,on,by,why,id";
  const rows = [
    `${id},,do-not-prune,,,,,2026-11-10,R. Alder,goes with the new sidewalk,stop-1`,
    "nobody,,note,hello,,,,2026-11-10,R. Alder,,",
    `${id},,height,12,,,,2026-11-10,R. Alder,,`,
  ];
  writeFileSync(file, [head, ...rows].join("\n"));
  const before = filesBelow(dir);
  const shown = await run("record", dir, file, "--preview", "--json");
  expect(shown.code).toBe(0);
  expect(isSameState(filesBelow(dir), before)).toBe(true);
  expect(JSON.parse(shown.out)).toMatchObject({
    changes_anything: true,
    words: [
      { line: 2, status: "take", word: "stop-1", tree: id, kind: "do-not-prune" },
      { line: 3, status: "refused", reason: "The plan has no tree nobody." },
    ],
    rows_set_aside: [{ line: 4 }],
  });

  const took = await run("record", dir, file);
  expect(took.code).toBe(0);
  expect(took.out).toMatch(/Arborists' words: 1 taken, 0 there already, 2 set aside/);
  expect(took.out).toMatch(/words\.csv, line 4: value is "12" without a unit/);
  expect(linesOf(dir).find((line) => line.tree.id === id)!.prescription.visits).toEqual([]);
  const last = readFileSync(join(dir, "history.jsonl"), "utf8").trim().split("\n").at(-1)!;
  expect(JSON.parse(last)).toMatchObject({ event: "record", words: [{ word: "stop-1", by: "R. Alder" }] });

  const after = filesBelow(dir);
  expect((await run("record", dir, file)).out).toMatch(/0 taken|0 to be taken/);
  expect(isSameState(filesBelow(dir), after)).toBe(true);

  writeFileSync(file, `${head}\n,,take-back,stop-1,,,,2026-11-12,B. Birch,the sidewalk stays,\n`);
  expect((await run("record", dir, file)).code).toBe(0);
  expect(linesOf(dir).find((line) => line.tree.id === id)!.prescription).toEqual(tree!.prescription);
}, 120_000);
