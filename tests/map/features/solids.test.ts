import { booleanPointInPolygon, point, pointToPolygonDistance, polygon } from "@turf/turf";
import type { Position } from "geojson";
import { expect, test } from "vitest";
import { crownOf, radiusAtHeightM } from "../../../src/core/crown/crown.ts";
import type { SurroundingFeature } from "../../../src/core/model/surroundings.ts";
import { planeOf, toPlane } from "../../../src/core/plane/plane.ts";
import { offsetLonLat } from "../../../src/map/features/ground-scale.ts";
import { planLook } from "../../../src/map/features/plan-look.ts";
import { wayPanes, wireSolids } from "../../../src/map/features/solids/around-solids.ts";
import { buildingPanes } from "../../../src/map/features/solids/building-panes.ts";
import { MOST_SOLID_TREES, PlanSolids } from "../../../src/map/features/solids/plan-solids.ts";
import type { Solid } from "../../../src/map/features/solids/solid.ts";
import { MIDDLE, smallOpenedPlan } from "../small-opened-plan.ts";

const opened = smallOpenedPlan();
const look = planLook(opened)!;
const EVERYWHERE = { west: -140, south: 44, east: -139, north: 45, middle: MIDDLE } as const;
const drawn = new PlanSolids(look).on(EVERYWHERE, { units: "metric" });
const of = (part: string, treeId?: string): Solid[] =>
  drawn.solids.filter(
    ({ properties }) => properties.part === part && (treeId === undefined || properties.tree === treeId),
  );

test("a crown's layers are a meter high, from its base to its top, each as wide as the profile in its middle", () => {
  for (const tree of opened.plan.trees) {
    const crown = crownOf(tree);
    const layers = of("crown", tree.id);
    expect(layers[0]!.properties.baseM).toBeCloseTo(crown.crownBaseM, 2);
    expect(layers.at(-1)!.properties.topM).toBeGreaterThan(crown.heightM - 0.06);
    for (const [at, { properties, geometry }] of layers.entries()) {
      const { baseM, topM } = properties;
      if (at > 0) expect(baseM).toBeCloseTo(layers[at - 1]!.properties.topM, 2);
      expect(topM - baseM).toBeLessThanOrEqual(1.001);
      const plane = planeOf(tree.lonDeg);
      const [x0, y0] = toPlane(plane, tree.lonDeg, tree.latDeg);
      const [north] = geometry.coordinates[0]!;
      const [x, y] = toPlane(plane, north![0]!, north![1]!);
      // Heights are rounded to the centimeter, by which a profile moves most at its ends: at the tip of a crown 7 m deep and 4 m wide by 0.2 m.
      const wantedM = radiusAtHeightM(crown, (baseM + topM) / 2, 0);
      expect(Math.abs(Math.hypot(x - x0, y - y0) - wantedM)).toBeLessThan(0.2);
    }
  }
});

test("in feet a layer is a yard", () => {
  const { solids } = new PlanSolids(look).on(EVERYWHERE, { units: "us" });
  const heights = solids
    .filter(({ properties }) => properties.part === "crown")
    .map(({ properties }) => properties.topM - properties.baseM);
  // 3 ft are 0.9144 m exactly.
  expect(Math.max(...heights)).toBeCloseTo(0.9144, 1);
  expect(Math.max(...heights)).toBeLessThan(0.93);
});

test("encroaching parts lie within their crowns' heights, on the crown", () => {
  const parts = of("encroachment");
  expect(parts.length).toBeGreaterThan(0);
  for (const { properties } of parts) {
    const tree = opened.plan.trees.find(({ id }) => id === properties.tree)!;
    expect(properties.baseM).toBeGreaterThanOrEqual(tree.crownBase.valueM - 0.011);
    expect(properties.topM).toBeLessThanOrEqual(tree.height.valueM + 0.051);
  }
});

test("of more trees than can be stacked those nearest the middle stand, and it is said", () => {
  const trees = Array.from({ length: 400 }, (_, row) => ({
    ...opened.plan.trees[row % 60]!,
    row,
    id: `t${row}`,
    lonDeg: MIDDLE[0] + row * 1e-5,
  }));
  const prescriptions = trees.map(({ row }) => opened.plan.prescriptions[row % 60]!);
  const plan = { ...opened.plan, trees, prescriptions, conflicts: [], zones: [] };
  const { solids, ...shown } = new PlanSolids(planLook({ ...opened, plan })!).on(EVERYWHERE, {});
  expect(shown).toEqual({ trees: MOST_SOLID_TREES, treesInView: 400 });
  const standing = new Set(solids.flatMap(({ properties }) => (properties.part === "crown" ? [properties.tree] : [])));
  expect(standing.has("t0")).toBe(true);
  expect(standing.has("t399")).toBe(false);
});

test("what is not in view is not stacked", () => {
  const away = new PlanSolids(look).on({ west: 0, south: 0, east: 1, north: 1, middle: [0.5, 0.5] }, {});
  expect(away).toEqual({ solids: [], trees: 0, treesInView: 0 });
});

const wire = (over: object): SurroundingFeature =>
  ({
    geometry: { type: "LineString", coordinates: [MIDDLE, [MIDDLE[0] + 0.0005, MIDDLE[1]]] },
    wire: { attachmentsM: [10, 11], sagsM: [0.8], minimumM: 0.5, ...over },
  }) as unknown as SurroundingFeature;

test("a wire hangs from its attachments and sags in the middle of its span by its sag", () => {
  const wires = wireSolids(wire({})).filter(({ properties }) => properties.part === "wire");
  const middles = wires.map(({ properties }) => (properties.baseM + properties.topM) / 2);
  // Ten pieces: the chord is at 10.5 m in mid-span, the sag takes 0.8 m of it; the pieces beside the middle span 0.4 to 0.6, where the drop is at least 96 %.
  expect(Math.min(...wires.map(({ properties }) => properties.baseM))).toBeGreaterThan(9.5);
  expect(middles[4]).toBeCloseTo(10.45 - 0.8 * 0.98, 1);
  expect(middles[9]).toBeGreaterThan(10.6);
});

test("a line whose heights a plan does not keep is not drawn at a guess", () => {
  expect(wireSolids(wire({ attachmentsM: undefined }))).toEqual([]);
  expect(wireSolids(wire({ sagsM: undefined }))).toEqual([]);
});

test("the clearance over a way is a pane at its height, as wide as the way", () => {
  const road = {
    geometry: { type: "LineString", coordinates: [MIDDLE, [MIDDLE[0], MIDDLE[1] + 0.001]] },
    width: { minM: 8, typicalM: 9, maxM: 10, source: "test" },
  } as unknown as SurroundingFeature;
  const [pane] = wayPanes(road, 4.27);
  expect(pane!.properties.topM).toBe(4.27);
  const plane = planeOf(MIDDLE[0]);
  const xs = pane!.geometry.coordinates[0]!.map(([lon, lat]) => toPlane(plane, lon!, lat!)[0]);
  expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(9, 1);
});

const at = (eastM: number, northM: number): Position => offsetLonLat(MIDDLE[0], MIDDLE[1], eastM, northM);
const house = (corners: readonly (readonly [number, number])[], heightM: number | null = 6): SurroundingFeature => {
  const ring = corners.map(([eastM, northM]) => at(eastM, northM));
  return {
    geometry: { type: "Polygon", coordinates: [[...ring, ring[0]!]] },
    heightM,
  } as unknown as SurroundingFeature;
};
const L_SHAPE = [
  [0, 0],
  [12, 0],
  [12, 5],
  [6, 5],
  [6, 11],
  [0, 11],
] as const;
const KITE = [
  [0, 0],
  [9, 3],
  [14, 14],
  [3, 9],
] as const;

test.each([
  ["an L", L_SHAPE],
  ["an L drawn clockwise", [...L_SHAPE].reverse()],
  ["a kite", KITE],
])("the clearance beside the walls of %s stands that far outside, along each wall, up to its height", (_, corners) => {
  const building = house(corners);
  const panes = buildingPanes(building, { sideM: 0.9144, roofM: null });
  expect(panes).toHaveLength(corners.length);
  const shape = polygon((building.geometry as { coordinates: Position[][] }).coordinates);
  for (const { properties, geometry } of panes) {
    expect([properties.baseM, properties.topM]).toEqual([0, 6]);
    const [ring] = geometry.coordinates;
    const middle = [0, 1].map((axis) => ring!.slice(0, 4).reduce((sum, one) => sum + one[axis]!, 0) / 4);
    expect(booleanPointInPolygon(point(middle), shape)).toBe(false);
    // Turf measures on a sphere, which is off by up to half a percent.
    expect(Math.abs(pointToPolygonDistance(point(middle), shape, { units: "meters" }) - 0.9144)).toBeLessThan(0.006);
  }
});

test("the clearance over a roof lies over it; of a building without a height none is drawn", () => {
  const [pane, ...more] = buildingPanes(house(KITE), { sideM: null, roofM: 1.8288 });
  expect(more).toEqual([]);
  expect(pane!.properties).toEqual({ part: "clearance", baseM: 7.77, topM: 7.83 });
  expect(buildingPanes(house(KITE, null), { sideM: 1, roofM: 1 })).toEqual([]);
});

test("of an acute corner the panes do not run away, and a hollow narrower than the clearance swallows its walls", () => {
  const needle = buildingPanes(
    house([
      [0, 0],
      [20, -0.5],
      [20, 0.5],
    ]),
    { sideM: 1, roofM: null },
  );
  const plane = planeOf(MIDDLE[0]);
  const [x0] = toPlane(plane, MIDDLE[0], MIDDLE[1]);
  const xs = needle.flatMap(({ geometry }) =>
    geometry.coordinates[0]!.map(([lon, lat]) => toPlane(plane, lon!, lat!)[0] - x0),
  );
  expect(Math.min(...xs)).toBeGreaterThan(-2.1);
  const slot = [
    [0, 0],
    [10, 0],
    [10, 8],
    [5.5, 8],
    [5.5, 4],
    [4.5, 4],
    [4.5, 8],
    [0, 8],
  ] as const;
  // The slot is 1 m wide: panes 0.9 m before its walls would stand beyond the opposite ones, and its floor's pane has no room.
  expect(buildingPanes(house(slot), { sideM: 0.9, roofM: null }).length).toBeLessThan(slot.length);
});
