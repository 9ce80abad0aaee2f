import type { Geometry, Position } from "geojson";
import type { Drawing, Shape, Stroke } from "../crown/drawing.ts";
import { area, circle, line, polyline, QUIET, rectangle, THIN } from "../crown/section/path.ts";
import { textWidthMm } from "../crown/section/text-width.ts";
import type { Plan } from "../model/plan.ts";
import type { SurroundingFeature } from "../model/surroundings.ts";
import type { Zone } from "../model/zone.ts";
import { planeOf, toPlane } from "../plane/plane.ts";
import { clipLine, clipRing, type Frame, type XY } from "./clip.ts";
import { mapFurniture } from "./map-furniture.ts";
import { placeNumbers } from "./place-numbers.ts";
import type { ZoneStop } from "./zone-stops.ts";

export interface MapOptions {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Shortest side in meters that a map shows, so that a zone of one tree still lies in its street. */
const LEAST_SHOWN_M = 60;
const MARGIN_M = 8;
const PATH_MM = 0.4;
const STREET_TEXT_MM = 2.3;

/**
 * The map of a zone for black and white print, north up and at true scale: roads, paths, buildings, conductors, the zone's outline, its
 * trees with their crowns, and the walk as a thread numbered in order of work. Other zones' trees are not shown.
 */
export function drawZoneMap(plan: Plan, zone: Zone, stops: readonly ZoneStop[], options: MapOptions): Drawing {
  const { widthMm, heightMm } = options;
  const plane = planeOf(stops[0]?.tree.lonDeg ?? zone.area.coordinates[0]?.[0]?.[0]?.[0] ?? 0);
  const project = ([lonDeg, latDeg]: Position): XY => toPlane(plane, lonDeg!, latDeg!);
  const outline = zone.area.coordinates.flat().map((ring) => ring.map(project));
  const trunks = stops.map(({ tree }) => project([tree.lonDeg, tree.latDeg]));
  const { toPaper, mmPerM } = scaleFor([...outline.flat(), ...trunks], widthMm, heightMm);
  const frame: Frame = { left: 0, top: 0, right: widthMm, bottom: heightMm };
  const paper = (positions: readonly Position[]): XY[] => positions.map((position) => toPaper(project(position)));
  const on = (layer: SurroundingFeature["layer"]) => plan.surroundings.filter((feature) => feature.layer === layer);

  const spots = trunks.map(toPaper);
  const radiiMm = stops.map(({ tree }) => Math.max(0.9, tree.radius.valueM * mmPerM));
  const shapes: Shape[] = [
    area(rectangle(0, 0, widthMm, heightMm), "paper"),
    ...roadShapes(on("roads"), paper, frame, mmPerM),
    ...on("paths").flatMap(({ geometry }) =>
      ways(geometry, paper, frame, { tone: "quiet", widthMm: PATH_MM, dashMm: [0.9, 0.6] }),
    ),
    ...on("buildings").flatMap(({ geometry }) => areas(geometry, paper, frame, "ground", THIN)),
    ...on("conductors").flatMap(({ geometry }) =>
      ways(geometry, paper, frame, { tone: "ink", widthMm: 0.18, dashMm: [3, 0.7, 0.4, 0.7] }),
    ),
    // Under the trees: none of them may vanish behind the scale bar.
    ...mapFurniture(frame, mmPerM, plan.options.units),
    ...outline.map((ring) => line(ring.map(toPaper), { tone: "ink", widthMm: 0.5, dashMm: [0.6, 0.9] })),
    ...spots.map(([x, y], at) => area(circle(x, y, radiiMm[at]!), "crown", THIN)),
    ...streetNames(on("roads"), paper, frame),
    ...(spots.length > 1 ? [line(spots, { tone: "ink", widthMm: 0.35 })] : []),
    ...spots.map(([x, y]) => area(circle(x, y, 0.55), "ink")),
    ...placeNumbers(spots, radiiMm, frame),
    area(rectangle(0.15, 0.15, widthMm - 0.15, heightMm - 0.15), "none", { tone: "ink", widthMm: 0.3 }),
  ];
  return { widthMm, heightMm, shapes, description: describe(zone, stops) };
}

/** Map of plane meters to paper that shows all the points with a margin, y downward. */
function scaleFor(points: readonly XY[], widthMm: number, heightMm: number) {
  let west = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (const [x, y] of points) {
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  }
  const acrossM = Math.max(LEAST_SHOWN_M * (widthMm / heightMm), east - west + 2 * MARGIN_M);
  const upM = Math.max(LEAST_SHOWN_M, north - south + 2 * MARGIN_M);
  const mmPerM = Math.min(widthMm / acrossM, heightMm / upM);
  const middle: XY = [(west + east) / 2, (south + north) / 2];
  const toPaper = ([x, y]: XY): XY => [widthMm / 2 + (x - middle[0]) * mmPerM, heightMm / 2 - (y - middle[1]) * mmPerM];
  return { toPaper, mmPerM };
}

type ToPaper = (positions: readonly Position[]) => XY[];

/** All roads' edges first, then their surfaces, so that crossings stay open. */
function roadShapes(roads: readonly SurroundingFeature[], paper: ToPaper, frame: Frame, mmPerM: number): Shape[] {
  const edges: Shape[] = [];
  const surfaces: Shape[] = [];
  for (const { geometry, width } of roads) {
    const widthMm = Math.max(1, (width?.typicalM ?? 6) * mmPerM);
    const grown = { left: -widthMm, top: -widthMm, right: frame.right + widthMm, bottom: frame.bottom + widthMm };
    edges.push(...ways(geometry, paper, grown, { tone: "quiet", widthMm: widthMm + 0.4 }));
    surfaces.push(...ways(geometry, paper, grown, { tone: "paper", widthMm }));
    edges.push(...areas(geometry, paper, frame, "paper", { ...QUIET, widthMm: 0.4 }));
    surfaces.push(...areas(geometry, paper, frame, "paper"));
  }
  return [...edges, ...surfaces];
}

function ways(geometry: Geometry, paper: ToPaper, frame: Frame, stroke: Stroke): Shape[] {
  return lineParts(geometry).flatMap((part) => clipLine(paper(part), frame).map((points) => line(points, stroke)));
}

function areas(geometry: Geometry, paper: ToPaper, frame: Frame, fill: "ground" | "paper", stroke?: Stroke): Shape[] {
  const polygons =
    geometry.type === "Polygon" ? [geometry.coordinates] : geometry.type === "MultiPolygon" ? geometry.coordinates : [];
  return polygons.flatMap((rings) => {
    const outer = clipRing(paper(rings[0] ?? []), frame);
    return outer.length < 3 ? [] : [area(polyline(outer, true), fill, stroke)];
  });
}

const lineParts = (geometry: Geometry): readonly (readonly Position[])[] =>
  geometry.type === "LineString"
    ? [geometry.coordinates]
    : geometry.type === "MultiLineString"
      ? geometry.coordinates
      : [];

/** Each street's name once, along its longest straight piece on the map, where that is long enough for it. */
function streetNames(roads: readonly SurroundingFeature[], paper: ToPaper, frame: Frame): Shape[] {
  const best = new Map<string, { from: XY; to: XY; lengthMm: number }>();
  for (const { name, geometry } of roads) {
    if (name === null) continue;
    for (const part of lineParts(geometry)) {
      for (const points of clipLine(paper(part), frame)) {
        for (let at = 1; at < points.length; at += 1) {
          const from = points[at - 1]!;
          const to = points[at]!;
          const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
          if (lengthMm > (best.get(name)?.lengthMm ?? 0)) best.set(name, { from, to, lengthMm });
        }
      }
    }
  }
  return [...best].flatMap(([name, { from, to, lengthMm }]): Shape[] => {
    if (textWidthMm(name, STREET_TEXT_MM) > lengthMm - 4) return [];
    const [left, right] = from[0] <= to[0] ? [from, to] : [to, from];
    const angle = Math.atan2(right[1] - left[1], right[0] - left[0]);
    // A quarter of the way along rather than half, since trees crowd the middle.
    const x = left[0] + (right[0] - left[0]) * 0.25 - Math.sin(angle) * STREET_TEXT_MM * 0.33;
    const y = left[1] + (right[1] - left[1]) * 0.25 + Math.cos(angle) * STREET_TEXT_MM * 0.33;
    return [
      {
        type: "text",
        xMm: x,
        yMm: y,
        text: name,
        sizeMm: STREET_TEXT_MM,
        anchor: "middle",
        tone: "quiet",
        rotateDeg: (angle * 180) / Math.PI,
      },
    ];
  });
}

const describe = (zone: Zone, stops: readonly ZoneStop[]): string =>
  `Map of ${zone.name}, north up: ${stops.length} stops in order of work, ` +
  `${stops.map(({ number, tree }) => `${number} ${tree.id}`).join(", ")}.`;
