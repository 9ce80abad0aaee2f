import { describe, expect, it } from "vitest";
import { parseFilter } from "../../../src/formats/filter.ts";
import { readGeoJson } from "../../../src/formats/geojson/read-geojson.ts";
import { bytesOf, codeFor, collection, feature, point, readText } from "./reading.ts";

describe("readGeoJson: what a file is", () => {
  it("reads a collection and keeps the place of each feature and its properties", () => {
    const text = ` ${collection(point(1, 2, '{ "a": 1 }'), point(3, 4))}\n`;
    const read = readText(text);
    expect(read.counts).toEqual({ features: 2, used: 2, setAside: 0, filteredOut: 0 });
    const { start, end, propertiesStart, propertiesEnd } = read.ranges;
    expect(text.slice(start[0]!, end[0])).toBe(point(1, 2, '{ "a": 1 }'));
    expect(text.slice(propertiesStart[0]!, propertiesEnd[0])).toBe('{ "a": 1 }');
    expect(new TextDecoder().decode(read.head)).toBe(' {"type":"FeatureCollection","features":[');
    expect(new TextDecoder().decode(read.tail)).toBe("]}\n");
    expect(read.verdict).toBe("clean");
  });

  it("numbers features from firstOrdinal on, set-aside ones included", () => {
    const read = readText(collection(point(1, 2), "null", point(3, 4)), { firstOrdinal: 10 });
    expect(read.features.map(({ index, ordinal }) => [index, ordinal])).toEqual([
      [0, 10],
      [2, 12],
    ]);
    expect(read.setAside.map(({ ordinal, finding }) => [ordinal, finding.code, finding.feature])).toEqual([
      [11, "not-a-feature", "#1"],
    ]);
  });

  it.each([
    ["feature", point(1, 2)],
    ["geometry", '{"type":"Point","coordinates":[1,2]}'],
    ["sequence", `${point(1, 2)}\n${point(3, 4)}\n`],
    ["sequence", `\u001e${point(1, 2)}\n\u001e${point(3, 4)}\n`],
  ])("takes a %s", (form, text) => {
    const read = readText(text);
    expect([read.form, read.fault]).toEqual([form, null]);
    expect(read.features[0]!.geometry).toEqual({ type: "Point", coordinates: [1, 2] });
    expect(read.counts.used).toBe(form === "sequence" ? 2 : 1);
  });

  it("skips a byte-order mark and leaves it out of the head", () => {
    const read = readText(`\ufeff${collection(point(1, 2))}`);
    expect(read.counts.used).toBe(1);
    expect(read.head[0]).toBe(0x7b);
  });

  it.each([
    ["not-geojson", "[]"],
    ["not-geojson", "12"],
    ["not-geojson", '{"type":"Topology","objects":{}}'],
    ["not-geojson", '{"type":"FeatureCollection"}'],
    ["not-geojson", '{"type":"FeatureCollection","features":{}}'],
    ["not-geojson", '{"type":"FeatureCollection","features":[],"features":[]}'],
    ["not-geojson", '{"type":"constructor","features":[]}'],
    ["not-geojson", '{"__proto__":{"type":"FeatureCollection"},"features":[]}'],
    ["bad-json", ""],
    ["bad-json", collection(point(1, 2), "")],
    ["bad-json", `${collection()} ${collection()}`],
    ["bad-json", `${collection()}\n${collection()}`],
    ["bad-json", collection(point(1, 2).replace('"Point"', "'Point'"))],
  ])("refuses, as %s, %s", (code, text) => {
    const read = readText(text);
    expect([read.verdict, read.fault?.code, read.counts.features]).toEqual(["unreadable", code, 0]);
    expect(read.findings).toEqual([read.fault]);
  });

  it.each([
    ["cut short", `${point(1, 2)}\n${point(1, 2)}\n{"type":"Feat\n${point(3, 4)}\n`],
    ["without a comma", `${point(1, 2)}\n${point(1, 2)}\n{"type":"Feature" "id":1}\n${point(3, 4)}\n`],
    [
      "cut short behind a separator",
      `\u001e${point(1, 2)}\n\u001e${point(1, 2)}\n\u001e{"type":"Feat\n\u001e${point(3, 4)}\n`,
    ],
  ])("names the line of a sequence that is %s", (_, text) => {
    expect(readText(text).fault?.reason).toMatch(/^The text is not JSON: line 3, /);
  });

  it("names line and column of a fault in the JSON", () => {
    const read = readText('{\n  "type": "FeatureCollection",\n  "features": [\n    {"é": 1,}\n  ]\n}');
    expect(read.fault?.reason).toBe("The text is not JSON: line 4, column 13: expected a name in double quotes.");
  });

  it("names line and column of bytes that are not UTF-8", () => {
    const latin1 = Uint8Array.from([...bytesOf('{"type":"FeatureCollection",\n"name":"Caf'), 0xe9, ...bytesOf('"}')]);
    const { fault } = readGeoJson(latin1, { layer: "trees", file: "a.geojson" });
    expect([fault?.code, fault?.value, fault?.reason]).toEqual([
      "bad-utf8",
      "0xe9",
      "The text is not UTF-8: line 2, column 12.",
    ]);
  });

  it("says when a file has no features", () => {
    const read = readText(collection());
    expect([read.verdict, read.findings[0]?.code]).toEqual(["warnings", "empty-file"]);
  });
});

describe("readGeoJson: ids and names", () => {
  it("keeps whole numbers past 2^53 as their text, in ids and in properties", () => {
    const big =
      '{"type":"Feature","id":9007199254740993,"properties":{"TREEID":9007199254740993,"dbh":12.5,"x":1e300},';
    const read = readText(collection(`${big}"geometry":{"type":"Point","coordinates":[1,2]}}`));
    expect(read.features[0]!.id).toBe("9007199254740993");
    expect(read.features[0]!.properties).toEqual({ TREEID: "9007199254740993", dbh: 12.5, x: 1e300 });
  });

  it("takes the last of repeated members, as JSON.parse does", () => {
    const text = '{"type":"Feature","id":1,"id":2,"properties":{"a":1},"properties":{"a":2,"a":3},"geometry":null,';
    const read = readText(collection(`${text}"geometry":{"type":"Point","coordinates":[1,2]}}`));
    expect([read.features[0]!.id, read.features[0]!.properties]).toEqual([2, { a: 3 }]);
  });

  it("finds members whose names are written with escapes", () => {
    const text = point(1, 2, '{"a":1}').replace('"properties"', '"prop\\u0065rties"');
    const read = readText(`{"type":"FeatureCollection","feat\\u0075res":[${text}]}`);
    expect(read.features[0]!.properties).toEqual({ a: 1 });
    expect(read.ranges.propertiesStart[0]).toBeGreaterThan(0);
  });

  it("is not moved by names of the prototype", () => {
    const text = point(1, 2, '{"__proto__":{"polluted":1},"constructor":2}');
    const read = readText(collection(text, '{"__proto__":{"type":"Feature"},"geometry":null}'));
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect(Object.keys(read.features[0]!.properties)).toEqual(["__proto__", "constructor"]);
    expect(read.setAside[0]!.finding.code).toBe("not-a-feature");
  });

  it("uses a feature whose id is no id, and says so", () => {
    const read = readText(collection(point(1, 2).replace("{", '{"id":true,')));
    expect([read.counts.used, read.features[0]!.id, read.findings[0]?.code]).toEqual([1, null, "bad-id"]);
  });
});

describe("readGeoJson: geometries", () => {
  const square = [
    [0, 0],
    [0, 1],
    [1, 1],
    [0, 0],
  ];
  it.each([
    ["trees", { type: "Point", coordinates: [1, 2] }, null],
    ["trees", { type: "Point", coordinates: [1, 2, 55, 7] }, null],
    ["trees", { type: "MultiPoint", coordinates: [[1, 2]] }, null],
    [
      "trees",
      {
        type: "MultiPoint",
        coordinates: [
          [1, 2],
          [3, 4],
        ],
      },
      "several-points",
    ],
    ["trees", null, "no-geometry"],
    ["trees", { type: "Point" }, "bad-coordinates"],
    ["trees", { type: "Point", coordinates: [] }, "empty-geometry"],
    ["trees", { type: "Point", coordinates: [1] }, "bad-coordinates"],
    ["trees", { type: "Point", coordinates: ["1", "2"] }, "bad-coordinates"],
    ["trees", { type: "Point", coordinates: [1, 2, null] }, "bad-coordinates"],
    ["trees", { type: "Point", coordinates: [[1, 2]] }, "bad-coordinates"],
    ["trees", { type: "Point", coordinates: [181, 2] }, "out-of-range"],
    ["trees", { type: "Point", coordinates: [180, -90] }, null],
    ["trees", { type: "Point", coordinates: [49.2, -123.1] }, "swapped-axes"],
    ["trees", { type: "Point", coordinates: [491234, 5456789] }, "projected-coordinates"],
    ["trees", { type: "constructor", coordinates: [1, 2] }, "invalid-geometry"],
    ["trees", { type: "__proto__", coordinates: [1, 2] }, "invalid-geometry"],
    ["trees", { type: "Polygon", coordinates: [square] }, "wrong-geometry-type"],
    ["trees", { type: "GeometryCollection", geometries: [] }, "wrong-geometry-type"],
    ["buildings", { type: "Polygon", coordinates: [square] }, null],
    ["buildings", { type: "Polygon", coordinates: [square.toReversed()] }, null],
    ["buildings", { type: "Polygon", coordinates: [] }, "empty-geometry"],
    ["buildings", { type: "Polygon", coordinates: [[]] }, "empty-geometry"],
    ["buildings", { type: "Polygon", coordinates: [square.slice(0, 3)] }, "open-ring"],
    [
      "buildings",
      {
        type: "Polygon",
        coordinates: [
          [
            [0, 0],
            [1, 1],
            [0, 0],
          ],
        ],
      },
      "bad-coordinates",
    ],
    ["buildings", { type: "MultiPolygon", coordinates: [[square], []] }, "empty-geometry"],
    ["buildings", { type: "Point", coordinates: [1, 2] }, "wrong-geometry-type"],
    [
      "roads",
      {
        type: "LineString",
        coordinates: [
          [0, 0],
          [1, 1],
        ],
      },
      null,
    ],
    ["roads", { type: "LineString", coordinates: [[0, 0]] }, "bad-coordinates"],
    ["roads", { type: "Polygon", coordinates: [square] }, null],
    [
      "paths",
      {
        type: "MultiLineString",
        coordinates: [
          [
            [0, 0],
            [1, 1],
          ],
        ],
      },
      null,
    ],
    ["paths", { type: "Point", coordinates: [1, 2] }, "wrong-geometry-type"],
    ["signs", { type: "Point", coordinates: [1, 2] }, null],
    [
      "signals",
      {
        type: "LineString",
        coordinates: [
          [0, 0],
          [1, 1],
        ],
      },
      "wrong-geometry-type",
    ],
    [
      "conductors",
      {
        type: "LineString",
        coordinates: [
          [0, 0],
          [1, 1],
        ],
      },
      null,
    ],
    ["conductors", { type: "Point", coordinates: [1, 2] }, null],
    ["conductors", { type: "Polygon", coordinates: [square] }, "wrong-geometry-type"],
  ] as const)("in %s: %j gives %s", (layer, geometry, code) => {
    expect(codeFor(geometry, layer)).toBe(code);
  });

  it("gives the core a Point for a MultiPoint of one", () => {
    const read = readText(collection(feature({ type: "MultiPoint", coordinates: [[1, 2]] })));
    expect(read.features[0]!.geometry).toEqual({ type: "Point", coordinates: [1, 2] });
  });

  it("refuses numbers that are too large to be numbers", () => {
    const read = readText(collection(point(1, 2).replace("[1,2]", "[1e999,2]")));
    expect(read.setAside[0]!.finding).toMatchObject({ code: "bad-coordinates", value: "Infinity" });
  });

  it("says once for the file what is likely true of all of it", () => {
    const read = readText(collection(point(491234, 5456789), point(491235, 5456780), point(1, 2)));
    expect(read.findings).toHaveLength(1);
    expect(read.findings[0]).toMatchObject({
      code: "projected-coordinates",
      feature: null,
      reason: "2 of 3 features: The coordinates are no degrees; they look like meters or feet.",
      whatToDo: "Give the file's coordinate system: --crs EPSG:n.",
    });
  });

  it("sets a feature aside at depth 101 and takes it at 100", () => {
    // The feature is 1 deep, its properties 2, so 98 more arrays make 100.
    const nested = (arrays: number): string => point(1, 2, `{"a":${"[".repeat(arrays)}${"]".repeat(arrays)}}`);
    const read = readText(collection(nested(98), nested(99), point(1, 2)));
    expect(read.features.map(({ index }) => index)).toEqual([0, 2]);
    expect(read.setAside[0]!.finding).toMatchObject({ code: "too-deep", value: "101" });
  });

  it("reads nesting of 100,000 without falling over", () => {
    const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;
    expect(readText(collection(point(1, 2, `{"a":${deep}}`))).setAside[0]!.finding.code).toBe("too-deep");
    expect(readText(`{"type":"FeatureCollection","x":${deep},"features":[]}`).fault?.code).toBe("too-deep");
    expect(readText("[".repeat(100_000)).fault?.code).toBe("bad-json");
  });

  it("leaves good features exactly as they are without the bad ones beside them", () => {
    const good = [point(1, 2, '{"a":1}'), point(3, 4, '{"a":2}')];
    const alone = readText(collection(...good)).features;
    const beside = readText(collection("7", good[0]!, feature(null), '"x"', good[1]!, point(999, 0))).features;
    expect(beside.map(({ properties, geometry }) => ({ properties, geometry }))).toEqual(
      alone.map(({ properties, geometry }) => ({ properties, geometry })),
    );
  });
});

describe("readGeoJson: properties and filter", () => {
  it("takes null and missing properties for none, and sets others aside", () => {
    const missing = '{"type":"Feature","geometry":{"type":"Point","coordinates":[1,2]}}';
    const read = readText(collection(point(1, 2, "null"), missing, point(1, 2, "[]"), point(1, 2, '"x"')));
    expect(read.features.map(({ properties }) => properties)).toEqual([{}, {}]);
    expect(read.setAside.map(({ finding }) => finding.code)).toEqual(["bad-properties", "bad-properties"]);
  });

  it("sets aside what the filter leaves out, before its geometry is judged, as no fault", () => {
    const read = readText(
      collection(point(1, 2, '{"T":"Road"}'), feature(null, '{"T":"Path"}'), point(1, 2, '{"T":null}')),
      { filter: parseFilter("T = road") },
    );
    expect(read.counts).toEqual({ features: 3, used: 1, setAside: 2, filteredOut: 2 });
    expect(read.setAside[0]!.finding).toMatchObject({ code: "filtered-out", severity: "info" });
    expect(read.verdict).toBe("clean");
  });

  it("uses a point at 0, 0 with a warning", () => {
    const read = readText(collection(point(0, 0)));
    expect([read.verdict, read.counts.used, read.findings[0]?.code]).toEqual(["warnings", 1, "zero-position"]);
  });
});
