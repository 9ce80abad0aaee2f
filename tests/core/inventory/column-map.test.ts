import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseColumnMap } from "../../../src/core/inventory/column-map-schema.ts";
import { guessColumnMap, overlayColumnMap } from "../../../src/core/inventory/guess-columns.ts";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import { treeFeatures } from "./tree-features.ts";

describe("parseColumnMap", () => {
  it("takes the campus map and short forms", () => {
    const campus = parseColumnMap(JSON.parse(readFileSync("tests/fixtures/ubc/columns.json", "utf8")));
    expect(campus).toMatchObject({ columns: { trees: { dbh: { column: "DBH", unit: "cm" } } } });
    expect(parseColumnMap({ trees: { dbh: "DIAM" } })).toEqual({ columns: { trees: { dbh: { column: "DIAM" } } } });
  });

  it.each([
    [null, "The column map must be an object"],
    [{ trees: { dbh: { unit: "cm" } } }, '"trees.dbh.column" must be a string'],
    [{ tree: {} }, 'The column map has no place for "tree"; it knows trees, buildings'],
    [{ trees: { dbhh: "X" } }, '"trees" has no place for "dbhh"; it knows id, species'],
    [{ trees: { dbh: { column: "D", unit: "furlong" } } }, '"trees.dbh.unit" must be one of m, cm'],
    [
      { trees: { dbh: { column: "D", extra: 1 } } },
      '"trees.dbh" has no place for "extra"; it knows column, unit, zero, values',
    ],
    [{ trees: { dbh: 5 } }, '"trees.dbh" must be the name of a column'],
    [JSON.parse('{"__proto__": {}}'), 'no place for "__proto__"'],
  ])("says in plain words what is wrong with %j", (json, sentence) => {
    const parsed = parseColumnMap(json);
    expect("faults" in parsed ? parsed.faults.join("\n") : "").toContain(sentence);
  });
});

describe("guessColumnMap", () => {
  it("knows common names and takes units from them", () => {
    const names = [
      "OBJECTID",
      "BotanicalName",
      "DBH_in",
      "Height (ft)",
      "CROWN_SPREAD_FT",
      "HEIGHT_LIVEBASE",
      "Date Planted",
    ];
    const { columns, findings } = guessColumnMap("trees", names, []);
    expect(columns.trees).toEqual({
      id: { column: "OBJECTID" },
      species: { column: "BotanicalName" },
      dbh: { column: "DBH_in", unit: "in" },
      height: { column: "Height (ft)", unit: "ft", zero: "unknown" },
      crown_base: { column: "HEIGHT_LIVEBASE" },
      crown_spread: { column: "CROWN_SPREAD_FT", unit: "ft", zero: "unknown" },
      planted: { column: "Date Planted" },
    });
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ code: "columns-guessed", severity: "info", layer: "columns" });
    expect(findings[0]!.reason).toContain("dbh from DBH_in (in)");
    expect(findings[0]!.reason).toContain("crown_base from HEIGHT_LIVEBASE (taken as m)");
  });

  it("says how sure it is and shows values", () => {
    const rows = [{ DIAM: 12, SP: "Acer rubrum" }, { DIAM: "x", SP: "Acer rubrum" }, { DIAM: 14 }, { DIAM: 16 }];
    const { guesses } = guessColumnMap("trees", ["DIAM", "species"], treeFeatures(rows));
    expect(guesses).toMatchObject([
      // An own name counts 1; no value to test it by halves it.
      {
        field: "species",
        column: "species",
        unit: null,
        isUnitNamed: false,
        confidence: 0.5,
        samples: [],
        level: "medium",
      },
      // An alias 0.9, three of four values fit, the unit is assumed: 0.9 x 0.75 x 0.8 = 0.54.
      {
        layer: "trees",
        field: "dbh",
        column: "DIAM",
        unit: "cm",
        unitFrom: "assumed",
        zero: "unknown",
        rows: 4,
        shareEmpty: 0,
        shareReadable: 0.75,
        confidence: 0.54,
        level: "medium",
        samples: ["12", "x", "14", "16"],
        why: "The name is a usual name of it; 75 % of its values can be read; nothing says the unit, cm is assumed.",
      },
    ]);
  });

  it("passes over a column whose values cannot be what the field wants", () => {
    const rows = treeFeatures([
      { HEIGHT: "Tall", TREEHEIGHT: 8 },
      { HEIGHT: "Short", TREEHEIGHT: 3 },
    ]);
    expect(guessColumnMap("trees", ["HEIGHT", "TREEHEIGHT"], rows).columns.trees?.height?.column).toBe("TREEHEIGHT");
  });

  it("guesses the other layers", () => {
    const buildings = guessColumnMap("buildings", ["BLDG_UID", "BLDG_HEIGHT", "building:levels", "NAME"], []).columns
      .buildings;
    expect(buildings).toMatchObject({ height: { column: "BLDG_HEIGHT" }, levels: { column: "building:levels" } });
    const roads = guessColumnMap("roads", ["name", "highway", "maxspeed"], []).columns.roads;
    expect(roads).toMatchObject({
      name: { column: "name" },
      class: { column: "highway" },
      speed: { column: "maxspeed" },
    });
    expect(guessColumnMap("signs", ["nothing"], [])).toMatchObject({
      columns: { signs: {} },
      findings: [],
      guesses: [],
      unused: [{ column: "nothing", rows: 0, samples: [] }],
    });
  });

  it("guesses nothing from hostile names and is outranked by a given map", () => {
    const names = ["__proto__", "constructor", "", "x".repeat(100_000)];
    const features: SourceFeature[] = treeFeatures([JSON.parse('{"__proto__": 1}')]);
    expect(guessColumnMap("trees", names, features).columns).toEqual({ trees: {} });
    const guessed = guessColumnMap("trees", ["DBH", "HEIGHT"], []).columns;
    const given = { trees: { dbh: { column: "MINE", unit: "in" } } } as const;
    expect(overlayColumnMap(given, guessed).trees).toMatchObject({
      dbh: { column: "MINE" },
      height: { column: "HEIGHT" },
    });
  });
});
