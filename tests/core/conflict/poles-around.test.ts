import { describe, expect, it } from "vitest";
import { shipped } from "../standard/shipped.ts";
import { features, point, search, type TreeGiven } from "./scene.ts";

const WILDLAND = shipped("california-wildland");
/** A column of foliage 1 m about the trunk from the ground up: what a low crown has within 8 ft. */
const LOW: TreeGiven = { heightM: 6, baseM: 0.5, radiusM: 1, habit: "column" };

const codes = (tree: TreeGiven, poleAtM: number, standard = WILDLAND): string[] =>
  search(
    [tree],
    { conductors: features("conductors", { geometry: point(poleAtM, 0), properties: { id: "P" } }) },
    standard,
  ).findings.map(({ code }) => code);

describe("the cylinder about a pole", () => {
  it("is reported where a crown reaches into it below 8 ft", () => {
    // 10 ft and half a foot of pole, and 1 m of crown: 3.048 + 0.1524 + 1 = 4.2004 m from pole to trunk.
    expect([codes(LOW, 4.15), codes(LOW, 4.25)]).toEqual([["pole-clearing"], []]);
    expect(codes({ ...LOW, baseM: 2.5 }, 2)).toEqual([]);
  });

  it("is looked for only under a standard that asks for it", () => {
    expect(codes(LOW, 2, shipped("transmission"))).toEqual([]);
  });
});
