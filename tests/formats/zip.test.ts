import { execFileSync } from "node:child_process";
import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { sha256 } from "../../src/formats/sha256.ts";
import { zip } from "../../src/formats/zip.ts";

const files = [
  { name: "zone.pdf", bytes: new TextEncoder().encode("pdf ".repeat(1000)) },
  { name: "01_trees.csv", bytes: new TextEncoder().encode("id\r\n") },
  { name: "empty.txt", bytes: new Uint8Array() },
];

describe("zip", () => {
  it("holds the files in order, byte for byte", () => {
    const entries = unzipSync(zip(files));
    expect(Object.keys(entries)).toEqual(files.map(({ name }) => name));
    for (const { name, bytes } of files) expect(entries[name]).toEqual(bytes);
  });

  it("gives the same bytes in every time zone", async () => {
    const here = await sha256(zip(files));
    const script =
      "import('./src/formats/zip.ts').then(({ zip }) => process.stdout.write(Buffer.from(zip([" +
      "{ name: 'a.txt', bytes: new Uint8Array([1, 2, 3]) }])).toString('hex')))";
    const inZone = (zone: string): string =>
      execFileSync(process.execPath, ["--import", "tsx", "-e", script], {
        encoding: "utf8",
        env: { ...process.env, TZ: zone },
      });
    const zones = ["UTC", "America/New_York", "Pacific/Kiritimati"].map(inZone);
    expect(new Set(zones).size).toBe(1);
    // MS-DOS date of 1 January 1980: year 0, month 1, day 1 = 0x0021; time 12:00 = 0x6000 (APPNOTE 4.4.6), both little-endian.
    expect(zones[0]!.slice(20, 28)).toBe("00602100");
    expect(await sha256(zip(files))).toBe(here);
  });

  it.each(["../a", "a/b", "a\\b", ".a", "-a", "con", "LPT1.txt", "a.", "", "é.txt", "a b", "x".repeat(61)])(
    "throws for the name %j",
    (name) => {
      expect(() => zip([{ name, bytes: new Uint8Array() }])).toThrow(RangeError);
    },
  );

  it("throws for two names that differ in case only", () => {
    const bytes = new Uint8Array();
    expect(() =>
      zip([
        { name: "A.txt", bytes },
        { name: "a.TXT", bytes },
      ]),
    ).toThrow(RangeError);
  });
});

describe("sha256", () => {
  it("gives the digests of FIPS 180-4's example and of nothing", async () => {
    expect(await sha256(new TextEncoder().encode("abc"))).toBe(
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
    );
    expect(await sha256(new Uint8Array())).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  });
});
