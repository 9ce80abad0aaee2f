import { describe, expect, it } from "vitest";
import { blobBytes } from "../../src/worker/blob-bytes.ts";

describe("blobBytes", () => {
  it("gives the bytes of a file and tells how far it is", async () => {
    const whole = Uint8Array.from({ length: 70_000_000 }, (_, at) => (at * 7) % 251);
    const shares: number[] = [];
    const bytes = await blobBytes(new Blob([whole]), "trees.csv", (share) => shares.push(share));
    expect(Buffer.compare(bytes, whole)).toBe(0);
    // Parts of 64 MiB: the second begins at 67,108,864.
    expect(shares).toEqual([0, 67_108_864 / 70_000_000]);
  });

  it("refuses a file past the limit before it is read, with both numbers", async () => {
    const blob = new Blob(["12345"]);
    expect((await blobBytes(blob, "a.csv", undefined, 5)).length).toBe(5);
    await expect(blobBytes(blob, "a.csv", undefined, 4)).rejects.toThrow(
      "a.csv has 5 bytes; at most 4 are read. Split it and give the parts.",
    );
  });

  it("says that a file could not be read", async () => {
    const gone = { size: 3, slice: () => ({ arrayBuffer: () => Promise.reject(new Error("NotReadableError")) }) };
    await expect(blobBytes(gone as unknown as Blob, "a.csv")).rejects.toThrow(
      "a.csv could not be read; it may have changed",
    );
  });
});
