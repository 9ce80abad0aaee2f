import { describe, expect, it } from "vitest";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { checkFiles } from "../../../src/formats/check/check-files.ts";

const options = {
  asOf: isoDate("2026-06-15"),
  units: "metric",
  drive: "right",
  place: { hardinessZone: null, region: null },
} as const;

const adviceOf = async (code: string, name: string, text: string): Promise<string[]> => {
  const files = [{ name, bytes: new TextEncoder().encode(text), layer: "trees", filter: null }] as const;
  const [one] = await checkFiles(files, { columns: {}, crs: null, standard: usCommon(), options });
  return one!.findings.filter((finding) => finding.code === code).map(({ whatToDo }) => whatToDo);
};

describe("of exchanged longitudes and latitudes", () => {
  it.each([
    ["x,y", "Exchange the names of the columns x and y, or their values: x is read as x, the longitude or easting."],
    ["lon,lat", "Exchange the names of the columns lon and lat, or their values: lon is read as longitude."],
  ])("a table %s is told which two columns to exchange, in each row and for the whole", async (header, advice) => {
    // Seattle lies at 122 degrees west: as a latitude that is no place.
    const told = await adviceOf("swapped-axes", "t.csv", `tree,${header}\n1,47.6,-122.3\n2,47.61,-122.31\n`);
    expect(told).toEqual([advice, advice, advice]);
    // Madison's 89 degrees west are a latitude, but one without trees.
    const [where] = await adviceOf("latitude-without-trees", "t.csv", `tree,${header}\n1,43.07,-89.4\n`);
    expect(where).toBe(`${advice} Nothing was changed.`);
  });

  it("a GeoJSON file is told the rule of GeoJSON", async () => {
    const tree = { type: "Feature", properties: {}, geometry: { type: "Point", coordinates: [47.6, -122.3] } };
    const told = await adviceOf("swapped-axes", "t.geojson", JSON.stringify(tree));
    expect(told[0]).toContain("RFC 7946");
  });
});
