import { describe, expect, it } from "vitest";
import { columnMapFromGuesses } from "../../../src/core/inventory/column-map-from-guesses.ts";
import { parseColumnMap } from "../../../src/core/inventory/column-map-schema.ts";
import { guessColumnMap } from "../../../src/core/inventory/guess-columns.ts";
import { treeFeatures } from "./tree-features.ts";

/** Fields with their columns as guessed for trees. */
const guessed = (names: readonly string[], rows: readonly Record<string, unknown>[] = []): Record<string, string> =>
  Object.fromEntries(
    guessColumnMap("trees", names, treeFeatures(rows)).guesses.map(({ field, column }) => [field, column]),
  );

describe("names of tree columns", () => {
  it("are known in several languages, with or without accents", () => {
    expect(guessed(["BAUMID", "ART_BOT", "GATTUNG", "PFLANZJAHR", "KRONE_DURCH", "STAMMUMFG", "BAUMHÖHE"])).toEqual({
      id: "BAUMID",
      species: "ART_BOT",
      genus: "GATTUNG",
      girth: "STAMMUMFG",
      height: "BAUMHÖHE",
      crown_spread: "KRONE_DURCH",
      planted: "PFLANZJAHR",
    });
    expect(guessed(["IDBASE", "ESPÈCE", "GENRE", "CIRCONFÉRENCE (cm)", "HAUTEUR (m)", "Date Plantation"])).toEqual({
      id: "IDBASE",
      species: "ESPÈCE",
      genus: "GENRE",
      girth: "CIRCONFÉRENCE (cm)",
      height: "HAUTEUR (m)",
      planted: "Date Plantation",
    });
    expect(guessed(["Nombre Científico", "DAP", "Altura", "Diámetro copa"])).toEqual({
      species: "Nombre Científico",
      dbh: "DAP",
      height: "Altura",
      crown_spread: "Diámetro copa",
    });
    expect(guessed(["樹種", "胸高直径", "樹高", "枝下高"])).toEqual({
      species: "樹種",
      dbh: "胸高直径",
      height: "樹高",
      crown_base: "枝下高",
    });
    expect(guessed(["수종", "흉고직경", "수고", "수관폭"])).toEqual({
      species: "수종",
      dbh: "흉고직경",
      height: "수고",
      crown_spread: "수관폭",
    });
  });

  it("say classes, whose codes are not taken for lengths", () => {
    const classed = [{ "Height Class": "10-20 ft", DBH_RANGE: '6-12"' }];
    expect(guessed(["Height Class", "DBH_RANGE"], classed)).toEqual({ height: "Height Class", dbh: "DBH_RANGE" });
    expect(guessed(["Height Class"], [{ "Height Class": 2 }, { "Height Class": "3" }])).toEqual({});
    expect(guessed(["HEIGHT_CLASS", "HEIGHT"], [{ HEIGHT_CLASS: "10-20", HEIGHT: 4.5 }])).toEqual({ height: "HEIGHT" });
  });

  it("are the short ones of North American inventories", () => {
    expect(guessed(["TREE_ID", "BOT_NAME", "COM_NAME", "DBH_IN", "HT_FT"])).toEqual({
      id: "TREE_ID",
      species: "BOT_NAME",
      common_name: "COM_NAME",
      dbh: "DBH_IN",
      height: "HT_FT",
    });
  });

  it("are known when a Shapefile cut them after ten letters", () => {
    expect(guessed(["TREEID", "COMMON_NAM", "TRUNK_DIAM", "DATE_PLANT", "SCIENTIFIC", "LIVE_CROWN"])).toEqual({
      id: "TREEID",
      species: "SCIENTIFIC",
      common_name: "COMMON_NAM",
      dbh: "TRUNK_DIAM",
      crown_base: "LIVE_CROWN",
      planted: "DATE_PLANT",
    });
  });

  it("that were cut to the same ten letters are told apart by number and values", () => {
    // HEIGHT_LIVETOP and HEIGHT_LIVEBASE, CROWNWIDTH1 and CROWNWIDTH2 as a Shapefile keeps them.
    const rows = Array.from({ length: 12 }, (_, at) => ({
      THEIGHT: 10 + at,
      HEIGHT_LIV: 9.8 + at,
      HEIGHT_L_1: 2 + at / 10,
      CROWNWIDTH: 6,
      CROWNWID_1: 7,
    }));
    const names = ["THEIGHT", "HEIGHT_LIV", "HEIGHT_L_1", "CROWNWIDTH", "CROWNWID_1"];
    expect(guessed(names, rows)).toEqual({
      height: "THEIGHT",
      crown_base: "HEIGHT_L_1",
      crown_width_1: "CROWNWIDTH",
      crown_width_2: "CROWNWID_1",
    });
    const { guesses } = guessColumnMap("trees", names, treeFeatures(rows));
    expect(guesses.find(({ field }) => field === "crown_base")).toMatchObject({ level: "low", unitFrom: "assumed" });
  });

  it("carry units behind a mark, a capital or nothing", () => {
    const { columns } = guessColumnMap("trees", ["DBHin", "TreeHeightFt", "crown_spread_m"], []);
    expect(columns.trees).toMatchObject({
      dbh: { column: "DBHin", unit: "in" },
      height: { column: "TreeHeightFt", unit: "ft" },
      crown_spread: { column: "crown_spread_m", unit: "m" },
    });
    const conductors = guessColumnMap("conductors", ["kV"], []).columns.conductors;
    expect(conductors).toMatchObject({ voltage: { column: "kV", unit: "kV" } });
  });

  it("give a column to one field only, the surest first", () => {
    expect(guessed(["tree_status", "status"])).toEqual({ condition: "tree_status" });
    const { guesses, unused } = guessColumnMap("trees", ["HEIGHT", "TREEHEIGHT"], []);
    expect(guesses[0]).toMatchObject({ field: "height", column: "HEIGHT", alternatives: ["TREEHEIGHT"] });
    expect(guesses[0]!.why).toContain("TREEHEIGHT could be it too");
    expect(unused.map(({ column }) => column)).toEqual(["TREEHEIGHT"]);
  });
});

it("names a few of thousands of columns that look alike", () => {
  const names = Array.from({ length: 2_000 }, (_, at) =>
    at % 2 === 0 ? `HEIGHT_${at}`.padEnd(10, "X") : `HEIGHT_L_${at % 10}`,
  );
  const { guesses } = guessColumnMap("trees", [...new Set(names)], []);
  for (const { alternatives } of guesses) expect(alternatives.length).toBeLessThanOrEqual(5);
});

describe("units of guessed columns", () => {
  const rows = (of: (at: number) => Record<string, unknown>) => Array.from({ length: 12 }, (_, at) => of(at));
  const unitOf = (field: string, list: readonly Record<string, unknown>[]) => {
    const names = Object.keys(list[0]!);
    const { guesses, columns, findings } = guessColumnMap("trees", names, treeFeatures(list));
    const guess = guesses.find((one) => one.field === field)!;
    const source = (columns.trees as Record<string, { unit?: string }>)[field]!;
    return { unit: guess.unit, from: guess.unitFrom, mapped: source.unit, codes: findings.map(({ code }) => code) };
  };

  it("are read from values that write them", () => {
    expect(
      unitOf(
        "dbh",
        rows((at) => ({ dbh: `${10 + at}"` })),
      ),
    ).toMatchObject({ unit: "in", from: "values", mapped: "in" });
    expect(
      unitOf(
        "height",
        rows((at) => ({ height: `${10 + at}-${20 + at} ft` })),
      ),
    ).toMatchObject({
      unit: "ft",
      from: "values",
    });
    expect(
      unitOf(
        "height",
        rows((at) => ({ height: `${at},5 m` })),
      ),
    ).toMatchObject({ unit: "m", from: "values" });
  });

  it("are told from the range of the values where only that can, with a warning", () => {
    const inMillimeters = unitOf(
      "dbh",
      rows((at) => ({ dbh: 300 + at })),
    );
    expect(inMillimeters).toMatchObject({ unit: "mm", from: "range", mapped: "mm" });
    expect(inMillimeters.codes).toEqual(["columns-guessed", "unit-guessed"]);
    expect(
      unitOf(
        "dbh",
        rows((at) => ({ dbh: 0.3 + at / 100 })),
      ),
    ).toMatchObject({ unit: "m", from: "range" });
    expect(
      unitOf(
        "height",
        rows((at) => ({ height: 38 + at })),
      ),
    ).toMatchObject({ unit: "ft", from: "range" });
    // A girth of 0.9 m is a stem of 29 cm, one of 0.9 cm none.
    expect(
      unitOf(
        "girth",
        rows((at) => ({ girth: 0.9 + at / 100 })),
      ),
    ).toMatchObject({ unit: "m", from: "range" });
    // 12 m over 10 cm is 120 times as high as thick, over 10 in it is 47 times.
    expect(
      unitOf(
        "dbh",
        rows((at) => ({ dbh: 10 + at / 10, height: 12 })),
      ),
    ).toMatchObject({ unit: "in", from: "range" });
  });

  it("are assumed, and not mapped, where the values can be in the field's own", () => {
    const usual = unitOf(
      "dbh",
      rows((at) => ({ dbh: 25 + at, height: 11 })),
    );
    expect(usual).toEqual({ unit: "cm", from: "assumed", mapped: undefined, codes: ["columns-guessed"] });
  });
});

describe("what a guess shows", () => {
  it("is the share of empty and zero cells and at most five different values", () => {
    const list = [1, 2, 3, 4, 5, 6, 0, "N/A", -999, null].map((base) => ({ crown_base: base }));
    const { guesses } = guessColumnMap("trees", ["crown_base"], treeFeatures(list));
    expect(guesses[0]).toMatchObject({
      rows: 10,
      shareEmpty: 0.3,
      shareZero: 0.1,
      zero: "value",
      samples: ["1", "2", "3", "4", "5"],
    });
  });

  it("comes from all over a long table, not from its beginning", () => {
    const list = Array.from({ length: 2_000 }, (_, at) => ({ dbh: at < 1_000 ? null : at / 40 }));
    const { guesses } = guessColumnMap("trees", ["dbh"], treeFeatures(list));
    expect(guesses[0]).toMatchObject({ rows: 500, shareEmpty: 0.5, shareReadable: 1 });
  });
});

describe("columnMapFromGuesses", () => {
  it("keeps what a person mended, in a form that is read back", () => {
    const { guesses } = guessColumnMap("trees", ["ID", "DIAM", "CROWN_BASE"], []);
    const mended = guesses.map((guess) =>
      guess.field === "dbh"
        ? { ...guess, unit: "in" as const }
        : guess.field === "crown_base"
          ? { ...guess, zero: "unknown" as const }
          : guess,
    );
    const map = columnMapFromGuesses(mended);
    expect(map).toEqual({
      trees: {
        id: { column: "ID" },
        dbh: { column: "DIAM", unit: "in", zero: "unknown" },
        crown_base: { column: "CROWN_BASE", unit: "m", zero: "unknown" },
      },
    });
    expect(parseColumnMap(JSON.parse(JSON.stringify(map)))).toEqual({ columns: map });
  });

  it("takes the later of two rows for a field", () => {
    const row = { layer: "trees", field: "dbh", unit: "cm", zero: null } as const;
    expect(
      columnMapFromGuesses([
        { ...row, column: "A" },
        { ...row, column: "B" },
      ]),
    ).toEqual({
      trees: { dbh: { column: "B", unit: "cm" } },
    });
    expect(columnMapFromGuesses([])).toEqual({});
  });
});
