import type { FeatureCollection } from "geojson";
import { describe, expect, it } from "vitest";
import { publicFiles } from "../../../src/formats/write/public-files.ts";
import { publicTrees } from "../../../src/formats/write/public-trees.ts";
import { fileText, type RevisionFiles } from "../../../src/formats/write/revision-files.ts";
import { treesRevision } from "./making.ts";

const TEXT = `{"type":"FeatureCollection","contact":"A. Person","features":[
{"type":"Feature","id":"f1","note":"gate code 1234","properties": {"id":"T1","phone":"555-0100","species" : "Acer  rubrum" ,"owner":"A. Person","address":"1 Elm St","dbh": 30.50,"own\\u0065r":"B. Person"},"geometry":{"type":"Point","coordinates":[-89.40,43.0700]}},
{"type":"Feature","properties":{"phone":"555-0101"},"geometry":{"type":"Point","coordinates":[-89.41,43.07]},"properties":{"phone":"555-0102","id":"T2"}}
]}`;

const published = (files: RevisionFiles, fields?: Parameters<typeof publicTrees>[1]): string =>
  new TextDecoder().decode(publicTrees(files, fields));

describe("publicTrees", () => {
  it("keeps mapped columns and our own, byte for byte, and nothing else", async () => {
    const files = await treesRevision(TEXT);
    const text = published(files);
    for (const secret of ["Person", "555-", "Elm", "1234", "contact", "note", "owner", "address", "phone"]) {
      expect(text).not.toContain(secret);
    }
    expect(text).toContain('"properties": {"id":"T1","species" : "Acer  rubrum" ,"dbh": 30.50,"bough_conflicts":');
    expect(text).toContain('"coordinates":[-89.40,43.0700]');
    const { features } = JSON.parse(text) as FeatureCollection;
    const whole = JSON.parse(fileText(files, "trees.geojson")) as FeatureCollection;
    expect(features.map(({ id }) => id)).toEqual(["f1", undefined]);
    features.forEach(({ properties, geometry }, at) => {
      const all = whole.features[at]!.properties!;
      const kept = ["id", "species", "dbh"].filter((name) => Object.hasOwn(all, name));
      const ours = Object.keys(all).filter((name) => name.startsWith("bough_"));
      expect(properties).toEqual(Object.fromEntries([...kept, ...ours].map((name) => [name, all[name]])));
      expect(geometry).toEqual(whole.features[at]!.geometry);
    });
  });

  it("publishes owner and address where they are chosen", async () => {
    const files = await treesRevision(TEXT);
    const { features } = JSON.parse(published(files, ["owner"])) as FeatureCollection;
    expect(features[0]!.properties).toMatchObject({ owner: "B. Person" });
    expect(features[0]!.properties).not.toHaveProperty("address");
    expect(published(files, ["owner", "address"])).toContain("1 Elm St");
  });

  it("withholds a column that feeds a private field, whatever else it feeds", async () => {
    const files = new Map(await treesRevision(TEXT));
    const columns = {
      trees: { address: { column: "species" }, street: { column: "species" }, owner: { column: "phone" } },
    };
    files.set("columns.json", new TextEncoder().encode(JSON.stringify(columns)));
    const text = published(files);
    expect(text).not.toContain("species");
    expect(text).not.toContain("phone");
    // The map says that the owner is in another column, so a column named owner is none that it knows.
    expect(text).not.toContain("Person");
  });
});

describe("publicFiles", () => {
  it("writes the public trees in the formats asked for, beside an unchanged revision", async () => {
    const files = await treesRevision(TEXT);
    const all = await publicFiles(files, [], ["gpkg", "fgb", "parquet", "csv"]);
    expect([...all.keys()].filter((name) => !files.has(name))).toEqual(
      ["geojson", "gpkg", "fgb", "parquet", "csv"].map((ending) => `public/trees.${ending}`),
    );
    for (const [name, bytes] of files) expect(all.get(name)).toBe(bytes);
    for (const name of [...all.keys()].filter((one) => one.startsWith("public/"))) {
      const text = new TextDecoder("latin1").decode(all.get(name));
      for (const secret of ["Person", "555-", "Elm St", "gate code"]) expect(text, name).not.toContain(secret);
      expect(text).toContain("T1");
    }
  });
});
