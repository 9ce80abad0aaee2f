import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readCsv } from "../../src/formats/csv.ts";
import { COMMAND } from "../faults/command.ts";
import { filesBelow, isSameState } from "../faults/folder-state.ts";
import { smallTown } from "../faults/small-town.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "boughline-budget-"));
const dir = join(folder, "plan");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...argv: string[]): Promise<{ code: number; out: string; err: string }> =>
  new Promise((resolve) => {
    execFile(process.execPath, [...COMMAND, ...argv], { cwd: root, maxBuffer: 1 << 26 }, (error, out, err) =>
      resolve({ code: error === null ? 0 : Number(error.code), out, err }),
    );
  });

beforeAll(async () => {
  expect((await run("enrich", ...smallTown(folder, 30, ["roads", "paths"]), "--out", dir)).code).toBe(0);
  expect((await run("zone", dir)).code).toBe(0);
}, 180_000);

test("a budget's table has every visit, chosen within the hours or left, and writes nothing", async () => {
  const before = filesBelow(dir);
  const { code, out } = await run("budget", dir, "--hours", "3", "--csv");
  expect(code).toBe(0);
  const [header = [], ...rows] = readCsv(out);
  const [choice, hours] = [header.indexOf("choice"), header.indexOf("hours")];
  const chosen = rows.filter((row) => row[choice] !== "left");
  expect(chosen.length).toBeGreaterThan(0);
  expect(chosen.length).toBeLessThan(rows.length);
  // Hours are printed to two decimals each.
  expect(chosen.reduce((sum, row) => sum + Number(row[hours]), 0)).toBeLessThanOrEqual(3 + 0.01 * chosen.length);
  expect(isSameState(filesBelow(dir), before)).toBe(true);
  expect((await run("budget", dir, "--by", "streets")).code).toBe(2);
}, 180_000);
