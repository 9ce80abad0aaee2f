/**
 * Source: University of British Columbia, campus trees, open data of 2026 (github.com/UBCGeodata/ubc-geospatial-opendata, PDDL 1.0): every
 * third of its live, completely measured trees, in tests/fixtures/ubc/sizes.csv. The campus is in no allometry table, so its trees check the
 * estimates from outside: each plausibly measured one is read with nothing but its names and stem. Nothing here was used to make the estimates.
 *
 * Columns: THEIGHT, HEIGHT_LIVEBASE, CROWNWIDTH1 and CROWNWIDTH2 in meters, DBH in centimeters, CROWN_LIGHTEXP the number of sides of the
 * crown, of five, that get light.
 */
import { readFileSync } from "node:fs";
import type { Point } from "geojson";
import { describe, expect, it } from "vitest";
import { readTrees } from "../../src/core/inventory/read-trees.ts";
import type { ColumnMap } from "../../src/core/model/column-map.ts";
import type { SourceFeature } from "../../src/core/model/feature.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { readCsv } from "../../src/formats/csv.ts";

const COLUMNS: ColumnMap = {
  trees: { species: { column: "TAXA" }, common_name: { column: "COMMON_NAME" }, dbh: { column: "DBH", unit: "cm" } },
};
const [HEAD, ...LINES] = readCsv(readFileSync("tests/fixtures/ubc/sizes.csv", "utf8")) as [string[], ...string[][]];

interface Measured {
  readonly TAXA: string;
  readonly COMMON_NAME: string;
  readonly DBH: number;
  readonly heightM: number;
  readonly baseM: number;
  readonly radiusM: number;
  readonly litSides: number | null;
}

function measuredOf(cells: readonly string[]): Measured {
  const of = (name: string): string => cells[HEAD.indexOf(name)]!;
  return {
    TAXA: of("TAXA"),
    COMMON_NAME: of("COMMON_NAME"),
    DBH: Number(of("DBH")),
    heightM: Number(of("THEIGHT")),
    baseM: Number(of("HEIGHT_LIVEBASE")),
    radiusM: (Number(of("CROWNWIDTH1")) + Number(of("CROWNWIDTH2"))) / 4,
    litSides: of("CROWN_LIGHTEXP") === "" ? null : Number(of("CROWN_LIGHTEXP")),
  };
}

/** Inside what a campus tree can have, a crown of 0.3 m or more, and no thick stem under a low top: what the reader would believe. */
const isPlausible = ({ DBH, heightM, baseM, radiusM }: Measured): boolean =>
  DBH >= 1 &&
  DBH <= 500 &&
  heightM >= 0.5 &&
  heightM <= 100 &&
  baseM >= 0 &&
  heightM - baseM >= 0.3 &&
  radiusM >= 0.05 &&
  radiusM <= 25 &&
  !(DBH >= 60 && heightM * 100 < 4 * DBH);

const measured = LINES.map(measuredOf).filter(isPlausible);
const features = measured.map(
  ({ TAXA, COMMON_NAME, DBH }, index): SourceFeature<Point> => ({
    layer: "trees",
    file: "sizes.csv",
    index,
    ordinal: index,
    id: null,
    properties: { TAXA, COMMON_NAME, DBH },
    geometry: { type: "Point", coordinates: [-123 + index / 10_000, 49] },
  }),
);
const { trees } = readTrees(features, COLUMNS, usCommon(), {
  asOf: isoDate("2026-06-15"),
  units: "metric",
  drive: "right",
  place: { hardinessZone: null, region: "CA-BC" },
});
const estimated = trees
  .map((tree) => ({ tree, row: measured[tree.ordinal]! }))
  .filter(({ tree }) => tree.height.source.startsWith("urban allometry"));
const levelOf = (source: string): "species" | "genus" | "type" =>
  source.includes(", genus ") ? "genus" : source.includes(" in general") ? "type" : "species";

const SIZES = { height: "heightM", crownBase: "baseM", radius: "radiusM" } as const;
type SizeName = keyof typeof SIZES;

const shareHeld = (size: SizeName, list: typeof estimated): number =>
  list.filter(({ tree, row }) => row[SIZES[size]] >= tree[size].lowM && row[SIZES[size]] <= tree[size].highM).length /
  list.length;

describe("estimates for a campus that no table knows", () => {
  it("are made for nearly all of its measured trees", () => {
    expect(measured.length).toBeGreaterThan(1_400);
    expect(estimated.length / measured.length).toBeGreaterThan(0.97);
  });

  const cases = (["species", "genus", "type"] as const).flatMap((level) =>
    (["height", "crownBase", "radius"] as const).map((size) => [level, size] as const),
  );
  it.each(cases)("by %s hold eight in ten measured values and more: %s", (level, size) => {
    const list = estimated.filter(({ tree }) => levelOf(tree.height.source) === level);
    expect(list.length).toBeGreaterThan(250);
    // Nominal is 90 %; a campus with crowded trees is known to fall short of it, as docs/method.md says. Below 80 % an estimate would
    // be called too sure; a share of all would mean that the interval says nothing.
    expect(shareHeld(size, list)).toBeGreaterThan(0.8);
    expect(shareHeld(size, list)).toBeLessThan(0.995);
  });

  it("hold more of the trees that stand free than of the crowded ones", () => {
    const free = estimated.filter(({ row }) => row.litSides !== null && row.litSides >= 4);
    const crowded = estimated.filter(({ row }) => row.litSides === 1);
    expect(free.length).toBeGreaterThan(300);
    expect(crowded.length).toBeGreaterThan(80);
    expect(shareHeld("height", free)).toBeGreaterThan(shareHeld("height", crowded) + 0.03);
  });

  it("are not far off on the whole", () => {
    const sum = (of: (one: (typeof estimated)[number]) => number): number =>
      estimated.reduce((total, one) => total + of(one), 0);
    // Sums over all trees; 15 % is less than the 25 % by which one species' trees in one city may lie off another's.
    expect(Math.abs(sum(({ tree }) => tree.height.valueM) / sum(({ row }) => row.heightM) - 1)).toBeLessThan(0.15);
    expect(Math.abs(sum(({ tree }) => tree.radius.valueM) / sum(({ row }) => row.radiusM) - 1)).toBeLessThan(0.15);
  });
});
