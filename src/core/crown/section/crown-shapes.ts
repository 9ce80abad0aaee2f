import { type Crown, crownOf, radiusAtHeightM } from "../crown.ts";
import type { Shape, Stroke } from "../drawing.ts";
import { widestAt } from "../profile.ts";
import type { SectionLayout } from "./layout.ts";
import { area, DASHES, EDGE, EDGE_MM, line, type Point, polyline, QUIET, THIN } from "./path.ts";
import { footAlongM, type SectionSubject, sectionBearingDeg } from "./subject.ts";

/** Heights a crown's edge is drawn through, from its base to its top; closer together where an ellipsoid turns. */
const STEPS = 48;

/** Horizontal span of a removal at a height, meters from the axis toward the thing; null where nothing comes off. */
export type RemovalAt = (heightM: number) => readonly [fromM: number, toM: number] | null;

/** The crown's area, without its edge. */
export function crownFill(subject: SectionSubject, layout: SectionLayout): Shape {
  const { toward, away } = crownSides(subject, layout);
  return area(polyline([...away, ...[...toward].reverse()], true), "crown");
}

/**
 * The crown's edge: the part above its widest height rests on height and radius, the part below on crown base and radius. Each is
 * solid when both are measured and dashed when either is estimated or assumed.
 */
export function crownEdge(subject: SectionSubject, layout: SectionLayout): Shape[] {
  const { tree } = subject;
  const { toward, away } = crownSides(subject, layout);
  const turn = Math.round(STEPS * stepShare(widestAt(tree.habit)));
  const upper = [...away.slice(turn), ...toward.slice(turn).reverse()];
  const lower = [...away.slice(0, turn + 1)].reverse().concat(toward.slice(0, turn + 1));
  const radiusKnown = tree.radius.basis === "measured";
  return [
    line(upper, edgeStroke(radiusKnown && tree.height.basis === "measured")),
    line(lower, edgeStroke(radiusKnown && tree.crownBase.basis === "measured")),
  ];
}

/** What comes off, as hatched areas with a thin edge; empty when the removal misses the crown. */
export function removedParts(subject: SectionSubject, layout: SectionLayout, removal: RemovalAt): Shape[] {
  const crown = crownOf(subject.tree);
  const bearing = sectionBearingDeg(subject);
  const near: Point[] = [];
  const far: Point[] = [];
  for (const heightM of removalHeights(crown, removal)) {
    const span = removal(heightM);
    if (span === null) continue;
    const towardM = radiusAtHeightM(crown, heightM, bearing);
    const awayM = radiusAtHeightM(crown, heightM, bearing + 180);
    const fromM = Math.max(span[0], -awayM);
    const toM = Math.min(span[1], towardM);
    if (toM < fromM) continue;
    near.push([layout.toX(fromM), layout.toY(heightM)]);
    far.push([layout.toX(toM), layout.toY(heightM)]);
  }
  if (near.length < 2) return [];
  const d = polyline([...near, ...far.reverse()], true);
  return [{ type: "path", d, fill: "removed", hatched: true, stroke: { tone: "ink", widthMm: 0.25 } }];
}

/** A point inside what comes off, for its label; null when nothing does. */
export function middleOfRemoval(
  subject: SectionSubject,
  layout: SectionLayout,
  removal: RemovalAt,
): readonly [xM: number, heightM: number] | null {
  const crown = crownOf(subject.tree);
  const bearing = sectionBearingDeg(subject);
  let widest = 0;
  let middle: readonly [number, number] | null = null;
  for (const heightM of removalHeights(crown, removal)) {
    const span = removal(heightM);
    if (span === null) continue;
    const fromM = Math.max(span[0], -layout.awayRadiusM);
    const toM = Math.min(span[1], radiusAtHeightM(crown, heightM, bearing));
    if (toM - fromM > widest) {
      widest = toM - fromM;
      middle = [Math.max((fromM + toM) / 2, toM - 0.8), heightM];
    }
  }
  return middle;
}

/** Trunk to scale, tapering into the crown, its axis, and a few quiet limbs that show it is a tree. */
export function trunkShapes(subject: SectionSubject, layout: SectionLayout): Shape[] {
  const { tree } = subject;
  const crown = crownOf(tree);
  const bearing = sectionBearingDeg(subject);
  const { toX, toY, mmPerM } = layout;
  const heightM = tree.height.valueM;
  const depthM = heightM - tree.crownBase.valueM;
  const footMm = Math.max(0.35, ((tree.dbhM ?? heightM / 60) * mmPerM) / 2);
  const tipM = tree.crownBase.valueM + depthM * (tree.form === "conifer" ? 0.95 : 0.72);
  const shapes: Shape[] = [];
  const stemMm = (atM: number): number => toX(stemAlongM(subject, atM));
  const isConifer = tree.form === "conifer";
  for (const [share, side] of LIMBS) {
    const fromM = tree.crownBase.valueM + depthM * share;
    const riseM = isConifer ? -Math.min(depthM * 0.04, fromM * 0.2) : Math.min(depthM * 0.24, (heightM - fromM) * 0.5);
    const endM = fromM + riseM;
    const reachM =
      radiusAtHeightM(crown, Math.max(endM, crown.crownBaseM), bearing + (side > 0 ? 0 : 180)) * 0.84 * side;
    const d =
      `${polyline([[stemMm(fromM), toY(fromM)]])}C${pair(toX(reachM * 0.3), toY(fromM + riseM * 0.5))} ` +
      `${pair(toX(reachM * 0.7), toY(fromM + riseM * 0.8))} ${pair(toX(reachM), toY(endM))}`;
    shapes.push({ type: "path", d, fill: "none", stroke: QUIET });
  }
  const flareM = Math.min(0.5, heightM * 0.1);
  const limbsM = tree.crownBase.valueM + depthM * 0.2;
  const outline: Point[] = [
    [stemMm(0) - footMm * 1.25, toY(0)],
    [stemMm(flareM) - footMm, toY(flareM)],
    [stemMm(limbsM) - footMm * 0.6, toY(limbsM)],
    [stemMm(tipM), toY(tipM)],
    [stemMm(limbsM) + footMm * 0.6, toY(limbsM)],
    [stemMm(flareM) + footMm, toY(flareM)],
    [stemMm(0) + footMm * 1.25, toY(0)],
  ];
  shapes.push(area(polyline(outline, true), "paper", THIN));
  return shapes;
}

/**
 * Where the stem is at a height, meters from the crown's axis along the section: straight from its foot to the axis in the middle of the
 * crown, and on beyond where it leans.
 */
function stemAlongM(subject: SectionSubject, heightM: number): number {
  const { tree } = subject;
  const footM = footAlongM(subject);
  const middleM = (tree.height.valueM + tree.crownBase.valueM) / 2;
  const left = 1 - heightM / middleM;
  return footM === 0 ? 0 : footM * ((tree.stemRunM ?? 0) > 0 ? left : Math.max(0, left));
}

/** Where limbs leave the trunk, as a share of the crown's depth, and on which side: a picture, not a survey. */
const LIMBS: readonly (readonly [share: number, side: 1 | -1])[] = [
  [0.03, 1],
  [0.08, -1],
  [0.22, 1],
  [0.3, -1],
  [0.45, 1],
  [0.52, -1],
];

function crownSides(subject: SectionSubject, layout: SectionLayout): { toward: Point[]; away: Point[] } {
  const crown = crownOf(subject.tree);
  const bearing = sectionBearingDeg(subject);
  const toward: Point[] = [];
  const away: Point[] = [];
  for (let step = 0; step <= STEPS; step += 1) {
    const u = (1 - Math.cos((Math.PI * step) / STEPS)) / 2;
    const heightM = step === STEPS ? crown.heightM : crown.crownBaseM + u * (crown.heightM - crown.crownBaseM);
    const y = layout.toY(heightM);
    toward.push([layout.toX(radiusAtHeightM(crown, heightM, bearing)), y]);
    away.push([layout.toX(-radiusAtHeightM(crown, heightM, bearing + 180)), y]);
  }
  return { toward, away };
}

/** Share of the steps taken when the edge has come to relative height u; the reverse of the cosine spacing. */
const stepShare = (u: number): number => Math.acos(1 - 2 * u) / Math.PI;

/** Heights that meet every step of a removal: 160 evenly through the crown and, beside each end of the removal, one at the end. */
function removalHeights(crown: Crown, removal: RemovalAt): number[] {
  const count = 160;
  const depthM = crown.heightM - crown.crownBaseM;
  const heights: number[] = [];
  let before: number | null = null;
  for (let step = 0; step <= count; step += 1) {
    const heightM = step === count ? crown.heightM : crown.crownBaseM + (depthM * step) / count;
    if (before !== null && (removal(before) === null) !== (removal(heightM) === null)) {
      heights.push(endBetween(before, heightM, removal));
    }
    heights.push(heightM);
    before = heightM;
  }
  return heights;
}

function endBetween(lowM: number, highM: number, removal: RemovalAt): number {
  const lowIsIn = removal(lowM) !== null;
  let inM = lowIsIn ? lowM : highM;
  let outM = lowIsIn ? highM : lowM;
  for (let halving = 0; halving < 24; halving += 1) {
    const middleM = (inM + outM) / 2;
    if (removal(middleM) === null) outM = middleM;
    else inM = middleM;
  }
  return inM;
}

const edgeStroke = (isMeasured: boolean): Stroke =>
  isMeasured ? EDGE : { tone: "ink", widthMm: EDGE_MM, dashMm: DASHES };

const pair = (xMm: number, yMm: number): string => `${Math.round(xMm * 100) / 100} ${Math.round(yMm * 100) / 100}`;
