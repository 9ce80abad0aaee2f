import { readFileSync } from "node:fs";
import { zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { openSource } from "../../../src/worker/intake/open-source.ts";
import { cityGeoPackage, treesCsv } from "../../browser/city-files.ts";

const utf8 = (text: string) => new TextEncoder().encode(text);

describe("openSource", () => {
  test("lists the tables of a GeoPackage with the layer of each", async () => {
    expect(await openSource(await cityGeoPackage(), "city.gpkg")).toEqual([
      { table: "street_centerlines", layer: "roads", because: "its name" },
      { table: "bldg_outlines", layer: "buildings", because: "its name" },
      { table: "hydrants", layer: null, because: null },
    ]);
  });

  test("lists the layers of a zip that holds several, and takes one alone for the file", async () => {
    const two = zipSync({
      "trees.csv": utf8(treesCsv()),
      "roads.geojson": utf8('{"type":"FeatureCollection","features":[]}'),
    });
    expect((await openSource(two, "city.zip")).map(({ table, layer }) => [table, layer])).toEqual([
      ["trees.csv", "trees"],
      ["roads.geojson", "roads"],
    ]);
    const roads = readFileSync(new URL("../../formats/read/fixtures/roads.zip", import.meta.url));
    expect((await openSource(new Uint8Array(roads), "roads.zip")).map(({ table, layer }) => [table, layer])).toEqual([
      [null, "roads"],
    ]);
  });

  test("tells a packed table by what it holds where its name says nothing", async () => {
    const zipped = zipSync({ "export.csv": utf8("species,dbh,lon,lat\nAcer,3,1,2\n") });
    expect(await openSource(zipped, "export.zip")).toEqual([{ table: null, layer: "trees", because: "what it holds" }]);
  });

  test("a file that cannot be read is one entry", async () => {
    expect(await openSource(utf8("not a zip"), "roads.zip")).toEqual([
      { table: null, layer: "roads", because: "its name" },
    ]);
  });
});
