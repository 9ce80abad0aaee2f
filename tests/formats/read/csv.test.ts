import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { csvRecords } from "../../../src/formats/read/csv/csv-records.ts";
import { findDelimiter } from "../../../src/formats/read/csv/find-delimiter.ts";
import { bytesOf, codes, readAs, readCsvText } from "./reading.ts";

const cells = (text: string, delimiter = ","): (readonly string[])[] =>
  [...csvRecords(text, delimiter)].map((record) => record.cells);
const places = async (text: string): Promise<unknown[]> =>
  (await readCsvText(text)).features.map(({ geometry }) => (geometry as { coordinates: unknown }).coordinates);

describe("csvRecords", () => {
  it("takes every line end, in any mixture", () => {
    expect(cells("a,b\r\n1,2\n3,4\r5,6")).toEqual([
      ["a", "b"],
      ["1", "2"],
      ["3", "4"],
      ["5", "6"],
    ]);
  });

  it("keeps delimiters, line ends and doubled quotes inside quotes, and counts lines", () => {
    const records = [...csvRecords('a,"b\n""c"",d"\n\ne,f\n', ",")];
    expect(records.map(({ cells, line }) => [line, ...cells])).toEqual([
      [1, "a", 'b\n"c",d'],
      [4, "e", "f"],
    ]);
  });

  it("lets one stray quote swallow nothing", () => {
    const records = [...csvRecords('1,"6 inch,x\n2,"12" pipe,y\n3,"ok",z\n4,"open', ",")];
    expect(records.map(({ cells, isDoubtful }) => [isDoubtful, ...cells])).toEqual([
      [true, "1", '"6 inch', "x"],
      [true, "2", '"12" pipe', "y"],
      [false, "3", "ok", "z"],
      [true, "4", '"open'],
    ]);
  });

  it("agrees with an independent parser on well-formed tables", () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 8 }),
      fc.constantFrom("", '"', ",", "\n", "\r\n", " x ", '""', "a,b", "0"),
    );
    const table = fc
      .integer({ min: 2, max: 5 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
      );
    fc.assert(
      fc.property(table, fc.constantFrom(",", ";", "\t", "|"), (rows, delimiter) => {
        const text = Papa.unparse(rows, { delimiter, newline: "\r\n", quotes: true });
        expect(cells(text, delimiter)).toEqual(rows);
        expect(cells(text, delimiter)).toEqual(Papa.parse(text, { delimiter, newline: "\r\n" }).data);
      }),
      { seed: 1, numRuns: 500 },
    );
  });
});

describe("findDelimiter", () => {
  it.each([
    ["a,b,c\n1,2,3\n", ","],
    ["a;b\n1,5;2,5\n3,5;4,5\n", ";"],
    ["a\tb,c\n1\t2,3\n", "\t"],
    ["a|b\n1|2\n", "|"],
    ["sep=;\na;b\n1;2\n", ";"],
    ["one\ntwo\n", ","],
    ['"a;x",b\n"1;y",2\n', ","],
  ])("%j is cut at %j", (text, mark) => expect(findDelimiter(text).mark).toBe(mark));
});

describe("positions in CSV", () => {
  it.each([
    ["id,Longitude,Latitude\n1,-123.1,49.2\n"],
    ["id,LONG,LAT\n1,-123.1,49.2\n"],
    ["id;x;y\n1;-123,1;49,2\n2;-123,1;49,2\n"],
    ["id\tlng\tlat\n1\t-123.1\t49.2\n"],
    ["Längengrad;Breitengrad\n-123,1;49,2\n"],
    ["longitud,latitud\n-123.1,49.2\n"],
    ["経度,緯度\n-123.1,49.2\n"],
    ["долгота,широта\n-123.1,49.2\n"],
    ["id,the_geom\n1,POINT (-123.1 49.2)\n"],
    ["id,geom\n1,SRID=4326;POINT(-123.1 49.2)\n"],
    ['id,geo_shape\n1,"{""type"":""Point"",""coordinates"":[-123.1,49.2]}"\n'],
    ['id,geo_point_2d\n1,"49.2, -123.1"\n'],
    ['id,Location\n1,"12 Elm St\n(49.2, -123.1)"\n'],
    ["id,geom\n1,0101000000" + "6666666666C65EC0" + "9A99999999994840\n"],
    ["id,geom\n1,0101000020E6100000" + "6666666666C65EC0" + "9A99999999994840\n"],
    ["Trees of the city\nas of 2026\nid,lon,lat\n1,-123.1,49.2\n"],
    ["sep=;\nid;lon;lat\n1;-123.1;49.2\n"],
  ])("%j", async (text) => expect((await places(text))[0]).toEqual([-123.1, 49.2]));

  it("takes a projected pair in the system that is given", async () => {
    const read = await readCsvText("id,easting,northing\n1,500000,5427757\n", { crs: "EPSG:32610" });
    const [lonDeg] = (read.features[0]!.geometry as { coordinates: number[] }).coordinates;
    // 500,000 m is the central meridian of zone 10, -123 degrees.
    expect(lonDeg).toBeCloseTo(-123, 8);
  });

  it("prefers longitude and latitude to x and y, and a geometry to both", async () => {
    expect(await places("x,y,lon,lat\n1,2,-123,49\n")).toEqual([[-123, 49]]);
    expect(await places("lon,lat,shape\n1,2,POINT(-123 49)\n")).toEqual([[-123, 49]]);
  });

  it("names the columns it found when none is a position", async () => {
    const read = await readCsvText("id,species\n1,Tilia\n");
    expect(read.fault?.reason).toBe("No column of the table gives a position. Its columns: id, species.");
    expect(read.fault?.whatToDo).toContain("longitude and latitude");
  });

  it("sets rows without a usable position aside with their line and all values", async () => {
    const read = await readCsvText("id,lon,lat\n1,-123,49\n2,,49\n3,-123,n/a\n4,500000,49\n");
    expect(read.features.map(({ properties }) => properties.id)).toEqual([1]);
    expect(read.setAside.map(({ finding }) => [finding.code, finding.reason])).toEqual([
      ["no-geometry", "Line 3: The row has no position: lon is empty."],
      ["bad-position", "Line 4: The row has no position: lat is no number."],
      ["projected-coordinates", "The coordinates are no degrees; they look like meters or feet."],
    ]);
    const { start, end } = read.ranges;
    expect(JSON.parse(new TextDecoder().decode(read.bytes.subarray(start[2], end[2])))).toEqual({
      type: "Feature",
      properties: { id: 3, lon: -123, lat: "n/a" },
      geometry: null,
    });
  });

  it("is an empty layer where there are column names and no rows", async () => {
    const read = await readCsvText("id,lon,lat\n");
    expect([read.fault, read.counts.features, codes(read)]).toEqual([null, 0, ["format-read", "empty-file"]]);
  });
});

describe("values in CSV", () => {
  const values = async (text: string): Promise<Record<string, unknown>[]> =>
    (await readCsvText(text)).features.map(({ properties }) => properties as Record<string, unknown>);

  it("become numbers only where a whole column is plain numbers", async () => {
    const rows = await values("lon,lat,a,b,c,d,e,f\n1,2,3,007,12345678901234567,1.10,1e5,\n1,2,-4.5,8,9,1.1,2,\n");
    expect(rows[0]).toEqual({ lon: 1, lat: 2, a: 3, b: "007", c: "12345678901234567", d: "1.10", e: "1e5", f: null });
  });

  it("keep trailing zeros in the bytes, and the value in the number", async () => {
    const read = await readCsvText("lon,lat,h\n1.50,2,3.50\n");
    expect(new TextDecoder().decode(read.bytes)).toContain('"h":3.50');
    expect(read.features[0]!.properties.h).toBe(3.5);
  });

  it("take a decimal comma where it cannot be a thousands mark", async () => {
    expect(await values("lon;lat;h\n-123,1;49,2;3,5\n-123,1;49,2;12\n")).toMatchObject([{ h: 3.5 }, { h: 12 }]);
    expect(await values("lon;lat;h\n-123.1;49.2;1,234\n")).toMatchObject([{ h: "1,234" }]);
  });

  it("keep formulas, blanks and markup as text", async () => {
    const text = 'lon,lat,a,b,c\n1,2,"=HYPERLINK(""x"")", x ,<img src=x>\n';
    expect(await values(text)).toEqual([{ lon: 1, lat: 2, a: '=HYPERLINK("x")', b: " x ", c: "<img src=x>" }]);
  });

  it("keep hostile, empty and repeated column names apart", async () => {
    const read = await readCsvText("lon,lat,__proto__,constructor,,a,a,a_2\n1,2,p,c,e,x,y,z\n");
    const entries = Object.entries(read.features[0]!.properties);
    expect(entries).toEqual([
      ["lon", 1],
      ["lat", 2],
      ["__proto__", "p"],
      ["constructor", "c"],
      ["column_5", "e"],
      ["a", "x"],
      ["a_3", "y"],
      ["a_2", "z"],
    ]);
    expect(codes(read)).toContain("duplicate-column");
    expect(({} as { p?: unknown }).p).toBeUndefined();
  });

  it("fill short rows with nulls and set rows with too many cells aside, whole", async () => {
    const read = await readCsvText("id,lon,lat,note\n1,-123,49\n2,-123,49,a,b\n3,-123,49,x,,\n,,,\n");
    expect(read.features.map(({ properties }) => properties.note)).toEqual([null, "x"]);
    expect(read.setAside.map(({ finding }) => finding.reason)).toEqual([
      "Line 3 has 5 cells, but the header has 4; its values may stand in the wrong columns.",
    ]);
    const { start, end } = read.ranges;
    expect(JSON.parse(new TextDecoder().decode(read.bytes.subarray(start[1], end[1]))).properties).toEqual({
      id: 2,
      lon: -123,
      lat: 49,
      note: "a",
      column_5: "b",
    });
    expect(codes(read)).toEqual(["format-read", "blank-rows", "short-rows"]);
  });
});

describe("encodings of CSV", () => {
  const text = "id,lon,lat,name\n1,-123,49,Chêne €\n";
  const utf16 = (bigEndian: boolean, mark: boolean): Uint8Array => {
    const units = [...(mark ? "\ufeff" : ""), ...text].map((letter) => letter.charCodeAt(0));
    return Uint8Array.from(units.flatMap((unit) => (bigEndian ? [unit >> 8, unit & 255] : [unit & 255, unit >> 8])));
  };

  it.each([
    ["UTF-8", bytesOf(text)],
    ["UTF-8 with a byte-order mark", bytesOf(`\ufeff${text}`)],
    ["UTF-16 LE", utf16(false, true)],
    ["UTF-16 BE", utf16(true, true)],
    ["UTF-16 LE", utf16(false, false)],
    ["UTF-16 BE", utf16(true, false)],
  ])("%s is recognized", async (encoding, bytes) => {
    const read = await readAs("trees.csv", bytes, { layer: "trees" });
    expect(read.features[0]!.properties).toEqual({ id: 1, lon: -123, lat: 49, name: "Chêne €" });
    expect(read.findings[0]!.reason).toContain(encoding);
  });

  it("takes Windows-1252 last, and says so", async () => {
    // In Windows-1252 ê is EA and the euro sign 80.
    const bytes = Uint8Array.from([...bytesOf("id,lon,lat,name\n1,-123,49,Ch"), 0xea, ...bytesOf("ne "), 0x80, 10]);
    const read = await readAs("trees.csv", bytes, { layer: "trees" });
    expect(read.features[0]!.properties.name).toBe("Chêne €");
    expect(read.findings[1]).toMatchObject({
      code: "encoding-guessed",
      severity: "warning",
      reason: "The text is not UTF-8 (line 2) and was read as Windows-1252 (Latin-1).",
    });
    expect(read.verdict).toBe("warnings");
  });

  it("keeps UTF-8 where only a few bytes are not", async () => {
    const bytes = Uint8Array.from([
      ...bytesOf("id,lon,lat,name\n1,-123,49,Chêne €\n2,-123,49,Ch"),
      0xea,
      ...bytesOf("ne\n"),
    ]);
    const read = await readAs("trees.csv", bytes, { layer: "trees" });
    expect(read.features.map(({ properties }) => properties.name)).toEqual(["Chêne €", "Chêne"]);
    expect(read.findings[1]!.reason).toBe(
      "The text is UTF-8 but for 1 bytes, the first in line 3; these were read as Windows-1252.",
    );
  });
});
