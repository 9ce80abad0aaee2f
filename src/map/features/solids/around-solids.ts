import type { Position } from "geojson";
import { parabolaDropShare } from "../../../core/crown/wire/drop-share.ts";
import type { SurroundingFeature } from "../../../core/model/surroundings.ts";
import { offsetLonLat } from "../ground-scale.ts";
import { type Solid, type SolidPart, solid } from "./solid.ts";

/** Wires and poles are drawn this thick in meters, thicker than they are, so that they can be seen. */
const WIRE_M = 0.14;
const POLE_M = 0.3;
/** Pieces that a span's curve is drawn in: more where it climbs, so that no step is higher than a hand. */
const LEAST_PIECES = 10;
const MOST_PIECES = 40;
const STEP_M = 0.12;
/** A clearance over a way is drawn as a pane of this thickness at its height. */
const PANE_M = 0.06;

/** A building up to its height; nothing where that is not known. */
export function buildingSolids({ id, geometry, heightM }: SurroundingFeature): Solid[] {
  if (heightM === null) return [];
  return outlines(geometry).map((ring) => solid("building", ring, 0, heightM, { id }));
}

/** The least height that must be free over a way, as a pane over its width; a line without a width has none. */
export function wayPanes({ geometry, width }: SurroundingFeature, minimumM: number): Solid[] {
  const pane = (ring: readonly Position[]) => solid("clearance", ring, minimumM - PANE_M, minimumM);
  if (width === null) return outlines(geometry).map(pane);
  const halfM = width.typicalM / 2;
  return lines(geometry).flatMap((line) => pairs(line).map(([from, to]) => pane(strip(from, to, halfM, halfM))));
}

/**
 * A line's wires hung between their attachments with their sag in still air, and the legal minimum about them; drawn as short level pieces. Nothing
 * for a line whose heights the plan does not keep.
 */
export function wireSolids({ geometry, wire }: SurroundingFeature): Solid[] {
  const { attachmentsM, sagsM, minimumM } = wire ?? {};
  if (attachmentsM === undefined || sagsM === undefined) return [];
  const solids: Solid[] = [];
  let vertex = 0;
  let span = 0;
  for (const line of lines(geometry)) {
    for (const [from, to] of pairs(line)) {
      const [lowM = 0, highM = 0] = [attachmentsM[vertex], attachmentsM[vertex + 1]];
      const heightAt = (share: number) => lowM + (highM - lowM) * share - (sagsM[span] ?? 0) * parabolaDropShare(share);
      const pieces = Math.min(MOST_PIECES, Math.max(LEAST_PIECES, Math.ceil(Math.abs(highM - lowM) / STEP_M)));
      for (let piece = 0; piece < pieces; piece += 1) {
        const [a, b] = [piece / pieces, (piece + 1) / pieces];
        const box = (part: SolidPart, besideM: number) =>
          solid(
            part,
            strip(between(from, to, a), between(from, to, b), besideM, 0),
            Math.min(heightAt(a), heightAt(b)) - besideM,
            Math.max(heightAt(a), heightAt(b)) + besideM,
          );
        solids.push(box("wire", WIRE_M / 2));
        if (minimumM != null) solids.push(box("clearance", minimumM));
      }
      vertex += 1;
      span += 1;
    }
    vertex += 1;
  }
  return solids;
}

/** A pole up to where the highest wire hangs on it. */
export function poleSolid([lonDeg = 0, latDeg = 0]: Position, heightM: number): Solid {
  const halfM = POLE_M / 2;
  const corners = [
    [-halfM, -halfM],
    [halfM, -halfM],
    [halfM, halfM],
    [-halfM, halfM],
  ].map(([eastM = 0, northM = 0]) => offsetLonLat(lonDeg, latDeg, eastM, northM));
  return solid("pole", corners, 0, heightM);
}

/** A rectangle about the way from one place to another, so far to both sides and beyond both ends. */
export function strip(from: Position, to: Position, besideM: number, beyondM: number): Position[] {
  const [lonDeg = 0, latDeg = 0] = from;
  const [perEast, perNorth] = offsetLonLat(0, latDeg, 1, 1);
  const eastM = (to[0]! - lonDeg) / perEast;
  const northM = (to[1]! - latDeg) / (perNorth - latDeg);
  const lengthM = Math.max(0.01, Math.hypot(eastM, northM));
  const [alongEast, alongNorth] = [eastM / lengthM, northM / lengthM];
  const at = (alongM: number, leftM: number) =>
    offsetLonLat(lonDeg, latDeg, alongEast * alongM - alongNorth * leftM, alongNorth * alongM + alongEast * leftM);
  return [
    at(-beyondM, besideM),
    at(-beyondM, -besideM),
    at(lengthM + beyondM, -besideM),
    at(lengthM + beyondM, besideM),
  ];
}

const between = (from: Position, to: Position, share: number): Position => [
  from[0]! + (to[0]! - from[0]!) * share,
  from[1]! + (to[1]! - from[1]!) * share,
];

const pairs = (line: readonly Position[]): (readonly [Position, Position])[] =>
  line.slice(1).map((to, at) => [line[at]!, to] as const);

function lines(geometry: SurroundingFeature["geometry"]): Position[][] {
  if (geometry.type === "LineString") return [geometry.coordinates];
  return geometry.type === "MultiLineString" ? geometry.coordinates : [];
}

/** Outer rings, open. */
export function outlines(geometry: SurroundingFeature["geometry"]): Position[][] {
  if (geometry.type === "Polygon") return geometry.coordinates.slice(0, 1).map((ring) => ring.slice(0, -1));
  return geometry.type === "MultiPolygon" ? geometry.coordinates.map(([ring = []]) => ring.slice(0, -1)) : [];
}
