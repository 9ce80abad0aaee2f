import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Feature, FeatureCollection, Geometry, Position } from "geojson";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readCsv } from "../../../src/formats/csv.ts";
import { ALSO_FORMATS, alsoFiles } from "../../../src/formats/write/also-files.ts";
import { positionsOf } from "../../../src/formats/write/geometry-box.ts";
import { fileText, type RevisionFiles } from "../../../src/formats/write/revision-files.ts";
import { treeIds } from "../../../src/formats/write/tree-ids.ts";
import { gdalMissing, layerSummary, ogrinfo, readFeatures } from "./gdal.ts";
import { sampleRevision } from "./making.ts";

/** A ten-thousandth of a millimeter on the ground; doubles of degrees are finer by a factor of ten thousand. */
const TOLERANCE_DEG = 1e-9;

describe.skipIf(gdalMissing !== null)(
  `the sample town through GDAL${gdalMissing === null ? "" : ` (skipped: ${gdalMissing})`}`,
  () => {
    let files: RevisionFiles;
    let folder: string;

    beforeAll(async () => {
      ({ files } = await alsoFiles(await sampleRevision(), ALSO_FORMATS));
      folder = mkdtempSync(join(tmpdir(), "also-"));
      for (const [name, bytes] of files) {
        mkdirSync(dirname(join(folder, name)), { recursive: true });
        writeFileSync(join(folder, name), bytes);
      }
    }, 120_000);
    afterAll(() => rmSync(folder, { recursive: true, force: true }));

    const inFolder = (name: string): string => join(folder, name);

    /** What the GeoJSON of the revision says of a layer; a tree has its plan id beside. */
    function expected(layer: string): Feature<Geometry | null>[] {
      const { features } = JSON.parse(fileText(files, `${layer}.geojson`)) as FeatureCollection;
      if (layer !== "trees") return features;
      const ids = treeIds(files.get("prescriptions.jsonl")!);
      return features.map((one, at) => ({ ...one, properties: { bough_tree: ids[at], ...one.properties } }));
    }

    /** Members that are not null; dates cut to the day, because FlatGeobuf has no dates without a time. */
    const present = (feature: Feature<Geometry | null>): Record<string, unknown> =>
      Object.fromEntries(
        Object.entries(feature.properties ?? {})
          .filter(([, value]) => value !== null)
          .map(([name, value]) => [name, typeof value === "string" ? value.replace(/T00:00:00$/, "") : value]),
      );

    /** Texts without the `'` that keeps a spreadsheet from taking them for formulas, as our own reader takes it off. */
    const withoutGuard = (members: Record<string, unknown>): Record<string, unknown> =>
      Object.fromEntries(
        Object.entries(members).map(([name, value]) => [
          name,
          typeof value === "string" ? value.replace(/^'(?='*[=+\-@])/, "") : value,
        ]),
      );

    /** The same as text, where a format has no types; an empty text and null are one in CSV. */
    const asText = (members: Record<string, unknown>): Record<string, unknown> =>
      Object.fromEntries(
        Object.entries(members)
          .filter(([, value]) => value !== "")
          .map(([name, value]) => [name, Array.isArray(value) ? value : String(value)]),
      );

    function expectSamePlaces(
      got: readonly Feature<Geometry | null>[],
      wanted: readonly Feature<Geometry | null>[],
    ): void {
      const places = (geometry: Geometry | null): Position[] => (geometry === null ? [] : positionsOf(geometry));
      got.forEach((feature, at) => {
        const other = wanted[at]!.geometry;
        expect(feature.geometry?.type).toBe(other?.type);
        const [mine, theirs] = [places(feature.geometry), places(other)];
        expect(mine.length).toBe(theirs.length);
        const worst = Math.max(
          0,
          ...mine.flatMap((place, k) => [0, 1].map((axis) => Math.abs(place[axis]! - theirs[k]![axis]!))),
        );
        expect(worst).toBeLessThanOrEqual(TOLERANCE_DEG);
      });
    }

    const GEOMETRY_TYPES = {
      trees: "Point",
      conflicts: "Polygon",
      surroundings: "Unknown (any)",
      sight: "Polygon",
      zones: "Multi Polygon",
    } as const;

    it.each(Object.keys(GEOMETRY_TYPES) as (keyof typeof GEOMETRY_TYPES)[])("plan.gpkg holds %s whole", (layer) => {
      const wanted = expected(layer);
      const summary = layerSummary(inFolder("plan.gpkg"), layer);
      expect(summary).toMatchObject({ geometry: GEOMETRY_TYPES[layer], count: wanted.length, epsg: "4326" });
      const got = readFeatures(inFolder("plan.gpkg"), layer);
      expect(got.map(present)).toEqual(wanted.map(present));
      expectSamePlaces(got, wanted);
    });

    it.each(["visits", "findings"])("plan.gpkg holds %s as a table", (name) => {
      const [header = [], ...rows] = readCsv(fileText(files, `${name}.csv`));
      const summary = layerSummary(inFolder("plan.gpkg"), name);
      expect(summary).toMatchObject({ geometry: "None", count: rows.length });
      expect([...summary.fields.keys()]).toEqual(header);
      const got = readFeatures(inFolder("plan.gpkg"), name);
      const wanted = rows.map((row) => Object.fromEntries(row.map((cell, at) => [header[at]!, cell])));
      expect(got.map((one) => asText(present(one)))).toEqual(wanted.map(asText));
    });

    it("plan.gpkg has the types of the data dictionary and of the city's own columns", () => {
      const { fields } = layerSummary(inFolder("plan.gpkg"), "trees");
      const types = Object.fromEntries(fields);
      expect(types).toMatchObject({
        bough_tree: "String",
        species: "String",
        dbh: "Integer64",
        height: "Real",
        planted: "String",
        bough_overdue: "Integer(Boolean)",
        bough_due: "Date",
        bough_dose_pct: "Real",
        bough_visits: "Integer64",
        bough_window: "String",
      });
    });

    it("plan.gpkg is sound, and its spatial index follows other programs' edits", () => {
      const file = inFolder("plan.gpkg");
      expect(ogrinfo(file, "-sql", "PRAGMA integrity_check")).toMatch(/= ok\n/);
      expect(ogrinfo(file, "-sql", "PRAGMA foreign_key_check")).not.toMatch(/OGRFeature/);
      expect(
        ogrinfo(
          file,
          "-sql",
          "SELECT count(*) AS n FROM sqlite_master WHERE name LIKE 'rtree_%_geom' AND type = 'table'",
        ),
      ).toMatch(/n \(Integer\) = 5\n/);
      const editable = inFolder("edited.gpkg");
      writeFileSync(editable, files.get("plan.gpkg")!);
      const indexed = (): number =>
        Number(
          /n \(Integer\) = (\d+)\n/.exec(ogrinfo(editable, "-sql", "SELECT count(*) AS n FROM rtree_trees_geom"))![1],
        );
      const before = indexed();
      expect(before).toBe(expected("trees").length);
      ogrinfo(editable, "-sql", "DELETE FROM trees WHERE fid <= 10");
      expect(indexed()).toBe(before - 10);
      ogrinfo(editable, "-sql", "UPDATE trees SET geom = NULL WHERE fid = 11");
      expect(indexed()).toBe(before - 11);
      ogrinfo(editable, "-sql", "UPDATE trees SET geom = (SELECT geom FROM trees WHERE fid = 12) WHERE fid = 11");
      expect(indexed()).toBe(before - 10);
    });

    it.each(["trees", "conflicts", "zones"] as const)("%s.fgb holds the same, in the same order", (layer) => {
      const wanted = expected(layer);
      const file = inFolder(`${layer}.fgb`);
      expect(layerSummary(file, layer)).toMatchObject({
        geometry: GEOMETRY_TYPES[layer],
        count: wanted.length,
        epsg: "4326",
      });
      const got = readFeatures(file, layer);
      expect(got.map(present)).toEqual(wanted.map(present));
      expectSamePlaces(got, wanted);
    });

    it.each(["trees", "conflicts", "zones"] as const)(
      "%s.csv holds the same as text, with a place a GIS can read",
      (layer) => {
        const wanted = expected(layer);
        const options =
          layer === "trees" ? ["-oo", "X_POSSIBLE_NAMES=bough_lon", "-oo", "Y_POSSIBLE_NAMES=bough_lat"] : [];
        const got = readFeatures(
          inFolder(`${layer}.csv`),
          layer,
          "-a_srs",
          "EPSG:4326",
          "-oo",
          "KEEP_GEOM_COLUMNS=NO",
          ...options,
        );
        expect(got.map((one) => withoutGuard(asText(present(one))))).toEqual(wanted.map((one) => asText(present(one))));
        expectSamePlaces(got, wanted);
      },
    );

    it("writes the same bytes again", async () => {
      const again = await alsoFiles(files, ALSO_FORMATS);
      for (const [name, bytes] of files) expect(Buffer.compare(bytes, again.files.get(name)!)).toBe(0);
      expect(again.findings).toEqual([]);
    });
  },
);
