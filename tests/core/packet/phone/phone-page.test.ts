import { describe, expect, test } from "vitest";
import { SURROUNDINGS_M } from "../../../../src/core/packet/phone/phone-map.ts";
import { pageOf, smallPage } from "../../../phone/phone-sample.ts";
import { smallPlan, smallZone } from "../small-plan.ts";

describe("phonePage", () => {
  test("has each visit of the zone in order of work, and no other tree", () => {
    expect(smallPage.stops.map(({ treeId }) => treeId)).toEqual(smallZone.treeIds);
    expect(smallPage.stops.map(({ visitId }) => visitId)).toEqual(smallZone.visitIds);
    // T-110 is referred and has no visit.
    expect(JSON.stringify(smallPage)).not.toContain("T-110");
  });

  test("says what, where, how far, why and how of each", () => {
    for (const { texts } of smallPage.stops) {
      expect(texts.map(([label]) => label)).toEqual(expect.arrayContaining(["What", "Where", "Why", "How"]));
    }
    const withFar = smallPage.stops.filter(({ texts }) => texts.some(([label]) => label === "How far"));
    expect(withFar.length).toBeGreaterThan(0);
    for (const { texts } of withFar) expect(texts.find(([label]) => label === "How far")![1]).toMatch(/\d m[ .]/);
  });

  test("names a caution of all trees once, and one tree's own with the tree, in full", () => {
    const nests = "Look for nests before cutting: an active nest stops the work.";
    const own = "Within 3 m of a conductor: line-clearance arborist only.";
    const prescriptions = smallPlan.prescriptions.map((one) => ({ ...one, cautions: [...one.cautions, nests] }));
    const page = pageOf({ ...smallPlan, prescriptions }, smallZone);
    expect(page.sharedCautions).toEqual([nests]);
    for (const { cautions } of page.stops) expect(cautions).not.toContain(nests);
    expect(page.stops[6]!.cautions).toContain(own);
    expect(page.cautions.join(" ")).toMatch(/does not say that a place is safe/);
  });

  test("stays plain data through JSON", () => {
    expect(JSON.parse(JSON.stringify(smallPage))).toEqual(smallPage);
  });
});

describe("phoneMap", () => {
  test("keeps distances between trunks to a decimeter", () => {
    const [first, second] = smallPage.map.trees;
    const distanceDm = Math.hypot(first!.at[0] - second!.at[0], first!.at[1] - second!.at[1]);
    const trees = smallZone.treeIds.map((id) => smallPlan.trees.find((tree) => tree.id === id)!);
    // Meters a degree at 43.07 N on WGS 84: 81,4xx m east (cos-series) and 111,1xx m north, good to 0.1 % and so to 2 cm here.
    const latitude = (43.07 * Math.PI) / 180;
    const eastM = 111_412.84 * Math.cos(latitude) - 93.5 * Math.cos(3 * latitude);
    const northM = 111_132.92 - 559.82 * Math.cos(2 * latitude);
    const expectedM = Math.hypot(
      (trees[0]!.lonDeg - trees[1]!.lonDeg) * eastM,
      (trees[0]!.latDeg - trees[1]!.latDeg) * northM,
    );
    // Each end is rounded to 0.05 m in x and in y.
    expect(Math.abs(distanceDm / 10 - expectedM)).toBeLessThan(0.15);
  });

  test("draws a crown as wide as the tree's radii", () => {
    smallPage.map.trees.forEach(({ at, crown }, index) => {
      const tree = smallPlan.trees.find(({ id }) => id === smallZone.treeIds[index])!;
      // The first point is north: y falls by the radius. Rounded twice to 0.05 m.
      const northM = (at[1] - crown[1]!) / 10;
      expect(Math.abs(northM - tree.radii.northM - (tree.crownNorthM ?? 0))).toBeLessThanOrEqual(0.1);
    });
  });

  test("keeps only the surroundings near the zone, and no other tree", () => {
    const [left, top, right, bottom] = smallPage.map.viewM;
    const far = SURROUNDINGS_M * 10 + 1;
    const { roads, paths, buildings, conductors } = smallPage.map;
    const all = [...roads, ...paths].flatMap(({ lines, areas }) => [...lines, ...areas]).concat(buildings, conductors);
    expect(all.length).toBeGreaterThan(2);
    for (const points of all) {
      for (let at = 0; at < points.length; at += 2) {
        expect(points[at]).toBeGreaterThanOrEqual(left * 10 - far);
        expect(points[at]).toBeLessThanOrEqual(right * 10 + far);
        expect(points[at + 1]).toBeGreaterThanOrEqual(top * 10 - far);
        expect(points[at + 1]).toBeLessThanOrEqual(bottom * 10 + far);
      }
    }
    expect(smallPage.map.trees).toHaveLength(smallZone.treeIds.length);
  });
});
