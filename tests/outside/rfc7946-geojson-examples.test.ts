// Source: RFC 7946, The GeoJSON Format (August 2016), section 1.5 and appendix A.1 to A.7, each "valid and complete" by its own words.
// The examples were typed from memory; those of polygons (A.3, A.6) were compared with copies of the RFC's text in public repositories.
import { describe, expect, it } from "vitest";
import type { Layer } from "../../src/core/model/terms.ts";
import { readGeoJson } from "../../src/formats/geojson/read-geojson.ts";

const SECTION_1_5 = `{
    "type": "FeatureCollection",
    "features": [{
        "type": "Feature",
        "geometry": {
            "type": "Point",
            "coordinates": [102.0, 0.5]
        },
        "properties": {
            "prop0": "value0"
        }
    }, {
        "type": "Feature",
        "geometry": {
            "type": "LineString",
            "coordinates": [
                [102.0, 0.0],
                [103.0, 1.0],
                [104.0, 0.0],
                [105.0, 1.0]
            ]
        },
        "properties": {
            "prop0": "value0",
            "prop1": 0.0
        }
    }, {
        "type": "Feature",
        "geometry": {
            "type": "Polygon",
            "coordinates": [
                [
                    [100.0, 0.0],
                    [101.0, 0.0],
                    [101.0, 1.0],
                    [100.0, 1.0],
                    [100.0, 0.0]
                ]
            ]
        },
        "properties": {
            "prop0": "value0",
            "prop1": {
                "this": "that"
            }
        }
    }]
}`;

const A1_POINT = '{ "type": "Point", "coordinates": [100.0, 0.0] }';
const A2_LINE = '{ "type": "LineString", "coordinates": [ [100.0, 0.0], [101.0, 1.0] ] }';
const OUTER = "[ [100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0] ]";
const A3_POLYGON = `{ "type": "Polygon", "coordinates": [ ${OUTER} ] }`;
const A3_WITH_HOLE = `{ "type": "Polygon", "coordinates": [ ${OUTER},
  [ [100.8, 0.8], [100.8, 0.2], [100.2, 0.2], [100.2, 0.8], [100.8, 0.8] ] ] }`;
const A4_MULTIPOINT = '{ "type": "MultiPoint", "coordinates": [ [100.0, 0.0], [101.0, 1.0] ] }';
const A5_MULTILINE =
  '{ "type": "MultiLineString", "coordinates": [ [ [100.0, 0.0], [101.0, 1.0] ], [ [102.0, 2.0], [103.0, 3.0] ] ] }';
const A6_MULTIPOLYGON = `{ "type": "MultiPolygon", "coordinates": [
  [ [ [102.0, 2.0], [103.0, 2.0], [103.0, 3.0], [102.0, 3.0], [102.0, 2.0] ] ],
  [ ${OUTER}, [ [100.2, 0.2], [100.2, 0.8], [100.8, 0.8], [100.8, 0.2], [100.2, 0.2] ] ] ] }`;
const A7_COLLECTION = `{ "type": "GeometryCollection", "geometries": [
  { "type": "Point", "coordinates": [100.0, 0.0] },
  { "type": "LineString", "coordinates": [ [101.0, 0.0], [102.0, 1.0] ] } ] }`;

const read = (text: string, layer: Layer) =>
  readGeoJson(new TextEncoder().encode(text), { layer, file: "rfc7946.geojson" });

describe("RFC 7946 examples", () => {
  it("reads section 1.5 with each feature in the layer it suits", () => {
    const trees = read(SECTION_1_5, "trees");
    expect(trees.features.map(({ index, properties }) => [index, properties])).toEqual([[0, { prop0: "value0" }]]);
    expect(trees.setAside.map(({ finding }) => finding.code)).toEqual(["wrong-geometry-type", "wrong-geometry-type"]);
    const roads = read(SECTION_1_5, "roads");
    expect(roads.features.map(({ geometry }) => geometry.type)).toEqual(["LineString", "Polygon"]);
    expect(roads.features[1]!.properties).toEqual({ prop0: "value0", prop1: { this: "that" } });
  });

  it.each([
    ["A.1", A1_POINT, "trees"],
    ["A.2", A2_LINE, "roads"],
    ["A.3", A3_POLYGON, "buildings"],
    ["A.3 with a hole", A3_WITH_HOLE, "buildings"],
    ["A.5", A5_MULTILINE, "conductors"],
    ["A.6", A6_MULTIPOLYGON, "buildings"],
  ] as const)("reads %s, a bare geometry", (_, text, layer) => {
    const result = read(text, layer);
    expect(result.fault).toBeNull();
    expect(result.features.map(({ geometry }) => geometry)).toEqual([JSON.parse(text)]);
  });

  it.each([
    ["A.4", A4_MULTIPOINT, "trees", "several-points"],
    ["A.7", A7_COLLECTION, "buildings", "wrong-geometry-type"],
  ] as const)("sets %s aside with its reason: no layer takes it as one thing", (_, text, layer, code) => {
    const result = read(text, layer);
    expect(result.fault).toBeNull();
    expect(result.setAside.map(({ finding }) => finding.code)).toEqual([code]);
  });

  it("takes a ring of either winding (section 3.1.6)", () => {
    const { coordinates } = JSON.parse(A3_POLYGON) as { coordinates: number[][][] };
    const reversed = JSON.stringify({ type: "Polygon", coordinates: coordinates.map((ring) => ring.toReversed()) });
    expect(read(reversed, "buildings").counts.used).toBe(1);
  });
});
