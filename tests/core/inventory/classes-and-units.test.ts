import { describe, expect, it } from "vitest";
import { METERS_PER_FOOT } from "../../../src/core/units/length.ts";
import { read } from "./tree-features.ts";

const codes = (findings: readonly { readonly code: string }[]): string[] => findings.map(({ code }) => code);

describe("sizes given as classes", () => {
  it("take the middle, and the class as interval where it is wider than the error of measuring", () => {
    const { trees, findings } = read([{ dbh: 30, height: "30-50 ft", crown_base: "2-3 m", crown_spread: "20-40 ft" }]);
    const [{ height, crownBase, radius }] = trees as [(typeof trees)[0]];
    expect(height.valueM).toBeCloseTo(40 * METERS_PER_FOOT, 12);
    expect([height.lowM, height.highM].map((m) => m / METERS_PER_FOOT)).toEqual([
      expect.closeTo(30, 9),
      expect.closeTo(50, 9),
    ]);
    expect([height.basis, height.source]).toEqual(["measured", "column height, a class"]);
    // 2 to 3 m around 2.5: as wide as 0.3 m of error and more.
    expect(crownBase).toMatchObject({ valueM: 2.5, lowM: 2, highM: 3 });
    // Half of 20 to 40 ft.
    expect(radius.lowM).toBeCloseTo(10 * METERS_PER_FOOT, 9);
    expect(radius.highM).toBeCloseTo(20 * METERS_PER_FOOT, 9);
    expect(codes(findings).filter((code) => code === "size-from-class")).toHaveLength(3);
    expect(codes(findings)).not.toContain("unreadable-value");
  });
});

describe("sizes of trees known by their places alone", () => {
  const heightOf = (rows: readonly Record<string, unknown>[]) =>
    read([...rows, {}]).findings.find(({ code, field }) => code === "size-assumed" && field === "height")?.reason;

  it("are said to come from the database, or from the inventory where it measured five trees", () => {
    expect(heightOf([])).toBe("1 tree: height assumed as the median of its type in the Urban Tree Database.");
    expect(heightOf([8, 9, 10, 11, 12].map((height) => ({ height })))).toBe(
      "1 tree: height assumed as the median of like trees of this inventory.",
    );
  });
});

describe("a stem given as a class", () => {
  const ends = (dbh: string | number) => {
    const [tree] = read([{ species: "Acer platanoides", dbh }]).trees as [ReturnType<typeof read>["trees"][0]];
    return tree;
  };

  it("keeps its ends, and gives wider estimates than a figure", () => {
    const classed = ends('6-12"');
    const exact = ends("9 in");
    // 6 to 12 in are 0.1524 to 0.3048 m, their middle 0.2286 m.
    expect([classed.dbhM, classed.dbhLowM, classed.dbhHighM]).toEqual([
      expect.closeTo(0.2286, 9),
      expect.closeTo(0.1524, 9),
      expect.closeTo(0.3048, 9),
    ]);
    expect([exact.dbhLowM, exact.dbhHighM]).toEqual([null, null]);
    for (const size of ["height", "radius"] as const) {
      expect(classed[size].valueM).toBeCloseTo(exact[size].valueM, 9);
      expect(classed[size].lowM).toBeLessThan(exact[size].lowM);
      expect(classed[size].highM).toBeGreaterThan(exact[size].highM);
    }
    expect(classed.height.source).toContain("of the class's middle");
  });

  it("believes a low height as long as the thin end allows it", () => {
    // 2.5 m is under four times the middle, 0.75 m, and not under four times 0.5 m.
    const { trees, findings } = read([{ dbh: "50-100 cm", height: 2.5 }]);
    expect(trees[0]!.height.basis).toBe("measured");
    expect(codes(findings)).not.toContain("height-too-low-for-dbh");
  });
});

describe("a girth", () => {
  it("is divided by pi where no diameter is given", () => {
    const { trees, findings } = read([
      { girth: 100 },
      { girth: "94-126 cm" },
      { girth: 100, dbh: 40 },
      { girth: "30;40" },
    ]);
    // 100 cm / 3.14159 = 31.831 cm; two stems of 30 and 40 cm around are as one of 50 cm around, 15.915 cm thick.
    expect(trees.map(({ dbhM }) => dbhM)).toEqual([
      expect.closeTo(0.31831, 5),
      expect.closeTo(1.1 / Math.PI, 9),
      0.4,
      expect.closeTo(0.15915, 5),
    ]);
    expect(trees[1]!.dbhLowM).toBeCloseTo(0.94 / Math.PI, 9);
    expect(findings.find(({ code }) => code === "dbh-from-girth")?.reason).toContain("3 trees");
  });
});

describe("a genus of its own column", () => {
  it("stands before an epithet, and alone where there is no species", () => {
    const { trees } = read([
      { genus: "Acer", species: "rubrum" },
      { genus: "Acer", species: "Acer rubrum" },
      { genus: "Tilia" },
    ]);
    expect(trees.map(({ species }) => species)).toEqual(["Acer rubrum", "Acer rubrum", "Tilia"]);
    expect(trees.map(({ traits }) => traits.matchedBy)).toEqual(["species", "species", "genus"]);
  });
});

describe("stems in the diameter column", () => {
  it("become one stem of the same cross-section, and are counted", () => {
    const { trees, findings } = read([{ dbh: "30;40" }, { dbh: "30;40", stems: 3 }, { dbh: "69.8" }]);
    expect(trees.map(({ dbhM }) => dbhM)).toEqual([0.5, 0.5, expect.closeTo(0.698, 12)]);
    expect(trees.map(({ stems }) => stems)).toEqual([2, 3, 1]);
    expect(findings.find(({ code }) => code === "stems-summed")?.reason).toContain("2 trees");
  });
});

describe("units in doubt", () => {
  const rows = (dbh: number, height?: number) =>
    Array.from({ length: 12 }, (_, index) => ({
      dbh: dbh + index / 1000,
      ...(height === undefined ? {} : { height }),
    }));

  it.each([
    [300, undefined, "millimeters"],
    [0.35, undefined, "meters"],
    // 12 m over 10 cm is 120, over 10 in it would be 47.
    [10, 12, "inches"],
  ])("are said for a middle dbh of %s", (dbh, height, looksLike) => {
    const { findings, trees } = read(rows(dbh, height));
    const doubt = findings.find(({ code }) => code === "dbh-unit-doubtful");
    expect(doubt?.reason).toContain(looksLike);
    expect(doubt?.severity).toBe("warning");
    expect(trees[0]!.dbhM).toBeCloseTo(dbh / 100, 9);
  });

  it("are said for heights in feet read as meters", () => {
    expect(codes(read(rows(30, 40)).findings)).toContain("height-unit-doubtful");
  });

  it("are not raised by usual values, nor by a handful", () => {
    expect(codes(read(rows(30, 10)).findings).filter((code) => code.endsWith("doubtful"))).toEqual([]);
    expect(codes(read(rows(300).slice(0, 9)).findings)).not.toContain("dbh-unit-doubtful");
  });
});
