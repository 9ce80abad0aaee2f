import type { Position } from "geojson";
import { type Crown, crownOf, radiusTowardM, relativeHeight } from "../../../core/crown/crown.ts";
import { profileShare } from "../../../core/crown/profile.ts";
import { stemDiameterM } from "../../../core/crown/stem-diameter.ts";
import type { ConflictRecord } from "../../../core/model/conflict.ts";
import type { Tree } from "../../../core/model/trees.ts";
import { offsetLonLat } from "../ground-scale.ts";
import type { PlanLook } from "../plan-look.ts";
import { encroachmentHeights, type Surroundings } from "./encroachment-heights.ts";
import { type Solid, solid } from "./solid.ts";

const CROWN_CORNERS = 26;
const TRUNK_CORNERS = 8;
/** Share of the crown's depth that the trunk reaches into it. */
const TRUNK_INTO_CROWN = 0.4;
/** Thinner layers than this, in meters, are left out: a crown's very tip. */
const THINNEST_M = 0.05;
/** Encroaching parts stand out of the crown's side by this share, so that they are seen on it. */
const PROUD = 1.015;
/** And above its layer by this much, meters, or the two tops would flicker. */
const PROUD_M = 0.04;

/**
 * A tree as a model of stacked card: its trunk, its crown in layers of one thickness that count up from the ground, each as wide as the crown's
 * profile at half its height, and on the layers what is inside a clearance. On another date the crown is that of the date.
 */
export function treeSolids(
  { opened, dated, marks }: PlanLook,
  row: number,
  conflicts: readonly ConflictRecord[],
  around: Surroundings,
  layerM: number,
): Solid[] {
  const tree = opened.plan.trees[row]!;
  const crown = dated?.crownOn(row) ?? crownOf(tree);
  const { urgency } = marks[row]!;
  const members = { tree: tree.id, urgency };
  const axis = offsetLonLat(tree.lonDeg, tree.latDeg, tree.crownEastM ?? 0, tree.crownNorthM ?? 0);
  const worked = dated?.treeOn(row).workedIds;
  const open = conflicts.filter(
    ({ encroachment, certainty, conflictId }) =>
      encroachment !== null && certainty !== "possible" && !worked?.has(conflictId),
  );
  const solids = [trunk(tree, crown, members)];
  for (const { lowM, highM, index } of layersOf(crown, layerM)) {
    const share = profileShare(crown.habit, relativeHeight(crown, (lowM + highM) / 2));
    const ring = crownRing((bearing) => radiusTowardM(crown.radii, bearing) * share, axis);
    solids.push(solid("crown", ring, lowM, highM, { ...members, isFifth: index % 5 === 4 }));
    for (const conflict of open) {
      const heights = encroachmentHeights(conflict, crown, around);
      if (heights === null) continue;
      const base = Math.max(lowM, heights[0]);
      const top = Math.min(highM, heights[1]);
      if (top - base < THINNEST_M) continue;
      const part = within(conflict, crown, share, axis);
      if (part !== null) solids.push(solid("encroachment", part, base, top + PROUD_M, members));
    }
  }
  return solids;
}

function trunk(tree: Tree, crown: Crown, members: Readonly<Record<string, unknown>>): Solid {
  const radiusM = stemDiameterM(tree) / 2;
  const topM = crown.crownBaseM + TRUNK_INTO_CROWN * (crown.heightM - crown.crownBaseM);
  const ring = ringAt([tree.lonDeg, tree.latDeg], TRUNK_CORNERS, () => radiusM);
  return solid("trunk", ring, 0, topM, members);
}

/** The layers of a crown, cut at whole multiples of their thickness above the ground. */
function* layersOf({ crownBaseM, heightM }: Crown, layerM: number) {
  for (let index = Math.floor(crownBaseM / layerM); index * layerM < heightM; index += 1) {
    const lowM = Math.max(crownBaseM, index * layerM);
    const highM = Math.min(heightM, (index + 1) * layerM);
    if (highM - lowM >= THINNEST_M) yield { lowM, highM, index };
  }
}

/** What of a conflict's part in plan lies within one layer of the crown, its corners drawn in to the layer's edge; null for next to nothing. */
function within(
  { encroachment }: ConflictRecord,
  crown: Crown,
  share: number,
  [lonDeg, latDeg]: readonly [number, number],
): Position[] | null {
  const corners = encroachment?.coordinates[0]?.slice(0, -1) ?? [];
  const [eastUnit, northUnit] = offsetLonLat(0, latDeg, 1, 1);
  const [perEastM, perNorthM] = [eastUnit, northUnit - latDeg];
  let twiceAreaM2 = 0;
  let before: readonly [number, number] | null = null;
  let first: readonly [number, number] | null = null;
  const ring: Position[] = [];
  for (const [lon = 0, lat = 0] of corners) {
    const eastM = (lon - lonDeg) / perEastM;
    const northM = (lat - latDeg) / perNorthM;
    const reachM = radiusTowardM(crown.radii, (Math.atan2(eastM, northM) * 180) / Math.PI) * share * PROUD;
    const drawnIn = Math.min(1, reachM / Math.max(0.001, Math.hypot(eastM, northM)));
    const at = [eastM * drawnIn, northM * drawnIn] as const;
    if (before !== null) twiceAreaM2 += before[0] * at[1] - at[0] * before[1];
    before = at;
    first ??= at;
    ring.push(offsetLonLat(lonDeg, latDeg, at[0], at[1]));
  }
  if (before !== null && first !== null) twiceAreaM2 += before[0] * first[1] - first[0] * before[1];
  return Math.abs(twiceAreaM2) < 0.1 ? null : ring;
}

const crownRing = (radiusM: (bearingDeg: number) => number, axis: readonly [number, number]): Position[] =>
  ringAt(axis, CROWN_CORNERS, radiusM);

function ringAt(
  [lonDeg, latDeg]: readonly [number, number],
  corners: number,
  radiusM: (bearingDeg: number) => number,
): Position[] {
  return Array.from({ length: corners }, (_, at) => {
    const bearing = (360 - (360 * at) / corners) % 360;
    const angle = (bearing * Math.PI) / 180;
    const lengthM = Math.max(0.02, radiusM(bearing));
    return offsetLonLat(lonDeg, latDeg, lengthM * Math.sin(angle), lengthM * Math.cos(angle));
  });
}
