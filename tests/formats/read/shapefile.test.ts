import { unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { bytesOf, codes, fixture, readAs } from "./reading.ts";

/** The parts of a fixture's zip by ending, to be changed and zipped again. */
const parts = (name: string): Map<string, Uint8Array> =>
  new Map(
    Object.entries(unzipSync(fixture(name))).map(([path, bytes]) => [path.slice(path.lastIndexOf(".") + 1), bytes]),
  );
const zipOf = (files: Map<string, Uint8Array>): Uint8Array =>
  zipSync(Object.fromEntries([...files].map(([ending, bytes]) => [`set/layer.${ending}`, bytes])));
const read = (files: Map<string, Uint8Array>) => readAs("a.zip", zipOf(files), { layer: "trees" });

/** A .dbf of one row with the given columns: name, type, width and the bytes of the cell. */
function dbf(
  columns: readonly (readonly [string, string, number, string])[],
  flag = " ",
  languageDriver = 0,
): Uint8Array {
  const rowBytes = 1 + columns.reduce((sum, [, , width]) => sum + width, 0);
  const headerBytes = 33 + columns.length * 32;
  const bytes = new Uint8Array(headerBytes + rowBytes);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, 3);
  view.setUint32(4, 1, true);
  view.setUint16(8, headerBytes, true);
  view.setUint16(10, rowBytes, true);
  view.setUint8(29, languageDriver);
  let cell = headerBytes;
  const put = (at: number, text: string): void =>
    bytes.set(
      Uint8Array.from(text, (letter) => letter.charCodeAt(0)),
      at,
    );
  put(cell, flag);
  cell += 1;
  columns.forEach(([name, type, width, value], index) => {
    put(32 + index * 32, name);
    put(32 + index * 32 + 11, type);
    view.setUint8(32 + index * 32 + 16, width);
    put(cell, value.padEnd(width, " "));
    cell += width;
  });
  view.setUint8(headerBytes - 1, 0x0d);
  return bytes;
}

/** A .shp of one point at longitude 1, latitude 2 (ESRI Shapefile Technical Description: header of 100 bytes, record of 28). */
function onePoint(): Uint8Array {
  const view = new DataView(new ArrayBuffer(128));
  view.setInt32(0, 9994);
  view.setInt32(24, 64);
  view.setInt32(28, 1000, true);
  view.setInt32(32, 1, true);
  view.setInt32(100, 1);
  view.setInt32(104, 10);
  view.setInt32(108, 1, true);
  view.setFloat64(112, 1, true);
  view.setFloat64(120, 2, true);
  return new Uint8Array(view.buffer);
}

const withTable = (table: Uint8Array, more: readonly [string, Uint8Array][] = []) =>
  read(new Map([["shp", onePoint()], ["dbf", table], ...more]));

describe("zipped shapefiles", () => {
  it("keep values by their type, digits and zeros included", async () => {
    const { features } = await withTable(
      dbf([
        ["TEXT", "C", 8, " 007"],
        ["WHOLE", "N", 20, "9007199254740993"],
        ["FRACTION", "N", 8, "12.50"],
        ["DAY", "D", 8, "20190430"],
        ["FLAG", "L", 1, "T"],
        ["NO_DAY", "D", 8, "00000000"],
        ["STARS", "N", 5, "*****"],
        ["BLANK", "C", 4, ""],
        ["E", "F", 10, "1.5e+03"],
      ]),
    );
    expect(features[0]!.properties).toEqual({
      TEXT: " 007",
      WHOLE: "9007199254740993",
      FRACTION: 12.5,
      DAY: "2019-04-30",
      FLAG: true,
      NO_DAY: null,
      STARS: null,
      BLANK: null,
      E: 1500,
    });
  });

  it.each([
    ["the .cpg", "windows-1251", 0, "\u00c4\u00f3\u00e1", "Дуб"],
    ["a number in the .cpg", "1252", 0, "Ch\u00eane", "Chêne"],
    ["a name in the .cpg", "UTF-8", 0, "Ch\u00c3\u00aane", "Chêne"],
    ["the language driver", null, 0xc9, "\u00c4\u00f3\u00e1", "Дуб"],
    ["UTF-8 by its pattern", null, 0x57, "Ch\u00c3\u00aane", "Chêne"],
  ])("decode text by %s", async (_, cpg, driver, stored, shown) => {
    const table = dbf([["NAME", "C", 12, stored]], " ", driver);
    const result = await withTable(table, cpg === null ? [] : [["cpg", bytesOf(cpg)]]);
    expect(result.features[0]!.properties.NAME).toBe(shown);
    expect(codes(result)).not.toContain("encoding-guessed");
  });

  it("say when the encoding is a guess", async () => {
    const result = await withTable(dbf([["NAME", "C", 12, "Ch\u00eane \u0080"]]));
    expect(result.features[0]!.properties.NAME).toBe("Chêne €");
    expect(codes(result)).toEqual(["format-read", "encoding-guessed", "no-crs"]);
  });

  it("pass over deleted rows with their shapes, and say so", async () => {
    const result = await withTable(dbf([["A", "C", 2, "x"]], "*"));
    expect([result.counts.features, codes(result).includes("deleted-rows")]).toEqual([0, true]);
  });

  it("say what is missing: no .prj, no .dbf, files of different lengths", async () => {
    const files = parts("trees-latin1.zip");
    files.delete("prj");
    expect(codes(await read(files))).toEqual(["format-read", "no-crs"]);
    files.delete("dbf");
    const shapesOnly = await read(files);
    expect([shapesOnly.counts.used, codes(shapesOnly).includes("no-attributes")]).toEqual([2, true]);
    const uneven = await read(
      new Map([
        ["shp", onePoint()],
        ["dbf", parts("trees-latin1.zip").get("dbf")!],
      ]),
    );
    expect([uneven.counts, codes(uneven).includes("uneven-files")]).toEqual([
      { features: 3, used: 1, setAside: 2, filteredOut: 0 },
      true,
    ]);
  });

  it("say where a .shp is cut short, and keep the rows", async () => {
    const files = parts("trees-latin1.zip");
    files.set("shp", files.get("shp")!.slice(0, 140));
    const result = await read(files);
    expect(result.counts).toMatchObject({ features: 3, used: 1, setAside: 2 });
    expect(codes(result)).toContain("damaged");
  });

  it("refuse what is no shapefile and what is locked or damaged", async () => {
    expect((await read(new Map([["shp", bytesOf("nothing of the kind")]]))).fault?.code).toBe("damaged");
    const zip = zipOf(parts("areas.zip"));
    const sum = zip.slice();
    // The first entry's bytes begin behind its header of 30 bytes and its name; one of them is changed.
    sum[120] = sum[120]! ^ 1;
    expect((await readAs("a.zip", sum)).fault?.code).toBe("damaged");
    expect((await readAs("a.zip", zip.slice(0, -30))).fault?.code).toBe("damaged");
  });
});
