import { type ChildProcess, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openPlanFolder } from "../../../src/cli/folder/plan-folder.ts";
import { readCurrent } from "../../../src/cli/folder/read-current.ts";

const KILLS = 30;
const RACES = 10;
/** Files of a revision and the bytes of each: enough that most of a run is spent writing. */
const FILES = 12;
const FILE_BYTES = 40_000;

let base: string;
let script: string;

/** The writer as one plain file, so that a child starts in a tenth of a second. */
beforeAll(async () => {
  base = await mkdtemp(join(tmpdir(), "boughline-"));
  await build({
    configFile: false,
    logLevel: "error",
    build: {
      ssr: fileURLToPath(new URL("./write-forever.ts", import.meta.url)),
      outDir: base,
      emptyOutDir: false,
      minify: false,
      rollupOptions: { output: { entryFileNames: "child.mjs" } },
    },
  });
  script = join(base, "child.mjs");
});
afterAll(() => rm(base, { recursive: true, force: true }));

const start = (dir: string, runs: number): ChildProcess =>
  spawn(process.execPath, [script, dir, String(runs), String(FILES), String(FILE_BYTES)], {
    stdio: ["ignore", "pipe", "pipe"],
  });

const ended = (child: ChildProcess): Promise<number | null> =>
  new Promise((resolve) => child.once("exit", (code) => resolve(code)));

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Number of the current revision after checking that it is whole: every file there, of full length, all of the same revision. */
async function wholeRevision(dir: string): Promise<number> {
  const path = await readCurrent(dir);
  if (path === null) return 0;
  const revision = Number(path.slice(path.lastIndexOf("revisions") + "revisions/".length));
  const names = (await readdir(path)).sort();
  expect(names).toEqual(Array.from({ length: FILES }, (_, index) => `file-${index}.txt`).sort());
  for (const name of names) {
    const text = await readFile(join(path, name), "utf8");
    expect(text).toBe(`${revision} `.repeat(Math.floor(FILE_BYTES / `${revision} `.length)));
  }
  return revision;
}

describe("a plan folder under fire", () => {
  it(`holds a whole plan after each of ${KILLS} kills at random moments, and the next run clears up`, {
    timeout: 60_000,
  }, async () => {
    const dir = join(base, "killed");
    let before = 0;
    let midway = 0;
    for (let kill = 0; kill < KILLS; kill += 1) {
      const child = start(dir, 1000);
      await new Promise((resolve) => child.stdout!.once("data", resolve));
      // Runs take some ten milliseconds each; these moments fall all over them.
      await pause((kill * 7) % 60);
      child.kill("SIGKILL");
      await ended(child);
      const after = await wholeRevision(dir);
      expect(after).toBeGreaterThanOrEqual(before);
      before = after;
      const left = existsSync(dir) ? await readdir(dir, { recursive: true }) : [];
      if (left.some((name) => name.includes(".boughline-"))) midway += 1;
    }
    expect(before).toBeGreaterThan(0);
    expect(midway).toBeGreaterThan(KILLS / 4);
    const folder = await openPlanFolder(dir, { replace: true });
    expect(folder.nextRevision).toBe(before + 1);
    folder.close();
    expect((await readdir(dir)).sort()).toEqual(["current", "history.jsonl", "revisions"]);
    const revisions = (await readdir(join(dir, "revisions"))).map(Number).sort((a, b) => a - b);
    expect(revisions).toEqual(Array.from({ length: before }, (_, index) => index + 1));
    const lines = (await readFile(join(dir, "history.jsonl"), "utf8")).trimEnd().split("\n");
    expect(lines.map((line) => JSON.parse(line).revision)).toEqual(revisions);
  });

  it(`lets one of two runs win, ${RACES} times, with the other told why`, { timeout: 60_000 }, async () => {
    for (let race = 0; race < RACES; race += 1) {
      const dir = join(base, `race-${race}`);
      const children = [start(dir, 1), start(dir, 1)];
      const messages = children.map((child) => collect(child));
      const codes = await Promise.all(children.map(ended));
      const revision = await wholeRevision(dir);
      // The second may also come after the first was done, and then adds revision 2.
      expect(codes.filter((code) => code === 0)).toHaveLength(revision);
      expect(revision).toBeGreaterThan(0);
      for (const [index, code] of codes.entries()) {
        if (code !== 0) expect([code, await messages[index]]).toEqual([5, "locked"]);
      }
      expect(existsSync(join(dir, ".boughline.lock"))).toBe(false);
      await rm(dir, { recursive: true });
    }
  });
});

async function collect(child: ChildProcess): Promise<string> {
  let text = "";
  for await (const chunk of child.stderr!) text += String(chunk);
  return text.trim();
}
