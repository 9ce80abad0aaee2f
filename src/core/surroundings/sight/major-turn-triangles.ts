import { squaredToSegment } from "../../plane/segments.ts";
import { edgeDistanceM, eyeAt } from "./decision-point.ts";
import { designLegM } from "./design-leg.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import { laneOffsetM, laneToward } from "./lanes.ts";
import type { LegControl } from "./leg-controls.ts";
import type { PlanePoint } from "./plane-point.ts";
import { followRoad } from "./road-graph.ts";
import type { BuiltTriangle, SightScene } from "./scene.ts";
import { halfWidthOf, isAhead, seenLegs, sideOf } from "./seen-legs.ts";
import { sightArea } from "./sight-area.ts";
import { sweptRing } from "./swept-ring.ts";
import { timeGapS } from "./time-gap.ts";
import { walkFromFoot } from "./walk-from-foot.ts";

/** Points on each sight line at which it is asked whether it leaves the road. */
const SAMPLES = 12;
/** A sight line this little beyond the edge of the road, meters, is on it: widths are no better known. */
const EDGE_M = 0.5;

/**
 * Case F: a driver on the major road who waits to turn across oncoming traffic sees it for the gap's time. On a straight road that triangle
 * lies on the roadway, where nothing grows, and is left out; it is given where a curve or a median lets it leave the road.
 */
export function majorTurnTriangles(
  scene: SightScene,
  intersection: Intersection,
  from: Leg,
  control: LegControl,
): BuiltTriangle[] {
  const { rules, drive } = scene;
  const across = drive === "right" ? "left" : "right";
  const seen = seenLegs(scene, intersection, from);
  if (!seen.some((one) => sideOf(one) === across && one.leg.leaves && !one.leg.isService)) return [];
  const eye = eyeAt(scene, from, edgeDistanceM(seen));
  return seen.flatMap((one) => {
    const { leg } = one;
    if (!isAhead(one) || !leg.arrives || leg.isService) return [];
    const medianM = Math.max(one.medianM, leg.road.details?.medianM ?? 0);
    const gapS = timeGapS(rules, rules.gaps.turnFromMajor, leg.lanesIn - 1, medianM, null);
    const legM = designLegM(leg.road.speedKmh, gapS);
    const walked = walkFromFoot(laneToward(scene, leg, laneOffsetM(scene, leg, "outer"), legM), eye, legM);
    const roads = [from, leg].map((each) => ({
      line: followRoad(scene.graph, each.direction, legM),
      reachM: halfWidthOf(each) + EDGE_M,
    }));
    if (walked.points.every((point) => isOnRoad(eye, point, roads))) return [];
    return [
      sightArea(scene, {
        node: intersection.node,
        from,
        toward: leg,
        direction: null,
        movement: "left-from-major",
        control,
        legM,
        coveredM: walked.lengthM,
        corners: sweptRing(eye, walked.points),
        lane: walked.points,
        isBySpeed: true,
      }),
    ];
  });
}

interface Strip {
  readonly line: readonly PlanePoint[];
  readonly reachM: number;
}

function isOnRoad([ex, ey]: PlanePoint, [px, py]: PlanePoint, roads: readonly Strip[]): boolean {
  for (let step = 1; step < SAMPLES; step += 1) {
    const x = ex + ((px - ex) * step) / SAMPLES;
    const y = ey + ((py - ey) * step) / SAMPLES;
    if (!roads.some(({ line, reachM }) => isNear(line, reachM, x, y))) return false;
  }
  return true;
}

function isNear(line: readonly PlanePoint[], reachM: number, x: number, y: number): boolean {
  for (let at = 0; at + 1 < line.length; at += 1) {
    const [ax, ay] = line[at]!;
    const [bx, by] = line[at + 1]!;
    if (squaredToSegment(x, y, ax, ay, bx, by) <= reachM * reachM) return true;
  }
  return false;
}
