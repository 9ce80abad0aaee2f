import { describe, expect, it } from "vitest";
import { STANDARD, type TreeGiven } from "../scene.ts";
import { lookAlong, NO_EXEMPTION, pointOf, type ViewScene } from "./view-scene.ts";

/** A driver at the origin looks at vehicles on a straight lane 20 m north, from x = 0 to x = 100. */
const LANE: Pick<ViewScene, "kind" | "lane" | "lengthM" | "fixed" | "laneEndM" | "otherEndM"> = {
  kind: "sight-triangle",
  lane: [
    [0, 20],
    [100, 20],
  ],
  lengthM: 100,
  fixed: [0, 0],
  laneEndM: 1.0668,
  otherEndM: [1.0668, 1.0668],
};
/** A tree whose crown is far above all lines of sight: its trunk alone counts. */
const high = (x: number, y: number, dbhM: number): TreeGiven & { dbhM: number } => ({
  x,
  y,
  heightM: 15,
  baseM: 6,
  radiusM: 3,
  dbhM,
});
/** Leaves from the ground up as a column, so that any line of sight through its disc is hidden. */
const post = (x: number, y: number, radiusM: number): ViewScene["trees"][number] => ({
  x,
  y,
  heightM: 6,
  baseM: 0,
  radiusM,
  habit: "column",
});
/** Ends of parts are found to a centimeter, on planes true to a millimeter in 100 m. */
const END_M = 0.02;

describe("the hidden share of a sight line", () => {
  it("is nothing where nothing stands", () => {
    const { hidden } = lookAlong({ ...LANE, trees: [] });
    expect(hidden).toEqual({ share: 0, lookedAtM: 100, partsM: [], trees: [], opensMost: null, blind: null });
  });

  it("is nothing where all crowns are above the lines and all trunks beside them", () => {
    expect(lookAlong({ ...LANE, trees: [high(10, -3, 0.5), { ...high(20, 10, 0), dbhM: 0 }] }).hidden.share).toBe(0);
  });

  it("of one trunk lies between its two tangents", () => {
    // A disc of 0.5 m radius about (10, 10): the line to its middle runs at 45 degrees, the tangents asin(0.5 / sqrt(200)) to either
    // side. On the lane, 20 m north, x = 20 tan(bearing).
    const half = Math.asin(0.5 / Math.sqrt(200));
    const from = 20 * Math.tan(Math.PI / 4 - half);
    const to = 20 * Math.tan(Math.PI / 4 + half);
    const { hidden } = lookAlong({ ...LANE, trees: [high(10, 10, 1)] });
    expect(hidden.partsM).toHaveLength(1);
    expect(Math.abs(hidden.partsM[0]![0] - from)).toBeLessThan(END_M);
    expect(Math.abs(hidden.partsM[0]![1] - to)).toBeLessThan(END_M);
    expect(Math.abs(hidden.share - (to - from) / 100)).toBeLessThan((2 * END_M) / 100);
  });

  it("of a wall of trunks is what they span, seen from the eye", () => {
    // Trunks of 1 m that touch along y = 10 from x = 0 to 55 stand between the eye and all of the lane, whose far end is seen through (50, 10).
    const trees = Array.from({ length: 55 }, (_, at) => high(0.5 + at, 10, 1));
    const { hidden } = lookAlong({ ...LANE, trees });
    expect(hidden.share).toBeGreaterThan(0.999);
    // With only the first ten: to the far tangent of the tenth, about (9.5, 10).
    const ten = lookAlong({ ...LANE, trees: trees.slice(0, 10) }).hidden;
    const end = 20 * Math.tan(Math.atan2(9.5, 10) + Math.asin(0.5 / Math.hypot(9.5, 10)));
    expect(Math.abs(ten.share - end / 100)).toBeLessThan((2 * END_M) / 100);
    expect(ten.partsM).toHaveLength(1);
  });

  it("leaves out trunks that the standard lets stand, until there are too many", () => {
    const trees = [high(10, 10, 0.3), high(20, 10, 0.3)];
    const letting = (maxWidthM: number | null, maxCount: number | null) => ({
      ...STANDARD,
      sight: { ...STANDARD.sight, trunks: { maxWidthM, maxCount } },
    });
    expect(lookAlong({ ...LANE, trees, standard: letting(0.3048, null) }).hidden.share).toBe(0);
    expect(lookAlong({ ...LANE, trees, standard: letting(null, 2) }).hidden.share).toBe(0);
    const all = lookAlong({ ...LANE, trees }).hidden.share;
    expect(all).toBeGreaterThan(0.01);
    expect(lookAlong({ ...LANE, trees, standard: letting(null, 1) }).hidden.share).toBeCloseTo(all, 12);
    expect(lookAlong({ ...LANE, trees, standard: letting(0.25, null) }).hidden.share).toBeCloseTo(all, 12);
    // Around curves and to faces no trunk is let off.
    expect(lookAlong({ ...LANE, kind: "curve", trees, standard: letting(null, null) }).hidden.share).toBeCloseTo(
      all,
      12,
    );
  });

  it("says what each tree hides alone, what opening it opens, and which trees in line open most", () => {
    // Two columns one behind the other on the line to (20, 20), a third that hides less, apart.
    const trees = [post(8, 8, 1), post(12, 12, 1), post(30, 10, 0.4)];
    const { hidden } = lookAlong({ ...LANE, trees });
    const [near, far, apart] = hidden.trees;
    // The nearer one hides all that the farther one hides: opening the farther one alone opens nothing.
    expect(near!.aloneShare).toBeGreaterThan(far!.aloneShare);
    expect(far!.marginalShare).toBeLessThan(1e-9);
    expect(Math.abs(near!.marginalShare - (near!.aloneShare - far!.aloneShare))).toBeLessThan(1e-9);
    expect(apart!.marginalShare).toBeCloseTo(apart!.aloneShare, 9);
    expect(hidden.share).toBeCloseTo(near!.aloneShare + apart!.aloneShare, 9);
    expect(hidden.opensMost!.treeIds).toEqual(["t0", "t1"]);
    expect(hidden.opensMost!.share).toBeCloseTo(near!.aloneShare, 9);
  });

  it("keeps what a trunk hides when its crown is opened", () => {
    const { hidden } = lookAlong({ ...LANE, trees: [{ ...post(10, 10, 1), dbhM: 1 }] });
    const trunk = lookAlong({ ...LANE, trees: [high(10, 10, 1)] }).hidden.share;
    expect(hidden.trees[0]!.marginalShare).toBeCloseTo(hidden.share - trunk, 9);
  });

  it("charges no tree with what a building hides", () => {
    const trees = [post(10, 10, 1)];
    const without = lookAlong({ ...LANE, trees }).hidden.share;
    const wall = (bottomM: number, heightM: number): NonNullable<ViewScene["walls"]> => [
      {
        ring: [
          [-5, 5],
          [60, 5],
          [60, 6],
          [-5, 6],
        ],
        bottomM,
        heightM,
      },
    ];
    expect(lookAlong({ ...LANE, trees, walls: wall(0, 6) }).hidden.share).toBe(0);
    // Drivers see under a roof on columns, and over a low wall.
    expect(lookAlong({ ...LANE, trees, walls: wall(2.4, 6) }).hidden.share).toBeCloseTo(without, 12);
    expect(lookAlong({ ...LANE, trees, walls: wall(0, 0.9) }).hidden.share).toBeCloseTo(without, 12);
  });

  it("makes a hazard of what hides more than the standard's limit", () => {
    const few = lookAlong({ ...LANE, trees: [post(10, 10, 1)], standard: NO_EXEMPTION });
    expect(few.hidden.share).toBeLessThan(0.2);
    expect(few.conflicts.map(({ hazard, hiddenShare }) => [hazard, hiddenShare])).toEqual([[null, few.hidden.share]]);
    const many = lookAlong({ ...LANE, trees: [post(10, 10, 5)] });
    expect(many.hidden.share).toBeGreaterThan(0.2);
    expect(many.conflicts.map(({ hazard }) => hazard)).toEqual(["sight-hidden"]);
  });

  it("draws the ground behind the trees between them and the lane", () => {
    const { hidden } = lookAlong({ ...LANE, trees: [post(10, 10, 1)] });
    const [lonDeg, latDeg] = pointOf(hidden.partsM[0]![0], 20);
    const outline = hidden.blind!.coordinates[0]![0]!;
    const nearest = Math.min(...outline.map(([lon, lat]) => Math.hypot(lon! - lonDeg, lat! - latDeg)));
    // A tenth of a meter, in degrees: lines are drawn a hair inside the hidden part.
    expect(nearest).toBeLessThan(1e-6);
    // It begins at the tree: nothing of it is nearer to the eye than the column's near side, sqrt(200) - 1 m away.
    const eye = pointOf(0, 0);
    const metersPerDegree = 111_000;
    const least = Math.min(
      ...outline.map(([lon, lat]) => Math.hypot((lon! - eye[0]) * Math.cos((41 * Math.PI) / 180), lat! - eye[1])),
    );
    expect(least * metersPerDegree).toBeGreaterThan(Math.sqrt(200) - 1 - 0.1);
  });
});
