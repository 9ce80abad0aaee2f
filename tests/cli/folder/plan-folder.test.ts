import { existsSync, readFileSync } from "node:fs";
import { mkdir, mkdtemp, readdir, readFile, readlink, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type CannotWriteCause, CannotWriteError } from "../../../src/cli/folder/cannot-write-error.ts";
import { LOCK } from "../../../src/cli/folder/folder-lock.ts";
import { openPlanFolder } from "../../../src/cli/folder/plan-folder.ts";
import { readCurrent } from "../../../src/cli/folder/read-current.ts";
import type { RevisionFile } from "../../../src/cli/folder/revision-files.ts";
import { writeRevision } from "../../../src/cli/folder/write-revision.ts";

const note = { plan: "oak-street", as_of: "2026-11-02", event: "enrich" };
let base: string;
let dir: string;

beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), "boughline-"));
  dir = join(base, "plan");
});
afterEach(() => rm(base, { recursive: true, force: true }));

/** Why opening or writing was refused. */
async function refusal(action: Promise<unknown>): Promise<CannotWriteError> {
  const error = await action.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  expect(error).toBeInstanceOf(CannotWriteError);
  return error as CannotWriteError;
}

const whyOf = async (action: Promise<unknown>): Promise<CannotWriteCause> => (await refusal(action)).why;

/** Every file under a folder with its text, and every link with its target. */
async function everything(folder: string): Promise<Record<string, string>> {
  const all: Record<string, string> = {};
  for (const entry of await readdir(folder, { withFileTypes: true, recursive: true })) {
    const path = join(entry.parentPath, entry.name);
    if (entry.isFile()) all[path] = await readFile(path, "utf8");
    if (entry.isSymbolicLink()) all[path] = await readlink(path);
  }
  return all;
}

describe("writeRevision", () => {
  it("writes revision 1, its history and the link to it, and nothing else", async () => {
    const pieces = [new TextEncoder().encode("{}"), new TextEncoder().encode("\n")];
    const path = await writeRevision(
      dir,
      [
        ["plan.json", pieces],
        ["packets/zone 1.txt", "é"],
        ["empty", new Uint8Array()],
      ],
      { note },
    );
    expect(path).toBe(join(dir, "revisions", "1"));
    expect(await readCurrent(dir)).toBe(path);
    expect(await everything(dir)).toEqual({
      [join(dir, "current")]: "revisions/1",
      [join(dir, "history.jsonl")]: '{"revision":1,"plan":"oak-street","as_of":"2026-11-02","event":"enrich"}\n',
      [join(path, "plan.json")]: "{}\n",
      [join(path, "packets", "zone 1.txt")]: "é",
      [join(path, "empty")]: "",
    });
  });

  it("refuses a plan that is there, names it, and changes nothing", async () => {
    await writeRevision(dir, [["plan.json", "old"]], { note });
    const before = await everything(dir);
    const error = await refusal(writeRevision(dir, [["plan.json", "new"]], { note }));
    expect(error.why).toBe("existing-plan");
    expect(error.message).toContain("oak-street as of 2026-11-02 (revision 1)");
    expect(await everything(dir)).toEqual(before);
  });

  it("puts a new revision in its place with replace, and keeps the earlier one and the history", async () => {
    const first = await writeRevision(dir, [["plan.json", "old"]], { note });
    const second = await writeRevision(dir, [["plan.json", "new"]], {
      note: { ...note, event: "zone" },
      replace: true,
    });
    expect(await readCurrent(dir)).toBe(second);
    expect(readFileSync(join(second, "plan.json"), "utf8")).toBe("new");
    expect(readFileSync(join(first, "plan.json"), "utf8")).toBe("old");
    const lines = readFileSync(join(dir, "history.jsonl"), "utf8").trimEnd().split("\n");
    expect(lines.map((line) => JSON.parse(line)).map(({ revision, event }) => [revision, event])).toEqual([
      [1, "enrich"],
      [2, "zone"],
    ]);
  });

  it("keeps foreign files, and never reuses a number under revisions", async () => {
    await mkdir(join(dir, "revisions", "7"), { recursive: true });
    await writeFile(join(dir, "notes.txt"), "mine");
    await writeFile(join(dir, "revisions", "7", "mine.txt"), "mine too");
    expect(await writeRevision(dir, [["plan.json", "x"]], { note })).toBe(join(dir, "revisions", "8"));
    expect(readFileSync(join(dir, "notes.txt"), "utf8")).toBe("mine");
    expect(readFileSync(join(dir, "revisions", "7", "mine.txt"), "utf8")).toBe("mine too");
  });

  it("refuses a file, a link, the inputs' folder and names that are taken, all before anything is computed", async () => {
    await mkdir(join(base, "data", "deep"), { recursive: true });
    await writeFile(join(base, "data", "deep", "trees.geojson"), "{}");
    await writeFile(join(base, "file"), "");
    await symlink(join(base, "data"), join(base, "link"));
    const inputs = [join(base, "data", "deep", "trees.geojson")];
    expect(await whyOf(openPlanFolder(join(base, "file")))).toBe("not-a-folder");
    expect(await whyOf(openPlanFolder(join(base, "file", "plan")))).toBe("not-a-folder");
    expect(await whyOf(openPlanFolder(join(base, "link")))).toBe("link");
    expect(await whyOf(openPlanFolder(`${join(base, "link")}/`))).toBe("link");
    expect(await whyOf(openPlanFolder(join(base, "data"), { inputs }))).toBe("holds-inputs");
    expect(await whyOf(openPlanFolder(join(base, "data", "deep"), { inputs }))).toBe("holds-inputs");
    await writeFile(join(base, "data", "current"), "x");
    expect(await whyOf(openPlanFolder(join(base, "data")))).toBe("foreign-names");
    expect((await readdir(base)).sort()).toEqual(["data", "file", "link"]);
    expect((await readdir(join(base, "data"))).sort()).toEqual(["current", "deep"]);
  });

  it("takes a folder beside the inputs", async () => {
    await writeFile(join(base, "trees.geojson"), "{}");
    const folder = await openPlanFolder(dir, { inputs: [join(base, "trees.geojson")] });
    folder.close();
    expect(existsSync(dir)).toBe(false);
  });

  it("takes back the folders it made when the run gives up", async () => {
    const folder = await openPlanFolder(join(dir, "a", "b"));
    expect(folder.nextRevision).toBe(1);
    folder.close();
    folder.close();
    expect(await readdir(base)).toEqual([]);
  });

  it("leaves the old plan alone when the files' iterator throws or a path leaves the folder", async () => {
    await writeRevision(dir, [["plan.json", "old"]], { note });
    const before = await everything(dir);
    function* breaking(): Generator<RevisionFile> {
      yield ["plan.json", "new"];
      throw new Error("no more trees");
    }
    await expect(writeRevision(dir, breaking(), { note, replace: true })).rejects.toThrow("no more trees");
    for (const path of ["../x", "/x", "a/../../x", "a//b", "", "a\\b", "c:x", "a/./b"]) {
      await expect(writeRevision(dir, [[path, ""]], { note, replace: true })).rejects.toThrow(RangeError);
    }
    await expect(
      writeRevision(
        dir,
        [
          ["a", ""],
          ["A", ""],
        ],
        { note, replace: true },
      ),
    ).rejects.toThrow(RangeError);
    expect(await everything(dir)).toEqual(before);
  });

  it("asks before it deletes: a lost pointer does not make old revisions leftovers", async () => {
    await writeRevision(dir, [["plan.json", "old"]], { note });
    await rm(join(dir, "current"));
    expect(await whyOf(openPlanFolder(dir))).toBe("existing-plan");
    await writeRevision(dir, [["plan.json", "new"]], { note, replace: true });
    expect(readFileSync(join(dir, "revisions", "1", "plan.json"), "utf8")).toBe("old");
    expect(await readCurrent(dir)).toBe(join(dir, "revisions", "2"));
  });
});

describe("the lock", () => {
  it("lets one of two runs in, and the other when the first is done", async () => {
    const first = await openPlanFolder(dir);
    const error = await refusal(openPlanFolder(dir));
    expect([error.why, error.message.includes(String(process.pid))]).toEqual(["locked", true]);
    await first.commit([["plan.json", "x"]], note);
    (await openPlanFolder(dir, { replace: true })).close();
    expect(existsSync(join(dir, LOCK))).toBe(false);
  });

  it("lets exactly one of eight in at once where no folder is yet, and nobody sweeps it away from another", async () => {
    for (let round = 0; round < 20; round += 1) {
      const home = join(base, "deep", `round-${round}`, "plan");
      const opened = await Promise.allSettled(Array.from({ length: 8 }, () => openPlanFolder(home)));
      const winners = opened.filter((one) => one.status === "fulfilled").map((one) => one.value);
      const reasons = opened.filter((one) => one.status === "rejected").map((one) => one.reason.why);
      expect([winners.length, new Set(reasons)]).toEqual([1, new Set(["locked"])]);
      await winners[0]!.commit([["plan.json", "x"]], note);
      expect(await readCurrent(home)).not.toBeNull();
    }
  });

  it("takes over from a run that is gone, or that crashed while it set the lock", async () => {
    for (const stale of ['{"pid":999999999,"host":"HOST","started":null,"token":"x"}', "", "{"]) {
      await mkdir(dir, { recursive: true });
      const { hostname } = await import("node:os");
      await writeFile(join(dir, LOCK), stale.replace("HOST", hostname()));
      (await openPlanFolder(dir)).close();
      expect((await readdir(dir)).filter((name) => name.startsWith(".boughline"))).toEqual([]);
    }
  });

  it("tells a process number used again from its first owner", async () => {
    const { hostname } = await import("node:os");
    await mkdir(dir);
    await writeFile(join(dir, LOCK), JSON.stringify({ pid: process.pid, host: hostname(), started: "1", token: "x" }));
    const isLinux = existsSync("/proc/self/stat");
    const opened = openPlanFolder(dir);
    if (isLinux) (await opened).close();
    else expect(await whyOf(opened)).toBe("locked");
  });

  it("believes a run on another machine, and says which file to delete", async () => {
    await mkdir(dir);
    await writeFile(join(dir, LOCK), JSON.stringify({ pid: 1, host: "elsewhere", started: null, token: "x" }));
    const error = await refusal(openPlanFolder(dir));
    expect(error.message).toContain("elsewhere");
    expect(error.message).toContain(LOCK);
  });

  it("stops a run whose lock was taken away, with the old plan untouched", async () => {
    const folder = await openPlanFolder(dir);
    await rm(join(dir, LOCK));
    expect(await whyOf(folder.commit([["plan.json", "x"]], note))).toBe("locked");
    expect(await readCurrent(dir)).toBeNull();
  });
});

describe("readCurrent", () => {
  it("is null without a folder or a plan, and never leads out of the folder", async () => {
    expect(await readCurrent(dir)).toBeNull();
    await mkdir(dir);
    expect(await readCurrent(dir)).toBeNull();
    for (const target of ["/etc", "../plan", "revisions/../..", "revisions/1/..", "revisions/01", "revisions/x", ""]) {
      await rm(join(dir, "current"), { force: true });
      if (target !== "") await symlink(target, join(dir, "current"));
      expect(await readCurrent(dir)).toBeNull();
      await rm(join(dir, "current"), { force: true });
      await writeFile(join(dir, "current"), `${target}\n`);
      expect(await readCurrent(dir)).toBeNull();
    }
  });
});
