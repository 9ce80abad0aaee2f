import fc from "fast-check";
import type { Geometry, Position } from "geojson";
import { wkbToGeojson } from "hyparquet/src/wkb.js";
import { describe, expect, it } from "vitest";
import { hasZ } from "../../../src/formats/write/geometry-box.ts";
import { wkb } from "../../../src/formats/write/wkb.ts";
import { wkt } from "../../../src/formats/write/wkt.ts";

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");

describe("wkb", () => {
  it("writes little-endian, type, then doubles", () => {
    // 01 = little-endian, 01000000 = point; 2 = 0x4000000000000000, 4 = 0x4010000000000000 (IEEE 754).
    expect(hex(wkb({ type: "Point", coordinates: [2, 4] }))).toBe("010100000000000000000000400000000000001040");
    // A point with a height has type 1001 = 0x3e9.
    expect(hex(wkb({ type: "Point", coordinates: [2, 4, 2] }))).toBe(
      "01e903000000000000000000400000000000001040".concat("0000000000000040"),
    );
  });

  const number = fc.double({ min: -180, max: 180, noNaN: true });
  const position = (size: number): fc.Arbitrary<Position> => fc.array(number, { minLength: size, maxLength: size });
  const geometry = fc.constantFrom(2, 3).chain((size) => {
    const line = fc.array(position(size), { minLength: 2, maxLength: 5 });
    const rings = fc.array(fc.array(position(size), { minLength: 4, maxLength: 6 }), { minLength: 1, maxLength: 3 });
    const of = (type: string, coordinates: fc.Arbitrary<unknown>) =>
      coordinates.map((one) => ({ type, coordinates: one }) as Geometry);
    const single = fc.oneof(
      of("Point", position(size)),
      of("LineString", line),
      of("Polygon", rings),
      of("MultiPoint", fc.array(position(size), { minLength: 1, maxLength: 4 })),
      of("MultiLineString", fc.array(line, { minLength: 1, maxLength: 3 })),
      of("MultiPolygon", fc.array(rings, { minLength: 1, maxLength: 3 })),
    );
    const several = fc.array(single, { minLength: 1, maxLength: 3 });
    return fc.oneof(
      single,
      several.map((geometries): Geometry => ({ type: "GeometryCollection", geometries })),
    );
  });

  it("is read back by another library, every bit of it", () => {
    fc.assert(
      fc.property(geometry, (one) => {
        const bytes = wkb(one);
        const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
        expect(wkbToGeojson({ view, offset: 0 })).toEqual(one);
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it("leaves out heights that some positions lack", () => {
    const uneven: Geometry = {
      type: "LineString",
      coordinates: [
        [1, 2, 3],
        [4, 5],
      ],
    };
    expect(hasZ(uneven)).toBe(false);
    expect(wkt(uneven)).toBe("LINESTRING (1 2,4 5)");
    expect(wkb(uneven).length).toBe(1 + 4 + 4 + 2 * 16);
  });
});

describe("wkt", () => {
  it.each([
    [{ type: "Point", coordinates: [-89.12345678901235, 43, 260.5] }, "POINT Z (-89.12345678901235 43 260.5)"],
    [
      {
        type: "MultiPoint",
        coordinates: [
          [1, 2],
          [3, 4],
        ],
      },
      "MULTIPOINT ((1 2),(3 4))",
    ],
    [
      {
        type: "MultiPolygon",
        coordinates: [
          [
            [
              [0, 0],
              [1, 0],
              [1, 1],
              [0, 0],
            ],
          ],
        ],
      },
      "MULTIPOLYGON (((0 0,1 0,1 1,0 0)))",
    ],
    [{ type: "MultiPolygon", coordinates: [] }, "MULTIPOLYGON EMPTY"],
    [
      {
        type: "GeometryCollection",
        geometries: [
          {
            type: "LineString",
            coordinates: [
              [1, 2],
              [3, 4],
            ],
          },
        ],
      },
      "GEOMETRYCOLLECTION (LINESTRING (1 2,3 4))",
    ],
  ] as [Geometry, string][])("%j", (geometry, text) => {
    expect(wkt(geometry)).toBe(text);
  });
});
