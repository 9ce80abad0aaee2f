import { expect, test } from "vitest";
import { planeOf, toPlane } from "../../../src/core/plane/plane.ts";
import { crownFeatures } from "../../../src/map/features/crown-features.ts";
import { figureFeatures } from "../../../src/map/features/figure-features.ts";
import { planLook } from "../../../src/map/features/plan-look.ts";
import { markFeatures } from "../../../src/map/features/tree-marks.ts";
import { softRing, straightestRun, threadFeatures } from "../../../src/map/features/zone-features.ts";
import { DEFAULT_WORDS } from "../../../src/map/words.ts";
import { smallOpenedPlan } from "../small-opened-plan.ts";

const opened = smallOpenedPlan();
const { plan } = opened;
const look = planLook(opened)!;
const { marks } = look;
const rows = plan.trees.map(({ row }) => row);

test("a crown's outline lies at its radii north, east, south and west", () => {
  const crowns = crownFeatures(look, rows).features.filter((feature) => feature.properties?.part === "crown");
  expect(crowns).toHaveLength(60);
  for (const [row, crown] of crowns.entries()) {
    const tree = plan.trees[row]!;
    const plane = planeOf(tree.lonDeg);
    const [x0, y0] = toPlane(plane, tree.lonDeg, tree.latDeg);
    const offsets = crown.geometry.coordinates[0]!.map(([lon, lat]) => {
      const [x, y] = toPlane(plane, lon!, lat!);
      return [x - x0, y - y0] as const;
    });
    // A centimeter: the plane's north is turned by 0.09 degrees at most, 6 mm at 4 m.
    expect(Math.max(...offsets.map(([, y]) => y))).toBeCloseTo(tree.radii.northM, 2);
    expect(Math.max(...offsets.map(([x]) => x))).toBeCloseTo(tree.radii.eastM, 2);
    expect(-Math.min(...offsets.map(([, y]) => y))).toBeCloseTo(tree.radii.southM, 2);
    expect(-Math.min(...offsets.map(([x]) => x))).toBeCloseTo(tree.radii.westM, 2);
  }
});

test("a crown beside its trunk is drawn where it stands, its trunk at the foot", () => {
  const trees = plan.trees.map((tree) => ({ ...tree, dbhM: 0.4, crownEastM: 3, crownNorthM: -2 }));
  const { features } = crownFeatures({ ...look, opened: { ...opened, plan: { ...plan, trees } } }, rows);
  const tree = trees[0]!;
  const plane = planeOf(tree.lonDeg);
  const [x0, y0] = toPlane(plane, tree.lonDeg, tree.latDeg);
  const middleOf = (part: string, of: (x: number, y: number) => number): number => {
    const ring = features.find(({ properties }) => properties?.part === part)!.geometry.coordinates[0]!;
    const along = ring.map(([lon, lat]) => {
      const [x, y] = toPlane(plane, lon!, lat!);
      return of(x - x0, y - y0);
    });
    return (Math.max(...along) + Math.min(...along)) / 2;
  };
  const { northM, eastM, southM, westM } = tree.radii;
  expect(middleOf("crown", (x) => x)).toBeCloseTo(3 + (eastM - westM) / 2, 1);
  expect(middleOf("crown", (_, y) => y)).toBeCloseTo(-2 + (northM - southM) / 2, 1);
  expect(middleOf("trunk", (x) => x)).toBeCloseTo(0, 2);
  expect(middleOf("trunk", (_, y) => y)).toBeCloseTo(0, 2);
});

test("every tree has a mark, more urgent ones above less urgent ones", () => {
  expect(markFeatures(plan, marks).features).toHaveLength(60);
  const order = (urgency: string) => marks.find((mark) => mark.urgency === urgency)!.order;
  expect(order("now")).toBeGreaterThan(order("next-window"));
  expect(order("watch")).toBeGreaterThan(order("clear"));
});

test("only marks that turn have a bearing, and a tree with nothing found is quiet", () => {
  for (const mark of marks) {
    if (!["shorten", "remove-limb"].includes(mark.remedy)) expect(mark.turn).toBe(0);
    if (mark.urgency === "clear") expect(mark.quiet).toBe(true);
  }
  expect(marks.filter((mark) => mark.turn === 180).length).toBeGreaterThan(0);
});

test("figures are written in the reader's units", () => {
  const texts = (units: "us" | "metric") =>
    figureFeatures(look, rows, units, DEFAULT_WORDS).features.map((feature) => feature.properties?.text as string);
  expect(texts("metric")).toContain("lift 1.2 m");
  // 1.2 m = 47.24 in, to the inch 3 ft 11 in.
  expect(texts("us")).toContain("lift 3 ft 11 in");
});

test("the thread numbers a zone's trees in order of work", () => {
  const zone = plan.zones[1]!;
  const [line, ...stops] = threadFeatures(plan, zone.zoneId).features;
  expect(line?.geometry.type).toBe("LineString");
  expect(stops.map((stop) => stop.properties?.number)).toEqual(zone.treeIds.map((_, index) => String(index + 1)));
  expect(threadFeatures(plan, "no such zone").features).toEqual([]);
});

const SQUARE = [
  [0, 0],
  [0.001, 0],
  [0.001, 0.001],
  [0, 0.001],
  [0, 0],
];

test("rounded corners stay within 4 m of the outline", () => {
  for (const [lon, lat] of softRing(SQUARE)) {
    const inside = Math.min(lon!, lat!, 0.001 - lon!, 0.001 - lat!);
    expect(inside).toBeGreaterThanOrEqual(-1e-12);
    // A quadratic corner comes at most a quarter of 4 m inside along each axis.
    expect(inside).toBeLessThanOrEqual(1.0001 / 111_320);
  }
});

test("the name goes on the longest side", () => {
  const run = straightestRun([
    [0, 0],
    [0.002, 0],
    [0.002, 0.001],
    [0, 0.001],
    [0, 0],
  ]);
  expect(run).toEqual([
    [0, 0],
    [0.002, 0],
  ]);
});
