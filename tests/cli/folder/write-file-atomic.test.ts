import { mkdir, mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { asCannotWrite, CannotWriteError } from "../../../src/cli/folder/cannot-write-error.ts";
import { writeFileAtomic } from "../../../src/cli/folder/write-file-atomic.ts";

let dir: string;
beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), "boughline-"));
});
afterEach(() => rm(dir, { recursive: true, force: true }));

describe("writeFileAtomic", () => {
  it("writes a new file and replaces an old one", async () => {
    const path = join(dir, "zone.zip");
    await writeFileAtomic(path, "old");
    await writeFileAtomic(path, [Uint8Array.of(0x6e, 0x65), Uint8Array.of(0x77)]);
    expect(await readFile(path, "utf8")).toBe("new");
    expect(await readdir(dir)).toEqual(["zone.zip"]);
  });

  it("leaves the old file when the pieces run out with an error", async () => {
    const path = join(dir, "zone.zip");
    await writeFileAtomic(path, "old");
    function* breaking(): Generator<Uint8Array> {
      yield Uint8Array.of(1);
      throw new Error("no more pages");
    }
    await expect(writeFileAtomic(path, breaking())).rejects.toThrow("no more pages");
    expect([await readFile(path, "utf8"), await readdir(dir)]).toEqual(["old", ["zone.zip"]]);
  });

  it("says what is in the way", async () => {
    await mkdir(join(dir, "folder"));
    await expect(writeFileAtomic(join(dir, "folder"), "x")).rejects.toThrow(CannotWriteError);
    await expect(writeFileAtomic(join(dir, "absent", "x"), "x")).rejects.toThrow(CannotWriteError);
    expect(await readdir(dir)).toEqual(["folder"]);
  });
});

describe("asCannotWrite", () => {
  const failed = (code: string): Error => Object.assign(new Error(code), { code, syscall: "write" });
  it.each([
    ["ENOSPC", "no-space", "at least 1234 bytes"],
    ["EDQUOT", "no-space", "at least 1234 bytes"],
    ["EROFS", "read-only", "read-only"],
    ["EACCES", "forbidden", "may not be written"],
    ["EPERM", "forbidden", "may not be written"],
    ["EIO", "failed", "EIO in write"],
    ["EMFILE", "failed", "EMFILE in write"],
  ])("makes %s one plain line that names the folder", (code, why, words) => {
    const error = asCannotWrite(failed(code), "/plans/oak", 1234) as CannotWriteError;
    expect([error.why, error.path, error.message.includes(words), error.message.includes("\n")]).toEqual([
      why,
      "/plans/oak",
      true,
      false,
    ]);
  });

  it("leaves every other error as it is", () => {
    const fault = new TypeError("a fault of ours");
    expect(asCannotWrite(fault, "/x")).toBe(fault);
    expect(asCannotWrite("text", "/x")).toBe("text");
  });
});
