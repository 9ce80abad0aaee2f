import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { bytesOf, codes, fixture, processorMs, readAs, readCsvText, refusal } from "./reading.ts";

/** Milliseconds of processor time for a hostile file of up to a megabyte. */
const SLOWEST_MS = 2000;

async function timed<T>(work: () => Promise<T>): Promise<T> {
  const start = processorMs();
  const result = await work();
  expect(processorMs() - start).toBeLessThan(SLOWEST_MS);
  return result;
}

const blanks = " ".repeat(50_000);

describe("hostile tables", () => {
  it("take 50,000 blanks anywhere in their stride", async () => {
    const read = await timed(() =>
      readCsvText(
        `id${blanks},lon,lat\n${blanks}1${blanks},-123${blanks},${blanks}49\n2,-123,49\n"3"${blanks},-123,49\n`,
      ),
    );
    expect(read.counts).toMatchObject({ features: 3, used: 2, setAside: 1 });
  });

  it.each([
    ["quotes only", '"'.repeat(1_000_000)],
    ["quotes and blanks", '"q" '.repeat(250_000)],
    ["a quote a line", '"a\n'.repeat(300_000)],
    ["delimiters only", ",".repeat(1_000_000)],
    ["one line of delimiters and lines of nothing", `lon,lat${",".repeat(1000)}\n${"\n".repeat(900_000)}`],
    ["brackets", `id,geom\n1,${"GEOMETRYCOLLECTION(".repeat(50_000)}\n`],
    ["a polygon without end", `id,geom\n1,"POLYGON ((${"1 2,".repeat(200_000)}"\n`],
    ["nested JSON", `id,geo_shape\n1,"${'{""type"":""GeometryCollection"",""geometries"":['.repeat(10_000)}"\n`],
    [
      "nested JSON that is whole",
      `id,geo_shape\n1,"${'{""type"":""GeometryCollection"",""geometries"":['.repeat(10_000)}${"]}".repeat(10_000)}"\n`,
    ],
    ["digits", `lon,lat\n${"9".repeat(900_000)},1\n`],
    ["NUL bytes", `lon,lat,a\0b\n1,2,\0\0\n${"\0".repeat(500_000)}`],
  ])("%s", async (_, text) => {
    const read = await timed(() => readCsvText(text));
    expect(read.counts.used + read.counts.setAside).toBe(read.counts.features);
    if (read.fault !== null) expect(read.fault.reason).toMatch(/\.$/);
  });

  it("keep NUL characters as they are", async () => {
    const read = await readCsvText("lon,lat,a\n1,2,x\0y\n");
    expect(read.features[0]!.properties.a).toBe("x\0y");
  });

  it("are refused past the most columns, by line", async () => {
    const read = await readCsvText(`lon,lat\n${"1,".repeat(2001)}\n`);
    expect(read.fault?.reason).toBe("The file has 2,002 columns in line 2; at most 2,000 are read.");
  });
});

describe("hostile zips", () => {
  it("are never unpacked past what they promise to be", async () => {
    // 300 MB of zeros pack into about 300 kB.
    const bomb = zipSync({ "a.csv": new Uint8Array(300_000_000) }, { level: 9 });
    expect(bomb.length).toBeLessThan(1_000_000);
    const start = processorMs();
    expect(await refusal("a.zip", bomb)).toBe("suspicious-zip");
    expect(processorMs() - start).toBeLessThan(5000);
  });

  it("may pad a .dbf with blanks, as such files do", async () => {
    // One row of a text 200 blanks wide, then rows of nothing: 60 MB from 60 kB.
    const table = new Uint8Array(60_000_000).fill(0x20);
    const view = new DataView(table.buffer);
    view.setUint32(4, 0, true);
    view.setUint16(8, 33, true);
    view.setUint16(10, 200, true);
    table[32] = 0x0d;
    const shapes = new Uint8Array(100);
    new DataView(shapes.buffer).setInt32(0, 9994);
    const zipped = zipSync({ "a.shp": shapes, "a.dbf": table }, { level: 9 });
    expect(zipped.length).toBeLessThan(table.length / 200);
    expect(await refusal("a.zip", zipped)).toBeNull();
  });

  it("cannot say they are small: what is made is counted", async () => {
    const bomb = zipSync({ "a.csv": new Uint8Array(2_000_000) }, { level: 9 });
    const view = new DataView(bomb.buffer, bomb.byteOffset, bomb.length);
    // Size in the local header (offset 22) and in the central one (offset 24): ten bytes.
    view.setUint32(22, 10, true);
    const central = bomb.length - 22 - (46 + "a.csv".length);
    view.setUint32(central + 24, 10, true);
    expect(await refusal("a.zip", bomb)).toBe("damaged");
    expect(await refusal("a.zip", bomb, { limits: { unzippedBytes: 1_000_000 } })).toBe("too-large");
  });

  it("may name any path, as paths are never used", async () => {
    const csv = bytesOf("lon,lat\n1,2\n");
    for (const path of ["../../etc/trees.csv", "/abs/trees.csv", "C:\\x\\trees.csv", "a\0b.csv", "..\\trees.csv"]) {
      expect(await refusal("a.zip", zipSync({ [path]: csv }))).toBeNull();
    }
  });

  it("may hold names that objects have", async () => {
    const zipped = zipSync({ "constructor.csv": bytesOf("lon,lat\n1,2\n") });
    expect((await readAs("a.zip", zipped, { layer: "trees" })).counts.used).toBe(1);
  });
});

describe("files of the wrong kind", () => {
  it.each(["areas.gpkg", "areas.fgb", "areas.zip"])(
    "%s cut anywhere is read in part or refused, never more",
    async (name) => {
      const bytes = fixture(name);
      for (let end = 0; end < bytes.length; end += Math.ceil(bytes.length / 150)) {
        const read = await readAs(name, bytes.slice(0, end));
        expect(read.fault !== null || read.counts.features > 0 || codes(read).includes("empty-file")).toBe(true);
      }
    },
  );

  it.each([
    ["a.gpkg", "SQLite format 3\0"],
    ["a.fgb", "fgb\u0003fgb\u0000"],
    ["a.parquet", "PAR1PAR1"],
    ["a.zip", "PK\u0003\u0004"],
    ["a.gz", "\u001f\u008b"],
  ])("%s with nothing behind its signature", async (name, text) => {
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    expect(await refusal(name, bytes)).toBe("damaged");
  });
});
