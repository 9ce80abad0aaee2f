import { describe, expect, it } from "vitest";
import { fromHex } from "../../../src/formats/read/geometry/from-hex.ts";
import { GeometryError } from "../../../src/formats/read/geometry/geometry-fault.ts";
import { readWkb } from "../../../src/formats/read/geometry/read-wkb.ts";
import { looksLikeWkt, readWkt } from "../../../src/formats/read/geometry/read-wkt.ts";
import { polygonOfRings } from "../../../src/formats/read/shapefile/rings.ts";
import { processorMs } from "./reading.ts";

const ONE = "000000000000f03f"; // 1 as an IEEE 754 double, little-endian
const TWO = "0000000000000040";
const wkb = (hex: string) => readWkb(fromHex(hex)!);

describe("readWkb", () => {
  it.each([
    ["point, little-endian", `0101000000${ONE}${TWO}`, { type: "Point", coordinates: [1, 2] }],
    ["point, big-endian", "00000000013ff00000000000004000000000000000", { type: "Point", coordinates: [1, 2] }],
    ["point with Z, ISO 1001", `01e9030000${ONE}${TWO}${ONE}`, { type: "Point", coordinates: [1, 2, 1] }],
    ["point with Z, flag", `0101000080${ONE}${TWO}${ONE}`, { type: "Point", coordinates: [1, 2, 1] }],
    ["point with M, ISO 2001", `01d1070000${ONE}${TWO}${ONE}`, { type: "Point", coordinates: [1, 2] }],
    [
      "line",
      `010200000002000000${ONE}${TWO}${TWO}${ONE}`,
      {
        type: "LineString",
        coordinates: [
          [1, 2],
          [2, 1],
        ],
      },
    ],
    ["multipoint", `0104000000010000000101000000${ONE}${TWO}`, { type: "MultiPoint", coordinates: [[1, 2]] }],
    [
      "multisurface of a polygon",
      `010c0000000100000001030000000100000001000000${ONE}${TWO}`,
      { type: "MultiPolygon", coordinates: [[[[1, 2]]]] },
    ],
  ])("%s", (_, hex, geometry) => expect(wkb(hex).geometry).toEqual(geometry));

  it("reads the SRID of the extended form", () => expect(wkb(`0101000020d7080000${ONE}${TWO}`).srid).toBe(2263));

  it.each([
    ["cut short", `0101000000${ONE}`, RangeError],
    ["a count past the end", "0102000000ffffffff", RangeError],
    ["a curve", "010800000000000000", GeometryError],
    ["an empty point", "0101000000000000000000f87f000000000000f87f", GeometryError],
    ["a polygon in a multipoint", `0104000000010000000103000000000000000000000000`, GeometryError],
    ["an unknown kind", "01ffff000000000000", GeometryError],
  ])("throws for %s", (_, hex, kind) => expect(() => wkb(hex)).toThrow(kind));

  it("throws for collections nested without end", () => {
    expect(() => wkb("010700000001000000".repeat(1000))).toThrow(GeometryError);
  });
});

describe("readWkt", () => {
  it.each([
    ["POINT (1 2)", { type: "Point", coordinates: [1, 2] }],
    ["point z(1 2 3)", { type: "Point", coordinates: [1, 2, 3] }],
    ["POINTZ(1 2 3)", { type: "Point", coordinates: [1, 2, 3] }],
    ["POINT M (1 2 3)", { type: "Point", coordinates: [1, 2] }],
    ["POINT ZM (1 2 3 4)", { type: "Point", coordinates: [1, 2, 3] }],
    [
      "LINESTRING(1 2,-3.5e-1 4)",
      {
        type: "LineString",
        coordinates: [
          [1, 2],
          [-0.35, 4],
        ],
      },
    ],
    [
      "POLYGON ((0 0, 1 0, 1 1, 0 0))",
      {
        type: "Polygon",
        coordinates: [
          [
            [0, 0],
            [1, 0],
            [1, 1],
            [0, 0],
          ],
        ],
      },
    ],
    [
      "MULTIPOINT (1 2, 3 4)",
      {
        type: "MultiPoint",
        coordinates: [
          [1, 2],
          [3, 4],
        ],
      },
    ],
    [
      "MULTIPOINT ((1 2), (3 4))",
      {
        type: "MultiPoint",
        coordinates: [
          [1, 2],
          [3, 4],
        ],
      },
    ],
    [
      "GEOMETRYCOLLECTION (POINT (1 2))",
      { type: "GeometryCollection", geometries: [{ type: "Point", coordinates: [1, 2] }] },
    ],
  ])("%s", (text, geometry) => {
    expect(looksLikeWkt(text)).toBe(true);
    expect(readWkt(text).geometry).toEqual(geometry);
  });

  it.each([
    "",
    "POINT",
    "POINT EMPTY",
    "POINT (1)",
    "POINT (1 2) x",
    "POINT (a b)",
    "POINT (1 2",
    "CIRCULARSTRING (1 2, 3 4, 5 6)",
    "POINT (1 2, 3 4)",
    "GEOMETRYCOLLECTION (".repeat(5000),
    `POINT (${"1".repeat(400)} 2)`,
  ])("throws for %j", (text) => expect(() => readWkt(text)).toThrow(GeometryError));

  it("stays linear in blanks", () => {
    const start = processorMs();
    expect(readWkt(`POINT${" ".repeat(50_000)}(1${" ".repeat(50_000)}2)`).geometry).toEqual({
      type: "Point",
      coordinates: [1, 2],
    });
    expect(processorMs() - start).toBeLessThan(1000);
  });

  it.each(["POINTING at", "Pointe", "", "a POINT (1 2)"])("does not take %j for one", (text) =>
    expect(looksLikeWkt(text)).toBe(false),
  );
});

/** A square ring: clockwise for an outer ring of a shapefile, the other way for a hole. */
function square(x: number, y: number, size: number, isHole = false): number[][] {
  const ring = [
    [x, y],
    [x, y + size],
    [x + size, y + size],
    [x + size, y],
    [x, y],
  ];
  return isHole ? ring.reverse() : ring;
}

describe("polygonOfRings", () => {
  it("gives each hole to the smallest ring around it", () => {
    const [island, lake, islet, pond] = [
      square(0, 0, 10),
      square(1, 1, 8, true),
      square(2, 2, 4),
      square(3, 3, 1, true),
    ];
    const other = square(20, 0, 5);
    expect(polygonOfRings([island, pond, islet, lake, other])).toEqual({
      type: "MultiPolygon",
      coordinates: [[island, lake], [islet, pond], [other]],
    });
  });

  it("takes a hole in nothing for an outer ring drawn the wrong way, and closes open rings", () => {
    const [one, other] = [square(0, 0, 1, true), square(5, 5, 1, true)];
    expect(polygonOfRings([one, other])).toEqual({ type: "MultiPolygon", coordinates: [[one], [other]] });
    expect(polygonOfRings([square(0, 0, 1).slice(0, 4)])).toEqual({ type: "Polygon", coordinates: [square(0, 0, 1)] });
  });

  it("gives up on a shape of countless nested rings, and does not hang", () => {
    const rings = Array.from({ length: 8000 }, (_, at) => square(0, 0, 10, at % 2 === 1));
    const start = processorMs();
    try {
      polygonOfRings([...rings, ...Array.from({ length: 8000 }, () => square(0.1, 0.1, 9, true))]);
    } catch (error) {
      expect(error).toBeInstanceOf(GeometryError);
    }
    expect(processorMs() - start).toBeLessThan(5000);
  });
});
