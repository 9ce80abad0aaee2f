import fc from "fast-check";
import { gzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { ReadingTime, timeLimit } from "../../../src/formats/geojson/reading-time.ts";
import { cellNumber } from "../../../src/formats/read/csv/cell-number.ts";
import { csvRecords } from "../../../src/formats/read/csv/csv-records.ts";
import { NumberColumns } from "../../../src/formats/read/csv/number-columns.ts";
import { GrowingBytes } from "../../../src/formats/read/growing-bytes.ts";
import { decodeText } from "../../../src/formats/read/text/decode-text.ts";
import { bytesOf, codes, fixture, readAs, readCsvText } from "./reading.ts";

const numRuns = 500;

/** A text cut at random places. */
const cutText = fc
  .tuple(
    fc.array(fc.constantFrom("a", '"', '""', ",", "\n", "\r", "\r\n", " ", '",', '"\n', "é", "12"), { maxLength: 60 }),
    fc.array(fc.nat(80), { maxLength: 12 }),
  )
  .map(([parts, cuts]) => {
    const text = parts.join("");
    const places = [0, ...cuts.filter((at) => at < text.length).sort((a, b) => a - b), text.length];
    return { text, pieces: places.slice(1).map((end, at) => text.slice(places[at], end)) };
  });

describe("a table in pieces", () => {
  it("has the records of the whole text, wherever it is cut", () => {
    fc.assert(
      fc.property(cutText, ({ text, pieces }) => {
        expect([...csvRecords(pieces, ",")]).toEqual([...csvRecords([text], ",")]);
      }),
      { seed: 1, numRuns: numRuns * 4 },
    );
  });

  it("is read the same past a megabyte, where quotes, letters and line ends are cut", async () => {
    // Rows of 37 to 46 bytes, so that a piece ends in each place of a row somewhere.
    const row = (at: number): string => `${at},"é${"ü".repeat(at % 10)}, ""q""\n",-123.${at % 10}1,49.25\r\n`;
    const rows = Array.from({ length: 90_000 }, (_, at) => row(at));
    const read = await readCsvText(`id,note,lon,lat\r\n${rows.join("")}`);
    expect(read.counts).toMatchObject({ features: 90_000, used: 90_000 });
    read.features.forEach(({ properties, geometry }, at) => {
      if (properties.note !== `é${"ü".repeat(at % 10)}, "q"\n` || properties.id !== at) throw new Error(`row ${at}`);
      const [lon] = (geometry as { coordinates: number[] }).coordinates;
      if (lon !== Number(`-123.${at % 10}1`)) throw new Error(`position of row ${at}`);
    });
  });

  it("tells numbers from texts as one who sees all rows at once", () => {
    const cell = fc.constantFrom(
      "",
      "1",
      "1.0",
      "1.10",
      "1.1",
      "0",
      "-0",
      "-0.0",
      "0.0",
      "2.50",
      "2.5",
      "x",
      "007",
      "12.25",
      ".5",
      "0.5",
    );
    fc.assert(
      fc.property(fc.array(cell, { maxLength: 8 }), (cells) => {
        const columns = new NumberColumns(".");
        do for (const one of cells) columns.add([one]);
        while (columns.needsMore());
        // The rule itself: all filled cells are numbers, and different texts are different numbers.
        const filled = cells.filter((one) => one !== "");
        const numbers = filled.map((one) => cellNumber(one, "."));
        const texts = new Set(numbers);
        const values = new Set(numbers.map((number) => (Number(number) === 0 ? 0 : Number(number))));
        const expected = filled.length > 0 && !numbers.includes(null) && texts.size === values.size;
        expect(columns.isNumber(0)).toBe(expected);
      }),
      { seed: 2, numRuns: numRuns * 4 },
    );
  });
});

describe("text in pieces", () => {
  it("is the whole text, in UTF-8 and UTF-16, with letters across the borders", () => {
    for (const lead of ["", "x", "xy", "xyz"]) {
      const text = `${lead}${"𝄞é€a".repeat(250_000)}`;
      expect([...decodeText(bytesOf(text)).pieces()].join("") === text).toBe(true);
      const utf16 = new Uint8Array(
        Uint16Array.from({ length: text.length + 1 }, (_, at) => (at === 0 ? 0xfeff : text.charCodeAt(at - 1))).buffer,
      );
      expect([...decodeText(utf16).pieces()].join("") === text).toBe(true);
    }
  });

  it("keeps its UTF-8 where stray bytes stand between, past a megabyte", () => {
    const part = new Uint8Array([...bytesOf("Linden-Allée "), 0xfc, ...bytesOf("ö€\n")]);
    const count = 70_000;
    const bytes = new Uint8Array(part.length * count);
    for (let at = 0; at < count; at += 1) bytes.set(part, at * part.length);
    const decoded = decodeText(bytes);
    expect(decoded.encoding).toBe("UTF-8 with stray bytes");
    expect([...decoded.pieces()].join("") === "Linden-Allée üö€\n".repeat(count)).toBe(true);
  });
});

describe("GrowingBytes", () => {
  it("holds what was written, whatever was expected", () => {
    const piece = fc.oneof(fc.string({ maxLength: 200 }), fc.uint8Array({ maxLength: 200 }));
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 20 }), fc.nat(5000), (pieces, expected) => {
        const written = new GrowingBytes(expected);
        const wanted: number[] = [];
        for (const one of pieces) {
          if (typeof one === "string") written.text(one);
          else written.bytes(one);
          wanted.push(...(typeof one === "string" ? bytesOf(one) : one));
        }
        expect([...written.end()]).toEqual(wanted);
      }),
      { seed: 3, numRuns },
    );
  });

  it("grows past its first room, by long texts too", () => {
    const written = new GrowingBytes();
    for (let at = 0; at < 40; at += 1) written.text("€".repeat(10_000));
    written.text("x".repeat(1_200_000));
    expect(written.end().length).toBe(40 * 30_000 + 1_200_000);
  });
});

describe("the time limit", () => {
  const rows = `id,lon,lat\n${Array.from({ length: 3000 }, (_, at) => `${at},-123,49\n`).join("")}`;
  const collection = (count: number): string =>
    JSON.stringify({
      type: "FeatureCollection",
      features: Array.from({ length: count }, (_, id) => ({
        type: "Feature",
        id,
        properties: {},
        geometry: { type: "Point", coordinates: [-123, 49] },
      })),
    });
  /** A limit that is over at the `looks`th look at the clock. */
  const overAt = (looks: number): ReadingTime => {
    let count = 0;
    return new ReadingTime({ seconds: 5, isOver: () => ++count >= looks });
  };

  it.each([
    ["trees.csv", bytesOf(rows)],
    ["trees.csv.gz", gzipSync(bytesOf(rows))],
    ["trees.geojson", bytesOf(collection(3000))],
    ["areas.gpkg", fixture("areas.gpkg")],
    ["areas.fgb", fixture("areas.fgb")],
    ["areas.zip", fixture("areas.zip")],
  ])("refuses %s whole, naming the limit", async (name, bytes) => {
    const read = await readAs(name, bytes, { layer: "trees", time: overAt(1) });
    expect(read.verdict).toBe("unreadable");
    expect(read.features).toEqual([]);
    expect(read.fault).toMatchObject({
      code: "too-slow",
      reason: "The file was not read within 5 seconds, the time limit for one file.",
      whatToDo: "Split the file, or allow more time (on the command line --time-limit SECONDS).",
    });
  });

  it("changes nothing while there is time", async () => {
    const [free, limited] = await Promise.all([readCsvText(rows), readCsvText(rows, { time: overAt(1000) })]);
    expect(limited.features).toEqual(free.features);
  });

  it("runs from when it is made, and not at all for null", () => {
    let nowMs = 1000;
    const limit = timeLimit(2, () => nowMs)!;
    nowMs = 3000;
    expect(limit.isOver()).toBe(false);
    nowMs = 3001;
    expect(limit.isOver()).toBe(true);
    expect(timeLimit(null, () => nowMs)).toBeNull();
  });

  it("most features: one too many is refused before any is parsed, with both numbers", async () => {
    const bytes = bytesOf(collection(1200));
    expect((await readAs("a.geojson", bytes, { layer: "trees", maxFeatures: 1200 })).counts.used).toBe(1200);
    const read = await readAs("a.geojson", bytes, { layer: "trees", maxFeatures: 1199 });
    expect(codes(read)).toEqual(["too-large"]);
    expect(read.fault!.reason).toBe("The file has 1,200 features; there is memory for about 1,199.");
  });
});

describe("a ring whose segments all lie in each other's boxes", () => {
  /** A saw of long teeth, a hair apart, closed below; it never crosses itself. */
  const saw = (teeth: number): number[][] => {
    const step = 0.001 / teeth;
    const edge = Array.from({ length: teeth }, (_, at) => [
      [-123 + at * step, 49],
      [-122.99 + at * step, 49.01],
    ]).flat();
    return [...edge, [-122.9, 49], [-122.9, 48.9], [-123, 48.9], [-123, 49]];
  };
  const polygon = (ring: number[][]) =>
    bytesOf(JSON.stringify({ type: "Feature", properties: {}, geometry: { type: "Polygon", coordinates: [ring] } }));

  it("is checked while the work is bounded, and said to be unchecked past that", async () => {
    const few = await readAs("a.geojson", polygon(saw(500)));
    expect(codes(few)).toEqual([]);
    // 60,000 segments would be compared in 1.8 billion pairs.
    const many = await readAs("a.geojson", polygon(saw(30_000)));
    expect(many.counts.used).toBe(1);
    expect(codes(many)).toEqual(["ring-not-checked"]);
  });
});
