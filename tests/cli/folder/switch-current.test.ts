import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readCurrent } from "../../../src/cli/folder/read-current.ts";
import { switchCurrent } from "../../../src/cli/folder/switch-current.ts";

let dir: string;
beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), "boughline-"));
});
afterEach(() => rm(dir, { recursive: true, force: true }));

const failing = (code: string) => async (): Promise<void> => {
  throw Object.assign(new Error(code), { code, syscall: "symlink" });
};

describe("switchCurrent", () => {
  it("writes a one-line file where links cannot be made, and goes back and forth between the two", async () => {
    await switchCurrent(dir, 1, failing("EPERM"));
    expect(await readFile(join(dir, "current"), "utf8")).toBe("revisions/1\n");
    expect(await readCurrent(dir)).toBe(join(dir, "revisions", "1"));
    await switchCurrent(dir, 2);
    expect(await readCurrent(dir)).toBe(join(dir, "revisions", "2"));
    await switchCurrent(dir, 3, failing("EOPNOTSUPP"));
    expect(await readCurrent(dir)).toBe(join(dir, "revisions", "3"));
    expect(await readdir(dir)).toEqual(["current"]);
  });

  it("does not take a full disk for a missing right", async () => {
    await expect(switchCurrent(dir, 1, failing("ENOSPC"))).rejects.toThrow("ENOSPC");
    expect(await readCurrent(dir)).toBeNull();
  });
});
