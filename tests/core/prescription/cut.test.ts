import { describe, expect, it } from "vitest";
import { crownOf } from "../../../src/core/crown/crown.ts";
import { rayRadiiM } from "../../../src/core/crown/dose.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { lossMPerYear, yearsAtClearTo } from "../../../src/core/prescription/clearance-target.ts";
import { cutFor, type Subject } from "../../../src/core/prescription/cut.ts";
import { conflict, standard, traits, tree } from "./scene.ts";

const subjectOf = (of: Tree): Subject => ({ tree: of, crown: crownOf(of), radiiM: rayRadiiM(crownOf(of)) });
/** Does not grow wider, so that the rays that are cut are those of today. */
const still = traits({ radiusGrowthMPerYear: 0 });

describe("how fast a cut is lost", () => {
  it("adds droop to regrowth over ways, and only there", () => {
    // 0.30 + 0.02; 0.10 + 0.02; a wall has no droop.
    expect(lossMPerYear(conflict("roadway", 3), "shorten", standard)).toBeCloseTo(0.32, 12);
    expect(lossMPerYear(conflict("roadway", 3), "lift", standard)).toBeCloseTo(0.12, 12);
    expect(lossMPerYear(conflict("building-side", 0), "shorten", standard)).toBeCloseTo(0.3, 12);
  });

  it("spends the foot between minimum and clear-to", () => {
    // 15 ft - 14 ft = 0.3048 m, over 0.32 and 0.12 m a year.
    expect(yearsAtClearTo(conflict("roadway", 3), "shorten", standard)).toBeCloseTo(0.3048 / 0.32, 12);
    expect(yearsAtClearTo(conflict("roadway", 3), "remove-limb", standard)).toBeCloseTo(0.3048 / 0.12, 12);
  });
});

describe("shortening", () => {
  it("cuts at the edge of the way, below the target, with all that grows beyond", () => {
    const cut = cutFor(
      subjectOf(tree({ habit: "column", traits: still })),
      conflict("roadway", 3, { distanceM: 2.5 }),
      "shorten",
      0,
      standard,
    );
    // The ray nearest to due east, at 88.5 or 91.5 degrees: 2.5 / cos 1.5 degrees.
    expect(cut.region.fromM[30]).toBeCloseTo(2.5 / Math.cos((1.5 * Math.PI) / 180), 9);
    expect(cut.region.toM[30]).toBe(Number.POSITIVE_INFINITY);
    expect(cut.belowM).toBeCloseTo(4.572, 9);
    // Tips of a 4 m limb: 4 - 2.5009.
    expect(cut.shortenM).toBeCloseTo(4 - 2.5 / Math.cos((1.5 * Math.PI) / 180), 9);
    expect(cut.bearingDeg).toBeCloseTo(90, 6);
  });

  it("takes a limb off whole where less than a third would stay", () => {
    const near = cutFor(
      subjectOf(tree({ habit: "column", traits: still })),
      conflict("roadway", 3, { distanceM: 1 }),
      "shorten",
      0,
      standard,
    );
    // 1 m of 4 m is a quarter.
    expect(near.region.fromM[30]).toBe(0);
  });

  it("reaches higher over a way for more years", () => {
    // Five years at 0.32 m: 4.2672 + 1.6 = 5.8672 m.
    const cut = cutFor(subjectOf(tree()), conflict("roadway", 3), "shorten", 5, standard);
    expect(cut.belowM).toBeCloseTo(5.8672, 9);
    expect(cut.targetM).toBeCloseTo(5.8672, 9);
    // Of the 5 years 0.9525 are in the clear-to; in the other 4.0475 tips grow 0.3 m each: an edge 3.5 m away moves by 1.21425 m.
    const farther = cutFor(
      subjectOf(tree({ habit: "column", traits: still })),
      conflict("roadway", 3, { distanceM: 3.5 }),
      "shorten",
      5,
      standard,
    );
    expect(farther.region.fromM[30]! * Math.cos((1.5 * Math.PI) / 180)).toBeCloseTo(3.5 - 1.21425, 9);
  });

  it("moves the edge away from a wall for more years", () => {
    // Five years at 0.3 m: 0.9144 + 1.5 = 2.4144 m from a wall 4 m away, so 1.5856 m from the trunk.
    const cut = cutFor(
      subjectOf(tree({ habit: "column", traits: still })),
      conflict("building-side", 0.2, { distanceM: 4 }),
      "shorten",
      5,
      standard,
    );
    expect(cut.targetM).toBeCloseTo(2.4144, 9);
    expect(cut.region.fromM[30]! * Math.cos((1.5 * Math.PI) / 180)).toBeCloseTo(4 - 2.4144, 9);
  });

  it("never cuts behind the trunk where the trunk stands inside a wall's clearance", () => {
    const all = conflict("building-side", -2, { distanceM: 0.5 });
    all.region.fromM.fill(0);
    const cut = cutFor(subjectOf(tree()), all, "shorten", 0, standard);
    expect(cut.region.fromM[90]).toBe(Number.POSITIVE_INFINITY);
    expect(cut.region.fromM[30]).toBe(0);
  });
});

describe("removing limbs and lifting", () => {
  it("takes the rays that reach the way and a limb's spread on each side, from the trunk outward", () => {
    const subject = subjectOf(tree({ habit: "column", traits: still }));
    const over = conflict("roadway", 3, { distanceM: 2 });
    const shortened = cutFor(subject, over, "shorten", 0, standard);
    const removed = cutFor(subject, over, "remove-limb", 0, standard);
    // A 4 m crown passes an edge at 2 m within acos(1/2) = 60 degrees to each side: 40 rays of 3 degrees.
    expect(shortened.rays).toBe(40);
    // A limb that grows up to 30 degrees beside them has foliage over the way: ten rays more on each side.
    expect(removed.rays).toBe(60);
    expect(removed.region.fromM.filter((fromM) => fromM === 0).length).toBe(60);
  });

  it("takes also what will reach the way in the years the cure is to last", () => {
    const wider = subjectOf(tree({ habit: "column", traits: traits({ radiusGrowthMPerYear: 0.2 }) }));
    // Radius 4 + 5 * 0.2 = 5: acos(2/5) = 66.4 degrees, 22 rays to each side (the 22nd ends at 66), and ten more on each.
    expect(cutFor(wider, conflict("roadway", 3, { distanceM: 2 }), "remove-limb", 5, standard).rays).toBe(64);
  });

  it("lifts all round", () => {
    const cut = cutFor(subjectOf(tree()), conflict("roadway", 3), "lift", 0, standard);
    expect(cut.rays).toBe(120);
    expect(cut.bearingDeg).toBeNull();
    expect(cut.region.lowM).toBe(Number.NEGATIVE_INFINITY);
  });
});
