import { describe, expect, it } from "vitest";
import { readOne } from "./tree-features.ts";

/** Feet and inches in meters, exact by definition. */
const FT = 0.3048;
const IN = 0.0254;

describe("lengths as cities write them", () => {
  it.each([
    // A unit in the value outranks the column's, here feet for heights and inches for stems.
    ["12 in", "dbh", 12 * IN],
    ['12"', "dbh", 12 * IN],
    ["12", "dbh", 12 * IN],
    [12, "dbh", 12 * IN],
    ["30 cm", "dbh", 0.3],
    ["3,5 m", "height", 3.5],
    ["3.5m", "height", 3.5],
    ["40 ft", "height", 40 * FT],
    ["40'", "height", 40 * FT],
    ["13 ft 6 in", "height", 13.5 * FT],
    ["40", "height", 40 * FT],
    ["10-20 ft", "height", 15 * FT],
    ['6-12"', "dbh", 9 * IN],
    ["6 to 12", "dbh", 9 * IN],
    ["> 24", "dbh", 30 * IN],
  ] as const)("%s of %s is read", (value, field, expectedM) => {
    const columns = { trees: { dbh: { column: "D", unit: "in" }, height: { column: "H", unit: "ft" } } } as const;
    const { tree, codes } = readOne({ [field === "dbh" ? "D" : "H"]: value }, columns);
    expect(field === "dbh" ? tree.dbhM : tree.height.valueM).toBeCloseTo(expectedM, 12);
    expect(codes).not.toContain("unreadable-value");
  });

  it.each([
    "N/A",
    "n/a",
    "-",
    "",
    " ",
    "?",
    "unknown",
    "NULL",
    "<Null>",
    -999,
    "-999",
    "-999.0",
    -1,
    -9999,
    null,
    Number.NaN,
  ])("%s says nothing, and is no fault", (value) => {
    const { tree, codes } = readOne({
      dbh: value,
      height: value,
      crown_base: value,
      crown_radius: value,
      planted: value,
    });
    expect([tree.dbhM, tree.planted]).toEqual([null, null]);
    expect([tree.height, tree.crownBase, tree.radius].map(({ basis }) => basis)).not.toContain("measured");
    expect(codes).not.toContain("unreadable-value");
    expect(codes).not.toContain("implausible-value");
  });

  it("takes 0 as each column says, and never for a stem, height or radius", () => {
    const zero = { dbh: 0, height: "0", crown_base: 0, crown_radius: "0.0", planted: 0 };
    const { tree, codes } = readOne(zero);
    expect([tree.dbhM, tree.height.basis, tree.radius.basis, tree.planted]).toEqual([null, "assumed", "assumed", null]);
    expect(tree.crownBase).toMatchObject({ valueM: 0, basis: "measured" });
    expect(codes).not.toContain("implausible-value");
    const unknown = readOne(zero, { trees: { crown_base: { column: "crown_base", zero: "unknown" } } }).tree;
    expect(unknown.crownBase.basis).toBe("assumed");
  });

  it("names a value that nobody can read, and what it did with it", () => {
    const { tree, findings } = readOne({ dbh: "big", height: "20 cubits" });
    expect(tree.dbhM).toBeNull();
    expect(
      findings.filter(({ code }) => code === "unreadable-value").map(({ field, value }) => [field, value]),
    ).toEqual([
      ["dbh", "big"],
      ["height", "20 cubits"],
    ]);
  });
});

describe("a measured size", () => {
  it("is never replaced by an estimate, however far from it", () => {
    // A stem of 60 cm lets a height of about 15 m expect; 6 m is believed, being more than four times the stem.
    const { tree } = readOne({ species: "Acer platanoides", dbh: 60, height: 6, crown_base: 5.5, crown_radius: 0.2 });
    expect(tree.height).toMatchObject({ valueM: 6, basis: "measured" });
    expect(tree.crownBase).toMatchObject({ valueM: 5.5, basis: "measured" });
    expect(tree.radius).toMatchObject({ valueM: 0.2, basis: "measured" });
  });

  it.each([
    ["height", { crown_base: 3, crown_radius: 4 }],
    ["crownBase", { height: 12, crown_radius: 4 }],
    ["radius", { height: 12, crown_base: 3 }],
  ] as const)("stays when only the %s is missing, which is estimated and says how", (missing, given) => {
    const { tree } = readOne({ species: "Acer platanoides", dbh: 30, ...given });
    for (const size of ["height", "crownBase", "radius"] as const) {
      expect(tree[size].basis).toBe(size === missing ? "estimated" : "measured");
    }
    expect(tree[missing].source).toMatch(/Acer platanoides, from dbh: \w+ of \w+ \(.+\), \d+ trees, sigma [\d.]+ /);
  });
});
