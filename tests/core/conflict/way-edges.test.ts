import { describe, expect, it } from "vitest";
import type { Conflict } from "../../../src/core/model/conflict.ts";
import { planeOf, toPlane } from "../../../src/core/plane/plane.ts";
import type { Standard } from "../../../src/core/standard/standard.ts";
import { shipped } from "../standard/shipped.ts";
import {
  features,
  type Layers,
  line,
  OPTIONS,
  ORIGIN,
  only,
  type Points,
  polygon,
  STANDARD,
  search,
  type TreeGiven,
} from "./scene.ts";

const FT = 0.3048;
/** A street whose center runs north 9 m east of the trunk. */
const CENTER: Points = [
  [9, -60],
  [9, 60],
];
const street = (properties: Record<string, unknown>): Layers => ({
  roads: features("roads", { geometry: line(CENTER), properties }),
});
/** Crown from 0.5 to 4 m, below every minimum whatever its habit: only how far it reaches decides. */
const treeOf = (radiusM: number): TreeGiven => ({ heightM: 4, baseM: 0.5, radiusM, error: 0.01 });
const certaintyOf = (radiusM: number, properties: Record<string, unknown>): string | null =>
  search([treeOf(radiusM)], street(properties)).conflicts.find(({ kind }) => kind === "roadway")?.certainty ?? null;

describe("a road whose width is not measured", () => {
  // Radii are ± 1 %; a forecast is ruled out by no growth.
  it("given by lanes is sure at the widest crown only, and wants an edge survey between its ends", () => {
    // 2 lanes of 9 to 12 ft and parking unknown: half widths 2.743, 3.353 (11 ft lanes) and 6.096 m; edges at 6.257, 5.647, 2.904 m.
    const lanes = { highway: "tertiary", lanes: 2 };
    expect(certaintyOf(6.4, lanes)).toBe("confirmed");
    expect(certaintyOf(6.2, lanes)).toBe("probable");
    expect(certaintyOf(5.75, lanes)).toBe("probable");
    expect(certaintyOf(5.5, lanes)).toBe("possible");
    expect(certaintyOf(3.0, lanes)).toBe("possible");
    expect(certaintyOf(2.8, lanes)).toBeNull();
    const { doubt } = only(search([treeOf(4)], street(lanes)).conflicts, "roadway");
    expect(doubt).toBe("Road width is estimated: 18 ft to 40 ft; needs an edge survey.");
  });

  it("without parking ends where its lanes do", () => {
    // At most 2 x 12 ft: the edge is at 9 - 3.658 = 5.342 m.
    const lanes = { highway: "tertiary", lanes: 2, "parking:both": "no" };
    expect(certaintyOf(5.4, lanes)).toBe("possible");
    expect(certaintyOf(5.2, lanes)).toBeNull();
    // Parked vehicles are 7 to 8 ft wide: edges at 4.124, 3.208 and 2.904 m.
    const parked = { highway: "tertiary", lanes: 2, "parking:both": "lane" };
    expect(certaintyOf(4.3, parked)).toBe("confirmed");
    expect(certaintyOf(3.3, parked)).toBe("probable");
    expect(certaintyOf(3.0, parked)).toBe("possible");
    expect(certaintyOf(2.8, parked)).toBeNull();
  });

  it("for one direction of travel is narrower where its width is assumed", () => {
    // Local residential: half widths 3.353, 4.572, 6.096 m; one-way 1.676, 3.429, 6.096 m.
    const edges = { twoWay: [9 - 3.353, 9 - 4.572], oneway: [9 - 1.676, 9 - 3.429] };
    const twoWay = { highway: "residential" };
    const oneway = { highway: "residential", oneway: "yes" };
    expect(certaintyOf(edges.twoWay[0]! + 0.1, twoWay)).toBe("confirmed");
    expect(certaintyOf(edges.twoWay[0]! + 0.1, oneway)).toBe("probable");
    expect(certaintyOf(edges.oneway[0]! + 0.1, oneway)).toBe("confirmed");
    expect(certaintyOf(edges.twoWay[1]! + 0.1, twoWay)).toBe("probable");
    expect(certaintyOf(edges.twoWay[1]! + 0.1, oneway)).toBe("possible");
    // Of one whose lanes are counted, direction changes nothing.
    expect(certaintyOf(6.4, { highway: "tertiary", lanes: 2, oneway: "yes" })).toBe("confirmed");
  });
});

describe("fire lanes", () => {
  const lane = street({ highway: "service", service: "emergency_access", name: "Fire Lane 2" });
  const FIRE = shipped("fire-lanes");

  it("are measured by their own rule where the standard has one", () => {
    // 20 ft wide: the edge is 9 - 3.048 = 5.952 m away.
    const { conflicts, notChecked } = search([treeOf(7)], lane, FIRE);
    expect(only(conflicts, "fire-lane")).toMatchObject({ ruleId: "fire-lane-headroom", hazard: "vehicle-height" });
    expect(only(conflicts, "fire-lane").minimumM).toBeCloseTo(13.5 * FT, 9);
    expect(only(conflicts, "fire-lane").distanceM).toBeCloseTo(9 - 10 * FT, 3);
    expect(conflicts).toHaveLength(1);
    expect(notChecked).not.toContain("fire-lane");
  });

  it("are roadways, and named as not checked, where it has none", () => {
    const { conflicts, notChecked } = search([treeOf(7)], lane);
    expect(conflicts.map(({ kind }) => kind)).toEqual(["roadway"]);
    expect(notChecked).toContain("fire-lane");
  });

  it("take a headroom measured in the field", () => {
    const { conflicts } = search([{ ...treeOf(7), headroomM: 3.9 }], lane, FIRE);
    expect(only(conflicts, "fire-lane")).toMatchObject({ measuredM: 3.9, basis: "measured", certainty: "confirmed" });
  });
});

it("what a target is raised by for leaf, rain and ice goes with the conflict, and the minimum stays", () => {
  const roads = { roads: features("roads", { geometry: polygon(square(3)) }) };
  const found = only(search([treeOf(6)], roads).conflicts, "roadway");
  expect(found.droopAllowanceM).toBeCloseTo(0.2, 9);
  expect(found.minimumM).toBeCloseTo(14 * FT, 9);
  const warm = { ...OPTIONS, place: { ...OPTIONS.place, hardinessZone: 10 } };
  const dry: Standard = { ...STANDARD, droopAllowances: STANDARD.droopAllowances.filter(({ load }) => load === "ice") };
  expect(only(search([treeOf(6)], roads, dry, warm).conflicts, "roadway").droopAllowanceM).toBe(0);
});

const square = (eastM: number): Points => [
  [eastM, -40],
  [eastM + 12, -40],
  [eastM + 12, 40],
  [eastM, 40],
];

describe("the nearest points", () => {
  const plane = planeOf(ORIGIN.lonDeg);
  const origin = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
  /** East, north and up of both points, to the millimeter. */
  const pointsOf = ({ nearest }: Conflict): number[][] =>
    [nearest!.thing, nearest!.crown].map(({ lonDeg, latDeg, heightM }) => {
      const [x, y] = toPlane(plane, lonDeg, latDeg);
      return [x - origin[0], y - origin[1], heightM].map((value) => Number(value.toFixed(3)) + 0);
    });
  /** Ellipsoid from 2 to 12 m, 5 m wide: at 3 m its underside is 3 m high. */
  const tree: TreeGiven = { heightM: 12, baseM: 2, radiusM: 5, error: 0.01 };
  const over = (layers: Layers, kind: Conflict["kind"], given = tree): number[][] =>
    pointsOf(only(search([given], layers).conflicts, kind));

  it("over a way are on its edge and straight above", () => {
    expect(over({ roads: features("roads", { geometry: polygon(square(3)) }) }, "roadway")).toEqual([
      [3, 0, 0],
      [3, 0, 3],
    ]);
    const byCenter = street({ width: 12 });
    expect(over(byCenter, "roadway")).toEqual([
      [3, 0, 0],
      [3, 0, 3],
    ]);
    const measured = { ...tree, headroomM: 3.4 };
    expect(over(byCenter, "roadway", measured)[1]).toEqual([3, 0, 3.4]);
    // The trunk stands in it: the crown's base.
    expect(over({ roads: features("roads", { geometry: polygon(square(-2)) }) }, "roadway")).toEqual([
      [0, 0, 0],
      [0, 0, 2],
    ]);
  });

  it("of a crown not over the way yet are its edge and the crown's", () => {
    const growing = { ...tree, radiusGrowthM: 0.2, baseM: 0, heightM: 6 };
    expect(over({ roads: features("roads", { geometry: polygon(square(5.5)) }) }, "roadway", growing)).toEqual([
      [5.5, 0, 0],
      [5, 0, 3],
    ]);
  });

  it("at a wall are at the height where the crown comes nearest", () => {
    const buildings = (height: number): Layers => ({
      buildings: features("buildings", { geometry: polygon(square(4)), properties: { height } }),
    });
    // Widest at 7 m; below eaves at 4 m it is 5 sqrt(1 - 0.6^2) = 4 m wide there, and touches.
    expect(over(buildings(15), "building-side")).toEqual([
      [4, 0, 7],
      [5, 0, 7],
    ]);
    expect(over(buildings(4), "building-side")).toEqual([
      [4, 0, 4],
      [4, 0, 4],
    ]);
    // The roof at 4 m below a crown whose underside 4 m out is 2 + (1 - 0.6) / 2 * 10 = 4 m high.
    expect(over(buildings(4), "building-roof")).toEqual([
      [4, 0, 4],
      [4, 0, 4],
    ]);
  });

  it("under unequal radii lie where the thing comes deepest", () => {
    // North is the short side: the corner at (3, 1) is deeper in the crown's shares than the edge straight east.
    const radii = { northM: 2, eastM: 5, southM: 5, westM: 5 };
    const corner: Points = [
      [3, 1],
      [30, 1],
      [30, 30],
      [3, 30],
    ];
    const [thing, crown] = over({ roads: features("roads", { geometry: polygon(corner) }) }, "roadway", {
      ...tree,
      radii,
    });
    expect(thing).toEqual([3, 1, 0]);
    // Share^2 = 0.36 + 0.25.
    expect(crown![2]).toBeCloseTo(2 + ((1 - Math.sqrt(1 - 0.61)) / 2) * 10, 3);
    // A wall 6 m east of a crown 5 m wide there: 1 m, straight across, but for the polygon of 120 corners.
    const wall = { buildings: features("buildings", { geometry: polygon(square(5.5)), properties: { height: 15 } }) };
    const [stone, leaf] = over(wall, "building-side", { ...tree, radii });
    expect([stone![0], stone![2], leaf![2]]).toEqual([5.5, 7, 7]);
    expect(Math.hypot(stone![0]! - leaf![0]!, stone![1]! - leaf![1]!)).toBeCloseTo(0.5, 2);
  });
});
