import { describe, expect, it } from "vitest";
import { radiusTowardM } from "../../src/core/crown/crown.ts";
import { profileShare } from "../../src/core/crown/profile.ts";
import { HABITS } from "../../src/core/model/terms.ts";
import { lookAlong, type ViewScene } from "../core/conflict/hidden/view-scene.ts";
import { randomFrom } from "../fuzz/random.ts";

// The oracle casts a ray from each of 700 vehicle positions and steps along it: it knows points in crowns, trunks and between walls, and none
// of the intervals, tangents and searches of the code. Each end of a hidden part is off by at most one position, 1/700 of the lane.

const POSITIONS = 700;
const STEPS = 48;
const SCENES = 1000;
/** One percentage point, the promise. */
const TOLERANCE = 0.01;

type Point = readonly [number, number];

function pointAlong(lane: readonly Point[], alongM: number): Point {
  let leftM = alongM;
  for (let at = 0; at + 1 < lane.length; at += 1) {
    const [[ax, ay], [bx, by]] = [lane[at]!, lane[at + 1]!];
    const stepM = Math.hypot(bx - ax, by - ay);
    if (leftM <= stepM || at + 2 === lane.length) {
      return [ax + ((bx - ax) * leftM) / stepM, ay + ((by - ay) * leftM) / stepM];
    }
    leftM -= stepM;
  }
  return lane[0]!;
}

function castShare(scene: ViewScene): number {
  const otherM = (scene.otherEndM[0] + scene.otherEndM[1]) / 2;
  let hidden = 0;
  for (let position = 0; position < POSITIONS; position += 1) {
    const alongM = ((position + 0.5) / POSITIONS) * scene.lengthM;
    const a = pointAlong(scene.lane, alongM);
    const b = scene.fixed ?? pointAlong(scene.lane, alongM + scene.aheadM!);
    const z = (share: number): number => scene.laneEndM + share * (otherM - scene.laneEndM);
    if (isWalled(scene, a, b, z)) continue;
    if (scene.trees.some((tree) => isHiddenBy(tree, a, b, z))) hidden += 1;
  }
  return hidden / POSITIONS;
}

function isWalled(scene: ViewScene, a: Point, b: Point, z: (share: number) => number): boolean {
  return (scene.walls ?? []).some(({ ring, bottomM, heightM }) =>
    ring.some(([cx, cy], at) => {
      const [dx, dy] = ring[(at + 1) % ring.length]!;
      const cross = (b[0] - a[0]) * (dy - cy) - (b[1] - a[1]) * (dx - cx);
      if (cross === 0) return false;
      const share = ((cx - a[0]) * (dy - cy) - (cy - a[1]) * (dx - cx)) / cross;
      const along = ((cx - a[0]) * (b[1] - a[1]) - (cy - a[1]) * (b[0] - a[0])) / cross;
      return share >= 0 && share <= 1 && along >= 0 && along <= 1 && z(share) >= bottomM && z(share) <= heightM;
    }),
  );
}

function isHiddenBy(tree: ViewScene["trees"][number], a: Point, b: Point, z: (share: number) => number): boolean {
  const [x, y] = [tree.x!, tree.y!];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const foot = ((x - a[0]) * dx + (y - a[1]) * dy) / squared;
  const awayM = (share: number): number => Math.hypot(a[0] + share * dx - x, a[1] + share * dy - y);
  const nearest = Math.min(1, Math.max(0, foot));
  const trunkM = (tree.dbhM ?? 0) / 2;
  if (trunkM > 0 && awayM(nearest) <= trunkM && z(nearest) <= tree.heightM) return true;
  const radii = tree.radii ?? {
    northM: tree.radiusM,
    eastM: tree.radiusM,
    southM: tree.radiusM,
    westM: tree.radiusM,
  };
  const reachM = Math.max(radii.northM, radii.eastM, radii.southM, radii.westM);
  if (awayM(nearest) > reachM) return false;
  const half = reachM / Math.sqrt(squared);
  for (let step = 0; step <= STEPS; step += 1) {
    const share = Math.min(1, Math.max(0, foot - half + (2 * half * step) / STEPS));
    const u = (z(share) - tree.baseM) / (tree.heightM - tree.baseM);
    if (u < 0 || u > 1) continue;
    const bearing = (Math.atan2(a[0] + share * dx - x, a[1] + share * dy - y) * 180) / Math.PI;
    if (awayM(share) <= radiusTowardM(radii, bearing) * profileShare(tree.habit!, u)) return true;
  }
  return false;
}

function sceneOf(seed: number): ViewScene {
  const whole = randomFrom(seed);
  const random = (): number => whole(2 ** 32) / 2 ** 32;
  const between = (from: number, to: number): number => from + random() * (to - from);
  const kind = (["sight-triangle", "sign", "curve"] as const)[seed % 3]!;
  const lengthM = between(30, 150);
  const bend = between(-25, 25);
  const lane: Point[] = [
    [0, 12],
    [lengthM / 2, 12 + bend / 2],
    [lengthM + 120, 12 + bend + between(0, 10)],
  ];
  const aheadM = between(25, 60);
  const trees = Array.from({ length: 1 + Math.floor(random() * 5) }, () => {
    const heightM = between(1.5, 12);
    const baseM = random() < 0.4 ? 0 : between(0, Math.min(2.5, heightM * 0.8));
    const r = between(0.5, 4);
    const quarters = random() < 0.4;
    return {
      x: between(-2, lengthM + 10),
      y: kind === "curve" ? between(10, 10 + bend + 6) : between(2, 14),
      heightM,
      baseM,
      radiusM: r,
      ...(quarters
        ? { radii: { northM: r, eastM: r * between(0.4, 1), southM: r * between(0.4, 1), westM: r * between(0.4, 1) } }
        : {}),
      habit: HABITS[Math.floor(random() * HABITS.length)]!,
      dbhM: random() < 0.6 ? between(0.1, 0.9) : 0,
    };
  });
  const walls =
    random() < 0.4
      ? [
          (() => {
            const [x, y, w, d] = [between(0, lengthM), between(3, 9), between(3, 20), between(0.5, 3)];
            return {
              ring: [
                [x, y],
                [x + w, y],
                [x + w, y + d],
                [x, y + d],
              ] as Point[],
              bottomM: random() < 0.2 ? 2.4 : 0,
              heightM: between(0.5, 8),
            };
          })(),
        ]
      : [];
  return {
    kind,
    lane,
    lengthM,
    fixed: kind === "curve" ? null : [between(-6, 6), between(-4, 0)],
    aheadM,
    laneEndM: 1.0668,
    otherEndM:
      kind === "sign" ? [between(1.5, 5), between(5, 6)] : kind === "curve" ? [0.6096, 0.6096] : [1.0668, 1.0668],
    trees,
    walls,
  };
}

describe("hidden shares on seeded scenes", () => {
  it(`are those of rays cast from ${POSITIONS} positions, within one percentage point, on ${SCENES} scenes`, () => {
    let hiding = 0;
    const off: { seed: number; found: number; cast: number }[] = [];
    for (let seed = 1; seed <= SCENES; seed += 1) {
      const scene = sceneOf(seed);
      const found = lookAlong(scene).hidden.share;
      const cast = castShare(scene);
      if (cast > 0.02) hiding += 1;
      if (Math.abs(found - cast) > TOLERANCE) off.push({ seed, found, cast });
    }
    expect(off).toEqual([]);
    // The scenes say something: most of them hide something.
    expect(hiding).toBeGreaterThan(SCENES / 2);
  });
});
