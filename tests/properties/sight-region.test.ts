import { expect, it } from "vitest";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import { buildSurroundings } from "../../src/core/surroundings/build-surroundings.ts";
import { features, line, OPTIONS, ORIGIN, type Points, point, STANDARD } from "../core/conflict/scene.ts";

// On curved major roads the area of sight must be what all sight lines from the eye to the lane sweep: no more, and nothing left out.

const plane = planeOf(ORIGIN.lonDeg);
const [originX, originY] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);

/** Small seeded generator: the same scenes on every run. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A road that winds: steps of 15 m, each bent by up to 9 degrees from the one before. */
function winding(random: () => number, toward: number): Points {
  const points: [number, number][] = [[0, 0]];
  let heading = toward;
  let [x, y] = [0, 0];
  let bend = (random() - 0.5) * 0.2;
  for (let step = 0; step < 25; step += 1) {
    if (random() < 0.2) bend = (random() - 0.5) * 0.3;
    if (step > 1) heading += bend;
    x += 15 * Math.cos(heading);
    y += 15 * Math.sin(heading);
    points.push([x, y]);
  }
  return points;
}

function isInside(ring: readonly (readonly number[])[], x: number, y: number): boolean {
  let inside = false;
  for (let at = 0, before = ring.length - 1; at < ring.length; before = at, at += 1) {
    const [ax, ay] = [ring[at]![0]!, ring[at]![1]!];
    const [bx, by] = [ring[before]![0]!, ring[before]![1]!];
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

it.each(Array.from({ length: 40 }, (_, seed) => seed + 1))("sweeps what the sight lines sweep, scene %i", (seed) => {
  const random = randomFrom(seed);
  const arms = [winding(random, 0), winding(random, Math.PI)];
  const { surroundings } = buildSurroundings(
    {
      roads: features(
        "roads",
        ...arms.map((arm) => ({
          geometry: line(arm),
          properties: { class: "collector", speed: "40 mph", lanes: 2, width: "24 ft" },
        })),
        {
          geometry: line([
            [0, 0],
            [0, -100],
          ]),
          properties: { class: "local-residential", speed: "25 mph", lanes: 2, width: "20 ft" },
        },
      ),
      signs: features("signs", { geometry: point(5, -11), properties: { kind: "stop", facing: 180 } }),
    },
    {},
    STANDARD,
    OPTIONS,
  );
  const envelopes = surroundings.envelopes.flatMap((one) =>
    one.type === "sight" && one.area.control === "stop" ? [one] : [],
  );
  expect(envelopes).toHaveLength(2);
  for (const { area, lines } of envelopes) {
    const inMeters = ([lonDeg, latDeg]: readonly [number, number]): readonly [number, number] => {
      const [x, y] = toPlane(plane, lonDeg, latDeg);
      return [x - originX, y - originY];
    };
    const corners = area.ring.slice(0, -1).map(inMeters);
    const eye = corners[0];
    const lane = lines!.lane.map(inMeters);
    for (let sample = 0; sample < 300; sample += 1) {
      // A point of the lane and a point on the way to it, off the ends by a little: it must be inside.
      const leg = Math.floor(random() * (lane.length - 1));
      const share = 0.02 + 0.96 * random();
      const [ax, ay] = lane[leg]!;
      const [bx, by] = lane[leg + 1]!;
      const [px, py] = [ax + share * (bx - ax), ay + share * (by - ay)];
      const along = 0.02 + 0.96 * random();
      const [x, y] = [eye![0] + along * (px - eye![0]), eye![1] + along * (py - eye![1])];
      expect(isInside(corners, x, y), `on a sight line at ${x}, ${y}`).toBe(true);
    }
    for (let sample = 0; sample < 300; sample += 1) {
      // Any point around: inside if and only if the ray from the eye through it meets the lane at or beyond it.
      const [x, y] = [(random() - 0.5) * 300, -40 + random() * 200];
      const [dx, dy] = [x - eye![0], y - eye![1]];
      let isSwept = false;
      for (let at = 0; at + 1 < lane.length; at += 1) {
        const [ax, ay] = [lane[at]![0] - eye![0], lane[at]![1] - eye![1]];
        const [bx, by] = [lane[at + 1]![0] - eye![0], lane[at + 1]![1] - eye![1]];
        const [sideA, sideB] = [dx * ay - dy * ax, dx * by - dy * bx];
        if (sideA > 0 === sideB > 0) continue;
        const share = sideA / (sideA - sideB);
        const reach = (dx * (ax + share * (bx - ax)) + dy * (ay + share * (by - ay))) / (dx * dx + dy * dy);
        if (reach >= 1) isSwept = true;
      }
      expect(isInside(corners, x, y), `at ${x}, ${y}`).toBe(isSwept);
    }
  }
});
