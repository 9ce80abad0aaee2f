import { expect, it } from "vitest";
import { sightFeatures } from "../../../src/core/plan/plan-features.ts";
import { sightAreasOf } from "../../../src/core/plan/read-records.ts";
import type { ViewScene } from "../conflict/hidden/view-scene.ts";
import { lookAlong } from "../conflict/hidden/view-scene.ts";

const SCENE: ViewScene = {
  kind: "sight-triangle",
  lane: [
    [0, 20],
    [100, 20],
  ],
  lengthM: 100,
  fixed: [0, 0],
  laneEndM: 1.0668,
  otherEndM: [1.0668, 1.0668],
  trees: [
    { x: 10, y: 10, heightM: 6, baseM: 0, radiusM: 1, habit: "column" },
    { x: 40, y: 12, heightM: 6, baseM: 0, radiusM: 1, habit: "column" },
  ],
};

it("writes an area with the ground behind its trees, and reads the same area", () => {
  const { sight } = lookAlong(SCENE);
  const written = sightFeatures([...sight, { ...sight[0]!, id: "empty", hidden: null }]);
  expect(written.features.map(({ properties }) => [properties.part, properties.area])).toEqual([
    ["area", "area"],
    ["blind", "area"],
    ["blind", "area"],
    ["area", "empty"],
  ]);
  expect(new Set(written.features.map(({ id }) => id)).size).toBe(4);
  const read = sightAreasOf(written.features);
  expect(read.map(({ id }) => id)).toEqual(["area", "empty"]);
  const [hidden, before] = [read[0]!.hidden!, sight[0]!.hidden!];
  // Shares are written to four places, lengths to two, positions to eight.
  expect(hidden.share).toBeCloseTo(before.share, 4);
  expect(hidden.partsM).toHaveLength(2);
  expect(hidden.trees.map(({ treeId }) => treeId)).toEqual(["t0", "t1"]);
  expect(hidden.opensMost).toEqual({
    treeIds: before.opensMost!.treeIds,
    share: expect.closeTo(before.opensMost!.share, 4),
  });
  expect(hidden.blind!.coordinates.map((polygon) => polygon[0]!.length)).toEqual(
    before.blind!.coordinates.map((polygon) => polygon[0]!.length),
  );
  // Reading what was read writes the same bytes.
  expect(JSON.stringify(sightFeatures(read))).toBe(JSON.stringify(written));
});
