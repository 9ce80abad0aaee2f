import { describe, expect, it } from "vitest";
import { guessColumnMap } from "../../../src/core/inventory/guess-columns.ts";
import { farthest, readFixture, sourceFeatures } from "./reading.ts";

// trees-cut-names.zip: what ogr2ogr made of trees-cut-names.geojson, names cut to ten letters, California III in US survey feet.

/** The column that each name became; GDAL's own report when the fixture was made. */
const CUT: Readonly<Record<string, string>> = {
  TREE_IDENTIFIER: "TREE_IDENT",
  BOTANICAL_NAME: "BOTANICAL_",
  COMMON_NAME: "COMMON_NAM",
  DIAMETER_CM: "DIAMETER_C",
  TREE_HEIGHT_M: "TREE_HEIGH",
  CROWN_BASE_HEIGHT: "CROWN_BASE",
  CROWN_WIDTH_NS: "CROWN_WIDT",
  CROWN_WIDTH_EW: "CROWN_WI_1",
  PLANTING_DATE: "PLANTING_D",
  CONDITION_RATING: "CONDITION_",
  STREET_NAME: "STREET_NAM",
  MAINTENANCE_OWNER: "MAINTENANC",
};

describe("a shapefile whose column names were cut to ten letters", () => {
  it("is read under the cut names, with every value and place of the source", async () => {
    const read = await readFixture("trees-cut-names.zip", "trees");
    expect(read.fault).toBeNull();
    expect(read.counts).toMatchObject({ features: 3, used: 3 });
    const source = [...sourceFeatures("trees-cut-names.geojson").values()];
    read.features.forEach(({ properties, geometry }, at) => {
      const wanted = source[at]!;
      expect(properties).toEqual(
        Object.fromEntries(Object.entries(wanted.properties!).map(([name, value]) => [CUT[name]!, value])),
      );
      // Nine decimals are kept when coordinates are converted.
      const places = [geometry, wanted.geometry].map((one) => (one as { coordinates: number[] }).coordinates);
      expect(farthest(places[0], places[1])).toBeLessThanOrEqual(1e-9);
    });
  });

  it("has its columns guessed by the beginnings of their names, upper case and all", async () => {
    const { features } = await readFixture("trees-cut-names.zip", "trees");
    const { guesses } = guessColumnMap("trees", Object.values(CUT), features);
    const columns = Object.fromEntries(guesses.map(({ field, column }) => [field, column]));
    expect(columns).toMatchObject({
      species: "BOTANICAL_",
      common_name: "COMMON_NAM",
      height: "TREE_HEIGH",
      crown_base: "CROWN_BASE",
      planted: "PLANTING_D",
      condition: "CONDITION_",
      street: "STREET_NAM",
    });
    // Whoever maintains a tree is no column of ours to guess by eleven letters' beginning.
    expect(Object.values(columns)).not.toContain("MAINTENANC");
  });
});
