import { describe, expect, it } from "vitest";
import { matches, parseFilter, parseLayerArgument } from "../../src/formats/filter.ts";

const holds = (filter: string, properties: Record<string, unknown>): boolean =>
  matches(parseFilter(filter), properties);

describe("parseFilter", () => {
  it.each([
    ["TYPE = Road", [["TYPE", "=", "road"]]],
    ["TYPE=Road", [["TYPE", "=", "road"]]],
    [
      "TYPE != Road and LANES = 2",
      [
        ["TYPE", "!=", "road"],
        ["LANES", "=", "2"],
      ],
    ],
    ["Tree Type contains Oak", [["Tree Type", "contains", "oak"]]],
    [
      "NAME lacks removed AND ID filled",
      [
        ["NAME", "lacks", "removed"],
        ["ID", "filled", ""],
      ],
    ],
    ["STATUS empty", [["STATUS", "empty", ""]]],
    ['NAME = "Rock and Roll"', [["NAME", "=", "rock and roll"]]],
    ['"is = empty" filled', [["is = empty", "filled", ""]]],
    ['NAME = "6"" pipe"', [["NAME", "=", '6" pipe']]],
    ["empty = yes", [["empty", "=", "yes"]]],
    ["NOTE contains a = b", [["NOTE", "contains", "a = b"]]],
    ["  TYPE  =  Road  ", [["TYPE", "=", "road"]]],
    ["TYPE one of Road,  Alley", [["TYPE", "one of", "road, alley"]]],
    ["DBH in inches = 3", [["DBH in inches", "=", "3"]]],
  ])("reads %s", (text, clauses) => {
    expect(parseFilter(text).clauses.map(({ field, operator, value }) => [field, operator, value])).toEqual(clauses);
  });

  it.each([
    "",
    "TYPE",
    "TYPE =",
    "= Road",
    "TYPE is Road",
    "TYPE = a and",
    "TYPE empty now",
    "TYPE one of",
    "TYPE one of Road,",
    'TYPE = "Road',
    "contains x",
  ])("refuses %j with the grammar or the quote", (text) => {
    expect(() => parseFilter(text)).toThrow(RangeError);
  });

  it("reads 50,000 blanks in no time", () => {
    const start = performance.now();
    expect(() => parseFilter(`TYPE${" ".repeat(50_000)}x`)).toThrow(RangeError);
    // Linear work is a few milliseconds; a second is what the promise allows.
    expect(performance.now() - start).toBeLessThan(1000);
  });
});

describe("one of", () => {
  it("holds for any of the values, numbers too, and for one with a comma or a quote in quotes", () => {
    expect(holds("TYPE one of Road, Alley", { TYPE: "ALLEY" })).toBe(true);
    expect(holds("TYPE one of Road, Alley", { TYPE: "Trail" })).toBe(false);
    expect(holds("TYPE one of Road, Alley", {})).toBe(false);
    expect(holds("LANES one of 2, 4", { LANES: 4 })).toBe(true);
    expect(holds('NAME one of "Smith, J", "6"" pipe"', { NAME: "smith, j" })).toBe(true);
    expect(holds('NAME one of "Smith, J", "6"" pipe"', { NAME: '6" pipe' })).toBe(true);
    expect(holds('NAME one of "Smith, J"', { NAME: "Smith" })).toBe(false);
  });
});

describe("matches", () => {
  it.each([
    ["T = road", { T: "Road" }, true],
    ["T = road", { T: " ROAD " }, true],
    ["T = road", { t: "road" }, false],
    ["T = 2", { T: 2 }, true],
    ["T = 2.0", { T: 2 }, true],
    ["T = 2", { T: "2" }, true],
    ["T = true", { T: true }, true],
    ["T = road", { T: null }, false],
    ["T != road", { T: null }, true],
    ["T != road", {}, true],
    ["T != road", { T: "ROAD" }, false],
    ["T contains oa", { T: "ROAD" }, true],
    ["T contains oa", { T: null }, false],
    ["T lacks oa", { T: null }, true],
    ["T lacks oa", { T: "road" }, false],
    ["T empty", {}, true],
    ["T empty", { T: "  " }, true],
    ["T empty", { T: 0 }, false],
    ["T filled", { T: false }, true],
    ["T filled", { T: null }, false],
    ["constructor filled", {}, false],
    ["T = a and U = b", { T: "a", U: "b" }, true],
    ["T = a and U = b", { T: "a", U: "c" }, false],
  ])("%s on %j is %s", (filter, properties, expected) => {
    expect(holds(filter, properties)).toBe(expected);
  });
});

describe("parseLayerArgument", () => {
  it("splits a path from its filter", () => {
    const { path, filter } = parseLayerArgument("landscape_hard.geojson where LSHARD_TYPE = Road");
    expect([path, filter?.text]).toEqual(["landscape_hard.geojson", "LSHARD_TYPE = Road"]);
    expect(parseLayerArgument("my trees.geojson")).toEqual({ path: "my trees.geojson", filter: null });
  });

  it("refuses a path or a filter that is missing", () => {
    for (const text of ["", " where A = b", "a.geojson where "])
      expect(() => parseLayerArgument(text)).toThrow(RangeError);
  });
});
