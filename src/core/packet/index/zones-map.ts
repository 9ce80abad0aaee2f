import type { Geometry, Position } from "geojson";
import type { Drawing, Shape, Stroke } from "../../crown/drawing.ts";
import { area, line, polyline, rectangle } from "../../crown/section/path.ts";
import { textWidthMm } from "../../crown/section/text-width.ts";
import type { Plan } from "../../model/plan.ts";
import type { ZoneState } from "../../model/terms.ts";
import type { Zone } from "../../model/zone.ts";
import { planeOf, toPlane } from "../../plane/plane.ts";
import { clipLine, type Frame, type XY } from "../clip.ts";
import { mapFurniture } from "../map-furniture.ts";

/** Size in millimeters. As wide as a phone, its numbers come to 10 px. */
const WIDTH_MM = 130;
/** As high as the zones ask for, within these. */
const LEAST_HEIGHT_MM = 60;
const MOST_HEIGHT_MM = 120;
const NUMBER_MM = 3.6;
/** Room in meters around the zones. */
const MARGIN_M = 60;
/** Points of a road nearer to each other on paper are drawn as one. */
const THINNING_MM = 0.4;
/** A part smaller than this is filled: no pattern would show. */
const SMALL_MM = 3;
/** Beside so many roads, pieces shorter than this are left out. */
const MANY_ROADS = 2000;
const SHORT_MM = 3;
/** Where a number stands, tried in this order, in heights of a letter from the middle of the zone's largest part. */
const PLACES: readonly XY[] = [0, 1.2, 2.4, 3.6].flatMap((away): XY[] =>
  away === 0
    ? [[0, 0]]
    : [
        [away, 0],
        [-away, 0],
        [0, away],
        [0, -away],
        [away, -away],
        [-away, -away],
        [away, away],
        [-away, away],
      ],
);

const OUTLINES: Readonly<Record<ZoneState, { readonly stroke: Stroke; readonly hatched: boolean }>> = {
  draft: { stroke: { tone: "ink", widthMm: 0.45, dashMm: [1.1, 0.7] }, hatched: false },
  issued: { stroke: { tone: "ink", widthMm: 0.45 }, hatched: true },
  "under-way": { stroke: { tone: "ink", widthMm: 0.9 }, hatched: true },
  done: { stroke: { tone: "quiet", widthMm: 0.45 }, hatched: false },
};

/** What the outlines mean, for beside the map. */
export const OUTLINE_WORDS = "Dashed: draft. Hatched: issued. Hatched with a heavy edge: under way. Gray: done.";

/** Zones over the streets, north up and to scale, numbered from 1 in the order given; in ink and hatches, so that it prints in black and white. */
export function drawZonesMap(plan: Plan, zones: readonly Zone[]): Drawing {
  const plane = planeOf(zones[0]?.area.coordinates[0]?.[0]?.[0]?.[0] ?? 0);
  const project = ([lonDeg, latDeg]: Position): XY => toPlane(plane, lonDeg!, latDeg!);
  const parts = zones.map(({ area: { coordinates } }) => coordinates.map((rings) => (rings[0] ?? []).map(project)));
  const { toPaper, mmPerM, heightMm } = scaleFor(parts.flat(2));
  const frame: Frame = { left: 0, top: 0, right: WIDTH_MM, bottom: heightMm };
  const onPaper = parts.map((rings) => rings.map((ring) => ring.map(toPaper)));
  return {
    widthMm: WIDTH_MM,
    heightMm,
    shapes: [
      area(rectangle(0, 0, WIDTH_MM, heightMm), "paper"),
      ...streets(plan, (position) => toPaper(project(position)), frame),
      ...mapFurniture(frame, mmPerM, plan.options.units),
      ...onPaper.flatMap((rings, at) => rings.map((ring) => outline(thinned(ring), zones[at]!.state))),
      ...numbers(onPaper, frame),
    ],
    description: `Map of ${zones.length} work zones, north up, numbered as in the list: ${zones.map(({ name }, at) => `${at + 1} ${name}`).join(", ")}.`,
  };
}

function outline(ring: readonly XY[], state: ZoneState): Shape {
  const { stroke, hatched } = OUTLINES[state];
  const d = polyline(ring, true);
  if (lengthOf(ring) < 3 * SMALL_MM)
    return { type: "path", d, fill: stroke.tone, stroke: { tone: stroke.tone, widthMm: 0.3 } };
  return { type: "path", d, fill: hatched ? "clearance" : "none", hatched, stroke };
}

function scaleFor(points: readonly XY[]) {
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  }
  if (points.length === 0) [west, east, south, north] = [0, 0, 0, 0];
  const [acrossM, upM] = [east - west + 2 * MARGIN_M, north - south + 2 * MARGIN_M];
  const heightMm = Math.min(MOST_HEIGHT_MM, Math.max(LEAST_HEIGHT_MM, Math.ceil((WIDTH_MM * upM) / acrossM)));
  const mmPerM = Math.min(WIDTH_MM / acrossM, heightMm / upM);
  const middle: XY = [(west + east) / 2, (south + north) / 2];
  const toPaper = ([x, y]: XY): XY => [
    WIDTH_MM / 2 + (x - middle[0]) * mmPerM,
    heightMm / 2 - (y - middle[1]) * mmPerM,
  ];
  return { toPaper, mmPerM, heightMm };
}

/** Center lines of the roads, and the edges of those that are areas. */
function streets(plan: Plan, paper: (position: Position) => XY, frame: Frame): Shape[] {
  const roads = plan.surroundings.filter(({ layer }) => layer === "roads");
  const leastMm = roads.length > MANY_ROADS ? SHORT_MM : 0;
  return roads.flatMap(({ geometry }) =>
    linesOf(geometry).flatMap((positions) =>
      clipLine(thinned(positions.map(paper)), frame)
        .filter((points) => lengthOf(points) >= leastMm)
        .map((points) => line(points, { tone: "quiet", widthMm: 0.3 })),
    ),
  );
}

function linesOf(geometry: Geometry): readonly (readonly Position[])[] {
  switch (geometry.type) {
    case "LineString":
      return [geometry.coordinates];
    case "MultiLineString":
    case "Polygon":
      return geometry.coordinates;
    case "MultiPolygon":
      return geometry.coordinates.flat();
    default:
      return [];
  }
}

/** Points at least so far from the last kept one that the eye tells them apart; the first and last stay. */
function thinned(points: readonly XY[]): XY[] {
  const kept: XY[] = [];
  points.forEach((point, at) => {
    const last = kept.at(-1);
    const isFar = last === undefined || Math.hypot(point[0] - last[0], point[1] - last[1]) >= THINNING_MM;
    if (isFar || at === points.length - 1) kept.push(point);
  });
  return kept;
}

const lengthOf = (points: readonly XY[]): number =>
  points.reduce((sum, [x, y], at) => {
    const before = points[at - 1];
    return before === undefined ? 0 : sum + Math.hypot(x - before[0], y - before[1]);
  }, 0);

/** Each number near its zone's largest part, on paper of its own, where it lies on no other; a thin line leads to one that had to go aside. */
function numbers(zones: readonly (readonly (readonly XY[])[])[], frame: Frame): Shape[] {
  const placed: Frame[] = [];
  return zones.flatMap((rings, at): Shape[] => {
    const largest = rings.reduce<readonly XY[]>((most, ring) => (lengthOf(ring) > lengthOf(most) ? ring : most), []);
    if (largest.length === 0) return [];
    const words = String(at + 1);
    const half = textWidthMm(words, NUMBER_MM, true) / 2 + 0.5;
    const [x, y] = middleOf(largest);
    const boxAt = ([dx, dy]: XY): Frame => ({
      left: x + dx * NUMBER_MM - half,
      right: x + dx * NUMBER_MM + half,
      top: y + dy * NUMBER_MM - NUMBER_MM / 2 - 0.2,
      bottom: y + dy * NUMBER_MM + NUMBER_MM / 2 + 0.2,
    });
    const box =
      PLACES.map(boxAt).find((one) => isInside(one, frame) && !placed.some((other) => meet(one, other))) ??
      boxAt([0, 0]);
    placed.push(box);
    const [left, middleY] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    return [
      ...(left === x && middleY === y
        ? []
        : [
            line(
              [
                [x, y],
                [left, middleY],
              ],
              { tone: "ink", widthMm: 0.25 },
            ),
          ]),
      area(rectangle(box.left, box.top, box.right, box.bottom), "paper", { tone: "ink", widthMm: 0.2 }),
      {
        type: "text",
        xMm: left,
        yMm: middleY + NUMBER_MM * 0.33,
        text: words,
        sizeMm: NUMBER_MM,
        anchor: "middle",
        tone: "ink",
        bold: true,
      },
    ];
  });
}

function middleOf(ring: readonly XY[]): XY {
  const sum = ring.reduce<XY>(([x, y], point) => [x + point[0], y + point[1]], [0, 0]);
  return [sum[0] / ring.length, sum[1] / ring.length];
}

const isInside = (one: Frame, frame: Frame): boolean =>
  one.left > frame.left && one.right < frame.right && one.top > frame.top && one.bottom < frame.bottom;

const meet = (one: Frame, other: Frame): boolean =>
  one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
