import { describe, expect, it } from "vitest";
import { parseAngleDeg, parseBearingDeg } from "../../../src/core/units/parse-bearing.ts";
import { read } from "./tree-features.ts";

const SIZES = { height: 12, crown_base: 4, crown_radius: 3 };

describe("bearings", () => {
  it("are read from degrees and compass points", () => {
    expect(
      ["NE", "north-east", "South West", "225°", 405, "90 deg", "northwest", "easterly", "up"].map(parseBearingDeg),
    ).toEqual([45, 45, 225, 225, 45, 90, 315, null, null]);
    expect(parseAngleDeg("12.5 degrees")).toBe(12.5);
  });
});

describe("a leaning tree", () => {
  it("has its crown beside its foot by the tangent of the lean times the middle of its crown", () => {
    const [tree] = read([{ ...SIZES, lean: 15, lean_direction: "E" }]).trees;
    // tan 15 = 0.26795; middle of the crown (12 + 4) / 2 = 8 m; half its depth 4 m.
    expect(tree!.crownEastM).toBeCloseTo(2.1436, 4);
    expect(tree!.crownNorthM).toBeCloseTo(0, 9);
    expect(tree!.stemRunM).toBeCloseTo(1.0718, 4);
    // 10 % of the radius and 20 % of the offset.
    expect(tree!.radius.highM).toBeCloseTo(3 + 0.3 + 0.42872, 4);
    expect(tree!.crownPlaceSource).toBe("lean of the stem");
  });

  it("without a direction stays over its trunk, with all of the offset in doubt", () => {
    const [tree] = read([{ ...SIZES, lean: 15 }]).trees;
    expect([tree!.crownEastM, tree!.crownNorthM]).toEqual([0, 0]);
    expect(tree!.radius.highM).toBeCloseTo(3 + 0.3 + 2.1436, 4);
    expect(tree!.radius.lowM).toBeCloseTo(3 - 0.3 - 2.1436, 4);
  });

  it("takes an offset as measured before a lean", () => {
    const [tree] = read([
      { ...SIZES, lean: 15, lean_direction: "E", crown_offset: 1.5, crown_offset_direction: 180 },
    ]).trees;
    expect(tree!.crownNorthM).toBeCloseTo(-1.5, 9);
    expect(tree!.stemRunM).toBeCloseTo(1.0718, 4);
    expect(tree!.crownPlaceSource).toBe("crown offset as measured");
  });

  it("is upright where nothing is said, and where a lean is not believed or not understood", () => {
    const { trees, findings } = read([
      SIZES,
      { ...SIZES, lean: 0, lean_direction: "N" },
      { ...SIZES, lean: 85, lean_direction: "N" },
      { ...SIZES, lean: "slightly" },
    ]);
    for (const tree of trees) {
      expect([tree.crownEastM, tree.crownNorthM, tree.stemRunM, tree.crownPlaceSource]).toEqual([0, 0, 0, null]);
      expect(tree.radius.highM).toBeCloseTo(3.3, 9);
    }
    expect(findings.map(({ code, field }) => [code, field])).toEqual(
      expect.arrayContaining([
        ["implausible-value", "lean"],
        ["lean-not-understood", "lean"],
      ]),
    );
  });
});
