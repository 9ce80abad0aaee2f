import type { FlatDm, MapWay, PhoneMap } from "../../core/packet/phone/phone-map.ts";
import { shape } from "../element.ts";

const DM = 10;
/** Width drawn for a road whose width is not known, meters. */
const ROAD_M = 6;
const PATH_M = 1.5;

/** Everything on the map that scales with it, in decimeters: surroundings first, then the zone, crowns and the walk. */
export function worldShapes(map: PhoneMap): SVGElement[] {
  return [
    ...map.roads.flatMap(({ areas }) => areas.map((area) => path(area, true, "road-area"))),
    ...stroked(map.roads, "road-edge", (widthM) => (widthM ?? ROAD_M) * DM + 5),
    ...stroked(map.roads, "road", (widthM) => (widthM ?? ROAD_M) * DM),
    ...map.paths.flatMap(({ areas }) => areas.map((area) => path(area, true, "path-area"))),
    ...stroked(map.paths, "path-edge", (widthM) => (widthM ?? PATH_M) * DM + 4),
    ...stroked(map.paths, "path", (widthM) => (widthM ?? PATH_M) * DM),
    ...map.buildings.map((ring) => path(ring, true, "building")),
    ...map.zone.map((ring) => path(ring, true, "zone-outline")),
    ...map.trees.map(({ crown }) => path(crown, true, "crown")),
    path(
      map.trees.flatMap(({ at }) => at),
      false,
      "thread",
    ),
    ...map.trees.map(({ at: [cx, cy] }) => shape("circle", { cx, cy, r: 3, class: "trunk" })),
    ...map.conductors.map((line) => path(line, false, "conductor")),
  ];
}

const stroked = (
  ways: readonly MapWay[],
  className: string,
  widthDm: (widthM: number | null) => number,
): SVGElement[] =>
  ways.flatMap(({ lines, widthM }) =>
    lines.map((line) => {
      const stroke = path(line, false, className);
      stroke.setAttribute("stroke-width", String(Math.round(widthDm(widthM))));
      return stroke;
    }),
  );

function path(points: FlatDm, isClosed: boolean, className: string): SVGElement {
  let d = "";
  for (let at = 0; at + 1 < points.length; at += 2) d += `${at === 0 ? "M" : "L"}${points[at]} ${points[at + 1]}`;
  return shape("path", { d: isClosed ? `${d}Z` : d, class: className });
}

/** A street's longest line with the length up to each of its points, for writing its name along it. */
export interface StreetLine {
  readonly name: string;
  /** Meters from the map's origin. */
  readonly points: readonly (readonly [xM: number, yM: number])[];
  readonly alongM: readonly number[];
}

/** Each named street's longest line. */
export function streetLines(roads: readonly MapWay[]): StreetLine[] {
  const best = new Map<string, StreetLine>();
  for (const { name, lines } of roads) {
    if (name === null) continue;
    for (const line of lines) {
      const points = Array.from(
        { length: line.length / 2 },
        (_, at) => [line[2 * at]! / DM, line[2 * at + 1]! / DM] as const,
      );
      const alongM = [0];
      for (let at = 1; at < points.length; at += 1) {
        const [[ax, ay], [bx, by]] = [points[at - 1]!, points[at]!];
        alongM.push(alongM[at - 1]! + Math.hypot(bx - ax, by - ay));
      }
      if (alongM.at(-1)! > (best.get(name)?.alongM.at(-1) ?? 0)) best.set(name, { name, points, alongM });
    }
  }
  return [...best.values()];
}
