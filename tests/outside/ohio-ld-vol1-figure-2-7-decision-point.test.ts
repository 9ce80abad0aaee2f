import { describe, expect, it } from "vitest";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import { resolveStandard } from "../../src/core/standard/resolve-standard.ts";
import { buildSurroundings } from "../../src/core/surroundings/build-surroundings.ts";
import { features, line, OPTIONS, ORIGIN, point } from "../core/conflict/scene.ts";

/**
 * Source: Ohio DOT Location and Design Manual Vol. 1, Fig. 2.7 (read). Decision point 14.4 ft (4.39 m) at least and 17.8 ft (5.43 m) preferred
 * behind the edge of the major road's traveled way; from it to the path of a car from the left half a lane more, of a car from the right one lane and
 * a half. Lanes of 12 ft, so that a1 = d + 6 ft and a2 = d + 18 ft. The manual's own feet are rounded from its meters.
 */
const FT = 0.3048;

function legsFrom(setback: string): { a1: number; a2: number } {
  const resolved = resolveStandard({ extends: "us-common", title: "Ohio", sight: { setback } });
  if ("faults" in resolved) throw new Error(resolved.faults.join("; "));
  const { surroundings } = buildSurroundings(
    {
      roads: features(
        "roads",
        {
          geometry: line([
            [-400, 0],
            [0, 0],
            [400, 0],
          ]),
          properties: { class: "major-arterial", speed: "45 mph", lanes: 2, width: "24 ft" },
        },
        {
          geometry: line([
            [0, 0],
            [0, -200],
          ]),
          properties: { class: "local-residential", speed: "25 mph", lanes: 2, width: "20 ft" },
        },
      ),
      signs: features("signs", { geometry: point(5, -11), properties: { kind: "stop", facing: 180 } }),
    },
    {},
    resolved.standard,
    OPTIONS,
  );
  const plane = planeOf(ORIGIN.lonDeg);
  const [, originY] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
  const northM = ([lonDeg, latDeg]: readonly [number, number]): number => toPlane(plane, lonDeg, latDeg)[1] - originY;
  const away = (direction: "left" | "right"): number => {
    const { ring } = surroundings.sight.find((area) => area.direction === direction)!;
    return northM(ring[1]!) - northM(ring[0]!);
  };
  return { a1: away("left"), a2: away("right") };
}

describe("the decision point", () => {
  it.each([
    ["14.4 ft", 4.39],
    ["17.8 ft", 5.43],
  ])("%s behind the edge lies half a lane more from one path, a lane and a half from the other", (setback, meters) => {
    const { a1, a2 } = legsFrom(setback);
    // A centimeter: the manual's meters are rounded to it.
    expect(Math.abs(a1 - (meters + 6 * FT))).toBeLessThan(0.01);
    expect(Math.abs(a2 - (meters + 18 * FT))).toBeLessThan(0.01);
  });
});
