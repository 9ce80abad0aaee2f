import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { alsoFiles } from "../../../src/formats/write/also-files.ts";
import { gdalMissing, layerSummary, ogrinfo, readFeatures } from "./gdal.ts";
import { treesRevision, treesText } from "./making.ts";

const why = gdalMissing === null ? "" : ` (skipped: ${gdalMissing})`;

describe.skipIf(gdalMissing !== null)(`odd columns and heights through GDAL${why}`, () => {
  let folder: string;

  beforeAll(async () => {
    const text = treesText(
      '"id":"T1","fid":7,"Geom":"x","Name":"a","name":"b","tag":9007199254740993,"n":9007199254740991,"mix":12.50,"list":[1, 2],"drop \\"t\\"; --":"\'; DROP TABLE trees; --","día":true',
      '"id":"T2","tag":1,"n":-1,"mix":"12 in","día":false',
    );
    folder = mkdtempSync(join(tmpdir(), "odd-"));
    const { files } = await alsoFiles(await treesRevision(text), ["gpkg", "fgb"]);
    for (const name of ["plan.gpkg", "trees.fgb"]) writeFileSync(join(folder, name), files.get(name)!);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it.each(["plan.gpkg", "trees.fgb"])("%s", (name) => {
    const file = join(folder, name);
    const { geometry, fields } = layerSummary(file, "trees");
    expect(geometry).toBe("3D Point");
    const own = [...fields].filter(([field]) => !field.startsWith("bough_"));
    expect(own).toEqual([
      ["id", "String"],
      ["fid_2", "Integer64"],
      ["Geom_2", "String"],
      ["Name", "String"],
      ["name_2", "String"],
      ["tag", "String"],
      ["n", "Integer64"],
      ["mix", "String"],
      ["list", "String"],
      ['drop "t"; --', "String"],
      ["día", "Integer(Boolean)"],
    ]);
    const [first, second] = readFeatures(file, "trees");
    expect(first!.geometry).toEqual({ type: "Point", coordinates: [-89.4, 43.07, 260.5] });
    expect(first!.properties).toMatchObject({
      fid_2: 7,
      Geom_2: "x",
      Name: "a",
      name_2: "b",
      tag: "9007199254740993",
      n: 9007199254740991,
      mix: "12.50",
      // GDAL shows a text that is JSON as JSON.
      list: [1, 2],
      'drop "t"; --': "'; DROP TABLE trees; --",
      día: true,
    });
    expect(second!.geometry).toEqual({ type: "Point", coordinates: [-89.41, 43.07, 261.5] });
    expect(second!.properties).toMatchObject({ tag: "1", n: -1, mix: "12 in", día: false });
  });

  it("plan.gpkg says what our columns mean", () => {
    const asked =
      "SELECT description FROM gpkg_data_columns WHERE table_name = 'trees' AND column_name = 'bough_lift_m'";
    expect(ogrinfo(join(folder, "plan.gpkg"), "-sql", asked)).toContain(
      "= By how much the lowest branches are raised there (m)\n",
    );
  });
});
