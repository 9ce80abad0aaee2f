import { zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { takeIn } from "../../../src/app/intake/intake.ts";
import { type FormTexts, planOptions } from "../../../src/app/intake/plan-options.ts";
import { smallPlanFiles } from "../small-plan.ts";

const file = (name: string, content: string | Uint8Array) => ({
  name,
  blob: new Blob([content as Uint8Array<ArrayBuffer>]),
});

describe("takeIn", () => {
  test("sorts layers, a column map, a standard and what cannot be read", async () => {
    const intake = await takeIn([
      file("roads.geojson", "{}"),
      file("trees.geojson", "{}"),
      file("columns.json", '{"trees":{}}'),
      file("city.standard.json", "[]"),
      file("photo.png", "x"),
    ]);
    expect(intake.files.map(({ name, layer }) => [name, layer])).toEqual([
      ["trees.geojson", "trees"],
      ["roads.geojson", "roads"],
    ]);
    expect(intake.columns).toEqual({ trees: {} });
    expect(intake.standardJson).toBeNull();
    expect(intake.refused).toEqual([
      "city.standard.json is not a JSON object and was left out.",
      expect.stringMatching(/^photo\.png was left out: layers can be GeoJSON, CSV/),
    ]);
  });

  test("knows a column map and a standard by their members too, since browsers rename what they save", async () => {
    const intake = await takeIn([
      file("columns (1).json", '{"trees":{"height":{"column":"HT","unit":"ft"}}}'),
      file("city values.json", '{"extends":"us-common","title":"Ours"}'),
      file("trees.json", '{"type":"FeatureCollection","features":[]}'),
    ]);
    expect(intake.columns).toEqual({ trees: { height: { column: "HT", unit: "ft" } } });
    expect(intake.standardName).toBe("city values.json");
    expect(intake.files.map(({ name }) => name)).toEqual(["trees.json"]);
  });

  test("says in words what is wrong with a column map", async () => {
    const intake = await takeIn([file("columns.json", '{"trees":{"hight":"HT"}}')]);
    expect(intake.columnsName).toBeNull();
    expect(intake.refused).toEqual([expect.stringMatching(/^columns\.json was left out\. .*hight/)]);
  });

  test("knows a finished plan, loose or in a zip, and takes nothing else out of the zip", async () => {
    const files = smallPlanFiles(3);
    const loose = await takeIn([...files].map(([name, bytes]) => file(name, bytes)));
    expect([...(loose.plan ?? new Map()).keys()]).toEqual([...files.keys()]);
    const zipped = zipSync({ ...Object.fromEntries(files), "../evil.js": new Uint8Array(1) });
    const opened = await takeIn([file("plan.zip", zipped)]);
    expect(new Set(opened.plan?.keys())).toEqual(new Set(files.keys()));
  });

  test("takes tables, GeoPackages and a zip that holds no plan for layers, each by its name", async () => {
    const intake = await takeIn([
      file("street_trees.csv", "id,lon,lat\n1,2,3\n"),
      file("buildings.gpkg", "SQLite format 3"),
      file("road_centerlines.zip", zipSync({ "roads.shp": new Uint8Array(4) })),
    ]);
    expect(intake.files.map(({ name, layer }) => [name, layer])).toEqual([
      ["street_trees.csv", "trees"],
      ["buildings.gpkg", "buildings"],
      ["road_centerlines.zip", "roads"],
    ]);
    expect([intake.plan, intake.refused]).toEqual([null, []]);
  });

  test("refuses a zip that is none in a sentence", async () => {
    const intake = await takeIn([file("plan.zip", "not a zip")]);
    expect(intake.plan).toBeNull();
    expect(intake.refused).toEqual([expect.stringMatching(/^plan\.zip was left out\. The zip cannot be read/)]);
  });
});

describe("planOptions", () => {
  const form = (entries: Partial<FormTexts>): FormTexts => ({
    asOf: "2026-11-02",
    units: "us",
    drive: "right",
    hardinessZone: "",
    region: "",
    ...entries,
  });

  test("reads a filled form", () => {
    expect(planOptions(form({ units: "metric", drive: "left", hardinessZone: "6", region: "us-wi" }))).toEqual({
      asOf: "2026-11-02",
      units: "metric",
      drive: "left",
      place: { hardinessZone: 6, region: "US-WI" },
    });
  });

  test("leaves what is not said unknown", () => {
    expect(planOptions(form({}))).toMatchObject({ units: "us", place: { hardinessZone: null, region: null } });
  });

  test.each([
    [{ asOf: "2026-02-30" }, /date/],
    [{ hardinessZone: "14" }, /1 to 13/],
    [{ region: "Wisconsin" }, /US-WI/],
  ])("says in a sentence what is wrong with %j", (entries, sentence) => {
    expect(planOptions(form(entries))).toMatch(sentence);
  });
});
