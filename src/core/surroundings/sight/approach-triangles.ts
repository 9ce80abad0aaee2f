import { approachRing } from "./approach-ring.ts";
import { yieldGaps } from "./departure-triangles.ts";
import { designLegM } from "./design-leg.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import { laneToward, nearestOffsetM, waitingOffsetM } from "./lanes.ts";
import type { LegControl } from "./leg-controls.ts";
import { rowAtSpeed } from "./row-at-speed.ts";
import type { BuiltTriangle, SeenLeg, SightScene } from "./scene.ts";
import { seenLegs, sideOf } from "./seen-legs.ts";
import { sightArea, type TriangleGiven } from "./sight-area.ts";
import { timeGapS } from "./time-gap.ts";
import { yieldCrossing } from "./yield-crossing.ts";

/**
 * Case A, no control: the approach triangle at each corner between two roads on which traffic arrives, with the legs of the table for the speed
 * of each. The driver from one road and the driver from the other see each other over the same triangle, so it is given once, for
 * the one who has the other at the left.
 */
export function uncontrolledTriangles(
  scene: SightScene,
  intersection: Intersection,
  from: Leg,
  control: LegControl,
): BuiltTriangle[] {
  const legOf = ({ road }: Leg): number => rowAtSpeed(scene.rules.approachLegs, road.speedKmh, ({ legM }) => legM);
  return arrivingAt(scene, intersection, from, ["left"]).flatMap(({ leg }) =>
    triangle(scene, intersection, from, leg, legOf(from), legOf(leg), {
      direction: "left",
      movement: "no-control",
      control,
    }),
  );
}

/**
 * Case C, yield: toward each side the triangle of a turn (C2), and where traffic can go straight across that of the crossing (C1). Neither
 * holds the other: the crossing has the longer leg on the yielding road, the turn mostly the longer one on the other.
 */
export function yieldTriangles(
  scene: SightScene,
  intersection: Intersection,
  from: Leg,
  control: LegControl,
): BuiltTriangle[] {
  const { rules } = scene;
  const seen = seenLegs(scene, intersection, from);
  const { crossingS, lanesM } = yieldGaps(scene, seen, from);
  const crossing = crossingS === null ? null : yieldCrossing(rules, from.road.speedKmh, lanesM, crossingS);
  const built: BuiltTriangle[] = [];
  for (const one of arrivingAt(scene, intersection, from, ["left", "right"])) {
    const { leg } = one;
    const direction = sideOf(one)!;
    const nearLanes = seen.reduce(
      (most, other) =>
        sideOf(other) === (scene.drive === "right" ? "left" : "right") ? Math.max(most, other.leg.lanesIn) : most,
      0,
    );
    const turnS = timeGapS(rules, rules.gaps.turnFromYield, nearLanes - 1, one.medianM, from.upgradePercent);
    const turnM = designLegM(leg.road.speedKmh, turnS);
    built.push(
      ...triangle(scene, intersection, from, leg, rules.yieldTurnLegM, turnM, {
        direction,
        movement: "yield",
        control,
      }),
    );
    if (crossing === null) continue;
    const alongM = designLegM(leg.road.speedKmh, crossing.gapS);
    built.push(
      ...triangle(scene, intersection, from, leg, crossing.legM, alongM, { direction, movement: "crossing", control }),
    );
  }
  return built;
}

function arrivingAt(
  scene: SightScene,
  intersection: Intersection,
  from: Leg,
  sides: readonly ("left" | "right")[],
): SeenLeg[] {
  return seenLegs(scene, intersection, from).filter((one) => {
    const side = sideOf(one);
    return side !== null && sides.includes(side) && one.leg.arrives && !one.leg.isService;
  });
}

function triangle(
  scene: SightScene,
  { node }: Intersection,
  from: Leg,
  toward: Leg,
  ownM: number,
  legM: number,
  given: Pick<TriangleGiven, "movement" | "control"> & { readonly direction: "left" | "right" },
): BuiltTriangle[] {
  const ring = approachRing(
    laneToward(scene, from, waitingOffsetM(scene, from), ownM),
    ownM,
    laneToward(scene, toward, nearestOffsetM(scene, toward, given.direction), legM),
    legM,
  );
  if (ring === null) return [];
  return [sightArea(scene, { ...given, node, from, toward, legM, ...ring, isBySpeed: true })];
}
