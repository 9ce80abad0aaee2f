import type { SightMovement } from "../../model/surroundings.ts";
import { backFromNodeM, eyeAt } from "./decision-point.ts";
import { designLegM } from "./design-leg.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import { laneToward, nearestOffsetM } from "./lanes.ts";
import type { LegControl } from "./leg-controls.ts";
import type { BuiltTriangle, SeenLeg, SightScene } from "./scene.ts";
import { isAhead, seenLegs, sideOf } from "./seen-legs.ts";
import { sightArea } from "./sight-area.ts";
import { sweptRing } from "./swept-ring.ts";
import { timeGapS } from "./time-gap.ts";
import { walkFromFoot } from "./walk-from-foot.ts";

type Side = "left" | "right";

/** A movement from a stop with the gap it needs toward each side it must see. */
interface Need {
  readonly movement: SightMovement;
  readonly sides: readonly Side[];
  readonly gapS: number;
}

/**
 * Departure sight triangles of a stopped driver, toward traffic from the left and from the right: of the movements that the intersection
 * allows and that must see that side, the one with the longest gap; the others lie within. A turn across the near lanes (case B1) and
 * the crossing (B3) must see both sides, the turn into the near lanes (B2) one. `movement` replaces the names where one word says all.
 */
export function departureTriangles(
  scene: SightScene,
  intersection: Intersection,
  from: Leg,
  control: LegControl,
  only: "all" | "turn-near" = "all",
  movement?: SightMovement,
): BuiltTriangle[] {
  const seen = seenLegs(scene, intersection, from);
  const needs = needsOf(scene, seen, from).filter((need) => only === "all" || need.sides.length === 1);
  const eye = eyeAt(scene, from, backFromNodeM(seen, scene.rules.setbackM));
  const built: BuiltTriangle[] = [];
  for (const side of ["left", "right"] as const) {
    const need = needs.filter(({ sides }) => sides.includes(side)).reduce(longest, null);
    if (need === null) continue;
    for (const { leg } of seen.filter((one) => sideOf(one) === side && one.leg.arrives && !one.leg.isService)) {
      const legM = designLegM(leg.road.speedKmh, need.gapS);
      const walked = walkFromFoot(laneToward(scene, leg, nearestOffsetM(scene, leg, side), legM), eye, legM);
      built.push(
        sightArea(scene, {
          node: intersection.node,
          from,
          toward: leg,
          direction: side,
          movement: movement ?? need.movement,
          control,
          legM,
          coveredM: walked.lengthM,
          corners: sweptRing(eye, walked.points),
          lane: walked.points,
          isBySpeed: true,
        }),
      );
    }
  }
  return built;
}

const longest = (best: Need | null, need: Need): Need => (best === null || need.gapS > best.gapS ? need : best);

/** The movements a stopped driver can make here, in the order of their cases, with their gaps. */
function needsOf(scene: SightScene, seen: readonly SeenLeg[], { upgradePercent }: Leg): Need[] {
  const { rules, drive } = scene;
  // Where traffic drives on the right the near lanes bring traffic from the left, and a left turn crosses them.
  const [near, far] = drive === "right" ? (["left", "right"] as const) : (["right", "left"] as const);
  const streets = seen.filter(({ leg }) => !leg.isService);
  const lanesFrom = (side: Side): number =>
    streets.reduce((most, one) => (sideOf(one) === side ? Math.max(most, one.leg.lanesIn) : most), 0);
  const leavesTo = (side: Side): boolean => streets.some((one) => sideOf(one) === side && one.leg.leaves);
  const medianM = streets.reduce(
    (most, { leg, medianM: beforeM }) => Math.max(most, beforeM, leg.road.details?.medianM ?? 0),
    0,
  );
  const needs: Need[] = [];
  if (leavesTo(near)) {
    const gapS = timeGapS(rules, rules.gaps.turnAcross, lanesFrom(near) - 1, medianM, upgradePercent);
    needs.push({ movement: `${near}-turn`, sides: ["left", "right"], gapS });
  }
  if (leavesTo(far)) {
    const gapS = timeGapS(rules, rules.gaps.turnNear, 0, 0, upgradePercent);
    needs.push({ movement: `${far}-turn`, sides: [near], gapS });
  }
  if (streets.some((one) => isAhead(one) && one.leg.leaves)) {
    const gapS = timeGapS(rules, rules.gaps.crossing, lanesFrom(near) + lanesFrom(far) - 2, medianM, upgradePercent);
    needs.push({ movement: "crossing", sides: ["left", "right"], gapS });
  }
  return needs;
}

/** Seconds that a crossing from a stop and a turn from a yield need on a leg; for yield control. */
export function yieldGaps(
  scene: SightScene,
  seen: readonly SeenLeg[],
  from: Leg,
): { readonly crossingS: number | null; readonly lanesM: number } {
  const crossing = needsOf(scene, seen, from).find(({ movement }) => movement === "crossing");
  const lanesM = seen
    .filter((one) => sideOf(one) !== null && !one.leg.isService)
    .reduce((sum, { leg, medianM }) => sum + leg.lanesIn * leg.road.laneM + medianM, 0);
  return { crossingS: crossing?.gapS ?? null, lanesM };
}
