import { describe, expect, it } from "vitest";
import type { Conflict } from "../../src/core/model/conflict.ts";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import {
  features,
  line,
  type Points,
  polygon,
  STANDARD,
  search,
  type TreeGiven,
  tree,
} from "../core/conflict/scene.ts";

/**
 * The oracle: every tree against every feature, no index, no planes' chunks, formulas written out again for round ellipsoids:
 * underside b + (1 - sqrt(1 - s^2)) / 2 (h - b) at the share s = distance / R.
 */
const RULE = new Map(STANDARD.rules.map((rule) => [rule.kind, rule]));

interface Thing {
  readonly kind: "roadway" | "walkway" | "building";
  readonly points: Points;
  readonly widthM: number;
  readonly heightM: number;
}

describe("the indexed search", () => {
  it("finds what brute force finds on 300 seeded scenes", () => {
    let compared = 0;
    for (let seed = 1; seed <= 300; seed += 1) {
      const next = seeded(seed);
      const things = Array.from({ length: 20 }, () => randomThing(next, seed % 2 === 0));
      const trees = Array.from({ length: 10 }, (_, index) => randomTree(next, index));
      const found = search(trees, {
        roads: layer(things, "roadway"),
        paths: layer(things, "walkway"),
        buildings: layer(things, "building"),
      }).conflicts.filter(
        // Sight lines of the random streets have a brute force of their own.
        ({ certainty, reachedOn, withLayer }) =>
          certainty !== "possible" && reachedOn === "2026-04-01" && withLayer !== "sight",
      );
      const expected = bruteForce(trees, things);
      const text = ({ treeId, kind, withId, measuredM }: Found): string =>
        `${treeId} ${kind} ${withId} ${measuredM.toFixed(3)}`;
      const near = (one: Found): boolean => Math.abs(one.measuredM - RULE.get(one.kind as never)!.minimumM) < 1e-5;
      const kept = (list: readonly Found[]): string[] =>
        list
          .filter((one) => !near(one))
          .map(text)
          .sort();
      expect(kept(found)).toEqual(kept(expected));
      compared += expected.length;
    }
    // Enough conflicts to mean something: about four a scene.
    expect(compared).toBeGreaterThan(1000);
  });
});

describe("a part of the trees", () => {
  it("gets what the whole gets", () => {
    const next = seeded(4242);
    const things = Array.from({ length: 20 }, () => randomThing(next, true));
    const trees = Array.from({ length: 30 }, (_, index) => randomTree(next, index));
    const layers = {
      roads: layer(things, "roadway"),
      paths: layer(things, "walkway"),
      buildings: layer(things, "building"),
    };
    const bare = (conflicts: readonly Conflict[]): unknown[] =>
      conflicts.map(({ treeRow: _row, ...conflict }) => conflict);
    const whole = search(trees, layers).conflicts;
    const parts = [trees.slice(0, 11), trees.slice(11)].flatMap((part) => search(part, layers).conflicts);
    expect(whole.length).toBeGreaterThan(10);
    expect(bare(parts)).toEqual(bare(whole));
  });
});

type Found = Pick<Conflict, "treeId" | "withId" | "measuredM"> & { kind: string };

function bruteForce(trees: readonly TreeGiven[], things: readonly Thing[]): Found[] {
  const found: Found[] = [];
  for (const given of trees) {
    const { heightM: h, baseM: b, radiusM: R } = given;
    const [x, y] = [given.x ?? 0, given.y ?? 0];
    things.forEach((thing, index) => {
      const withId = String(index);
      const treeId = given.id!;
      const isInside = thing.widthM === 0 && inside(thing.points, x, y);
      const toLine = distance(thing.points, thing.widthM === 0, x, y);
      const distanceM = isInside ? 0 : Math.max(0, toLine - thing.widthM / 2);
      const share = distanceM / R;
      const underM = b + ((1 - Math.sqrt(Math.max(0, 1 - share * share))) / 2) * (h - b);
      const overM = b + ((1 + Math.sqrt(Math.max(0, 1 - share * share))) / 2) * (h - b);
      if (thing.kind !== "building") {
        // A trunk on the way is doubtful, which is not compared.
        const isLow = share > 0 && share < 1 && underM < RULE.get(thing.kind)!.minimumM;
        if (isLow) found.push({ treeId, kind: thing.kind, withId, measuredM: underM });
        return;
      }
      if (isInside) return;
      const u = Math.min(0.5, (thing.heightM - b) / (h - b));
      const gapM = u > 0 ? distanceM - R * Math.sqrt(1 - (2 * u - 1) ** 2) : Number.POSITIVE_INFINITY;
      if (gapM < RULE.get("building-side")!.minimumM)
        found.push({ treeId, kind: "building-side", withId, measuredM: gapM });
      const aboveM = underM - thing.heightM;
      const isOver = share < 1 && overM > thing.heightM;
      if (isOver && aboveM < RULE.get("building-roof")!.minimumM) {
        found.push({ treeId, kind: "building-roof", withId, measuredM: aboveM });
      }
    });
  }
  return found;
}

function distance(points: Points, isClosed: boolean, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  const count = isClosed ? points.length : points.length - 1;
  for (let at = 0; at < count; at += 1) {
    const [ax, ay] = points[at]!;
    const [bx, by] = points[(at + 1) % points.length]!;
    const squared = (bx - ax) ** 2 + (by - ay) ** 2;
    const along = squared === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / squared;
    const share = Math.max(0, Math.min(1, along));
    least = Math.min(least, Math.hypot(ax + share * (bx - ax) - x, ay + share * (by - ay) - y));
  }
  return least;
}

function inside(points: Points, x: number, y: number): boolean {
  let odd = false;
  for (let at = 0; at < points.length; at += 1) {
    const [ax, ay] = points[at]!;
    const [bx, by] = points[(at + 1) % points.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) odd = !odd;
  }
  return odd;
}

/** Areas of one kind of way and lines of the other: a line that runs on an area of its own kind is rightly passed over. */
function randomThing(next: () => number, areRoadsAreas: boolean): Thing {
  const [x, y] = [next() * 120 - 60, next() * 120 - 60];
  const pick = next();
  if (pick < 0.4) {
    // A star-shaped polygon, so that it never crosses itself.
    const corners = 3 + Math.floor(next() * 20);
    const points: Points = Array.from({ length: corners }, (_, at) => {
      const reachM = 3 + next() * 15;
      const angle = ((at + next() * 0.8) * 2 * Math.PI) / corners;
      return [x + Math.cos(angle) * reachM, y + Math.sin(angle) * reachM] as const;
    });
    return {
      kind: pick < 0.2 ? "building" : areRoadsAreas ? "roadway" : "walkway",
      points,
      widthM: 0,
      heightM: 3 + next() * 12,
    };
  }
  const steps = 1 + Math.floor(next() * 25);
  const points: [number, number][] = [[x, y]];
  for (let step = 0; step < steps; step += 1) {
    const [px, py] = points[step]!;
    points.push([px + next() * 14 - 7, py + next() * 14 - 7]);
  }
  return { kind: areRoadsAreas ? "walkway" : "roadway", points, widthM: 1 + next() * 8, heightM: 0 };
}

function randomTree(next: () => number, index: number): TreeGiven {
  const heightM = 4 + next() * 16;
  const [x, y] = [next() * 100 - 50, next() * 100 - 50];
  return { id: `t${index}`, x, y, heightM, baseM: next() * heightM * 0.5, radiusM: 1 + next() * 6, error: 0.001 };
}

const layer = (things: readonly Thing[], kind: Thing["kind"]): ReturnType<typeof features> =>
  features(
    kind === "building" ? "buildings" : kind === "roadway" ? "roads" : "paths",
    ...things.flatMap((thing, index) =>
      thing.kind !== kind
        ? []
        : [
            {
              geometry: thing.widthM === 0 ? polygon(thing.points) : line(thing.points),
              properties: {
                id: String(index),
                class: kind === "roadway" ? "local" : "sidewalk",
                ...(thing.widthM === 0 ? { height: thing.heightM } : { width: thing.widthM }),
              },
            },
          ],
    ),
  );

/** Park and Miller's minimal standard generator. */
function seeded(seed: number): () => number {
  let state = seed * 7919;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

describe("the oracle's own scene", () => {
  it("is drawn where it says", () => {
    const drawn = tree({ x: 12, y: -7, heightM: 5, baseM: 1, radiusM: 1 });
    const plane = planeOf(drawn.lonDeg);
    const [x0, y0] = toPlane(plane, -90, 41);
    const [x, y] = toPlane(plane, drawn.lonDeg, drawn.latDeg);
    expect([x - x0, y - y0].map((value) => value.toFixed(6))).toEqual(["12.000000", "-7.000000"]);
  });
});
