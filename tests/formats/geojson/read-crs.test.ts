import { describe, expect, it } from "vitest";
import { spliceFeatures } from "../../../src/formats/geojson/splice-features.ts";
import { collection, feature, point, readText, textOf } from "./reading.ts";

const withCrs = (crs: string, ...features: readonly string[]): string =>
  collection(...features).replace("{", `{"crs":${crs},`);
const named = (name: string): string => `{"type":"name","properties":{"name":"${name}"}}`;

// UTM zone 10 has its central meridian at 123 W. There the easting is 500,000 m, and the northing is 0.9996 times the meridian arc from the
// equator (definition of UTM).
const N49 = 0.9996 * meridianArcM(49);

/** Snyder (1987), USGS Professional Paper 1395, equation 3-21, WGS 84; good to a millimeter. */
function meridianArcM(latDeg: number): number {
  const a = 6378137;
  const e2 = (2 - 1 / 298.257223563) / 298.257223563;
  const lat = (latDeg * Math.PI) / 180;
  const [e4, e6] = [e2 ** 2, e2 ** 3];
  return (
    a *
    ((1 - e2 / 4 - (3 * e4) / 64 - (5 * e6) / 256) * lat -
      ((3 * e2) / 8 + (3 * e4) / 32 + (45 * e6) / 1024) * Math.sin(2 * lat) +
      ((15 * e4) / 256 + (45 * e6) / 1024) * Math.sin(4 * lat) -
      ((35 * e6) / 3072) * Math.sin(6 * lat))
  );
}

describe("readGeoJson: coordinate systems", () => {
  it.each(["urn:ogc:def:crs:OGC:1.3:CRS84", "EPSG:4326", "urn:ogc:def:crs:EPSG::4326", "urn:ogc:def:crs:EPSG::4269"])(
    "takes %s as longitude and latitude",
    (name) => {
      const read = readText(withCrs(named(name), point(-123, 49)));
      expect([read.reprojectedFrom, read.verdict]).toEqual([null, "clean"]);
      expect(read.features[0]!.geometry).toEqual({ type: "Point", coordinates: [-123, 49] });
    },
  );

  it.each(["urn:ogc:def:crs:EPSG::26910", "EPSG:32610", "http://www.opengis.net/def/crs/EPSG/0/32610"])(
    "converts UTM zone 10 named %s",
    (name) => {
      const read = readText(withCrs(named(name), point(500000, N49)));
      const [lonDeg, latDeg] = (read.features[0]!.geometry as { coordinates: number[] }).coordinates;
      // 1e-8 degrees are a millimeter; the arc's series is good to that.
      expect(lonDeg).toBeCloseTo(-123, 8);
      expect(Math.abs(latDeg! - 49)).toBeLessThan(1e-8);
      expect(read.reprojectedFrom).toContain("EPSG:");
      expect(read.findings.map(({ code, severity }) => [code, severity])).toEqual([
        ["reprojected", "info"],
        ...(name.includes("26910") ? [["datum-not-shifted", "info"]] : []),
      ]);
    },
  );

  it("converts web Mercator, whose x is the longitude in radians times 6,378,137 m", () => {
    const x = (-123 * Math.PI * 6378137) / 180;
    const read = readText(withCrs(named("EPSG:3857"), point(x, 0)));
    expect(read.features[0]!.geometry).toEqual({ type: "Point", coordinates: [-123, 0] });
  });

  it("takes the option over the file, and says so", () => {
    const read = readText(withCrs(named("EPSG:3857"), point(500000, N49)), { crs: "EPSG:32610" });
    expect(read.reprojectedFrom).toBe("EPSG:32610");
    expect(read.findings.map(({ code }) => code)).toEqual(["crs-overridden", "reprojected"]);
  });

  it("takes a proj4 text as option", () => {
    const read = readText(collection(point(500000, N49)), { crs: "+proj=utm +zone=10 +datum=WGS84 +units=m +no_defs" });
    expect((read.features[0]!.geometry as { coordinates: number[] }).coordinates[0]).toBeCloseTo(-123, 8);
  });

  it.each([named("EPSG:2263"), '{"type":"link","properties":{"href":"http://example.com/crs"}}', '{"type":"name"}'])(
    "refuses a file in %s, and names the option",
    (crs) => {
      const read = readText(withCrs(crs, point(1, 2)));
      expect([read.fault?.code, read.fault?.whatToDo]).toEqual([
        "unknown-crs",
        "Give the coordinate system: --crs EPSG:n.",
      ]);
    },
  );

  it("throws for an option it does not know", () => {
    for (const crs of ["EPSG:99999", "EPSG:", "nonsense", "+proj=nonsense", "EPSG:26999"]) {
      expect(() => readText(collection(), { crs })).toThrow(RangeError);
    }
  });

  it("sets degrees aside where meters were promised", () => {
    const read = readText(collection(point(-123, 49)), { crs: "EPSG:32610" });
    expect(read.setAside[0]!.finding.code).toBe("degrees-in-projected");
  });

  it("writes converted coordinates back, without crs and bbox, the rest untouched", () => {
    const line = feature({ type: "Point", bbox: [0, 0, 1, 1], coordinates: [500000, N49, 12] }, '{ "a" : 1 }').replace(
      "{",
      '{"bbox":[1,2,3,4], ',
    );
    const text = `{"name":"x","crs":${named("EPSG:32610")}, "type":"FeatureCollection","bbox":[0,0,1,1],"features":[ ${line} ],"bbox":[1,2,3,4]}`;
    const read = readText(text);
    const [lonDeg, latDeg] = (read.features[0]!.geometry as { coordinates: number[] }).coordinates;
    expect(textOf(spliceFeatures([read], () => new Map([["bough_due", "2027-01-01"]])))).toBe(
      `{"name":"x","type":"FeatureCollection","features":[ {"type":"Feature","properties":{ "a" : 1,"bough_due":"2027-01-01" },` +
        `"geometry":{"type":"Point","coordinates":[${lonDeg},${latDeg},12]}} ]}`,
    );
  });
});
