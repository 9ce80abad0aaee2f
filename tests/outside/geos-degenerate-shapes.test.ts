import initGeosJs from "geos-wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyBetween, gapToOutlineM } from "../../src/core/conflict/gap-to-outline.ts";
import { rayEast, rayNorth } from "../../src/core/conflict/removal-region.ts";
import { RAY_COUNT } from "../../src/core/model/conflict.ts";
import { Neighborhood } from "../../src/core/plane/neighborhood.ts";
import { planeOf, toLonLat, toPlane } from "../../src/core/plane/plane.ts";
import { ShapesBuilder } from "../../src/core/plane/shapes-builder.ts";

/**
 * Source: GEOS 3.13.0 (geos-wasm 3.1.1), GEOSDistance and GEOSContains on the same planar coordinates, written as WKT with 17 digits.
 * Ten thousand seeded polygons and lines, most of them degenerate: vertices given twice, segments of no length, spikes that go back on
 * themselves along a line, collinear vertices, holes that touch the outer ring or another hole in one vertex, slivers of a millimeter; searched
 * from anywhere, from vertices, from points of edges and from points in line with them.
 */
type Geos = Awaited<ReturnType<typeof initGeosJs>>;
type Point = readonly [number, number];

/** Coordinates of 4.5e6 m resolve a nanometer in doubles; a tenth of a micrometer leaves room for the arithmetic of both. */
const TOLERANCE_M = 1e-7;
const RADIUS_M = 200;
const CASES = 10_000;

let geos: Geos;
let out = 0;
beforeAll(async () => {
  geos = await initGeosJs();
  out = geos.Module._malloc(8);
});

function geometry(wkt: string): number {
  const bytes = wkt.length + 1;
  const pointer = geos.Module._malloc(bytes);
  geos.Module.stringToUTF8(wkt, pointer, bytes);
  const read = geos.GEOSGeomFromWKT(pointer);
  geos.Module._free(pointer);
  if (read === 0) throw new Error(`GEOS could not read ${wkt.slice(0, 80)}`);
  return read;
}

function distance(one: number, other: number): number {
  if (geos.GEOSDistance(one, other, out) !== 1) throw new Error("GEOS could not measure");
  return geos.Module.getValue(out, "double");
}

describe("degenerate shapes", () => {
  it(`are as far from a point, and hold it, as GEOS says in ${CASES} cases`, () => {
    const next = seeded(2024);
    const around = new Neighborhood();
    const plane = planeOf(-123.2);
    const [x0, y0] = toPlane(plane, -123.2, 49.2);
    const met = { inside: 0, outside: 0, boundary: 0, outlines: 0, crossed: 0 };
    let worstM = 0;
    for (let round = 0; round < CASES; round += 1) {
      const isArea = round % 3 !== 0;
      const given = isArea ? area(next) : [degenerate(next, walk(next))];
      const builder = new ShapesBuilder();
      const lines = given.map((ring) => ring.map(([x, y]) => [...toLonLat(plane, x0 + x, y0 + y)]));
      if (isArea) builder.addArea(0, lines);
      else builder.addLines(0, lines, 0);
      const shapes = builder.finish().get(plane)!;
      const parts = Array.from({ length: shapes.parts.starts.length - 1 }, (_, part): Point[] => {
        const [from, to] = [shapes.parts.starts[part]!, shapes.parts.starts[part + 1]!];
        return Array.from(
          { length: to - from },
          (_, at): Point => [shapes.parts.xy[2 * (from + at)]!, shapes.parts.xy[2 * (from + at) + 1]!],
        );
      });
      const trunk = trunkFor(next, parts, [x0, y0]);
      around.search(shapes, trunk[0], trunk[1], RADIUS_M);
      if (around.itemCount === 0) throw new Error(`Case ${round}: the shape was not found`);
      around.load(0, RADIUS_M);

      const text = parts.map((part) => `(${part.map(([x, y]) => `${x} ${y}`).join(",")})`);
      const shape = geometry(isArea ? `POLYGON(${text.join(",")})` : `LINESTRING${text[0]}`);
      const boundary = geometry(`MULTILINESTRING(${text.join(",")})`);
      const point = geometry(`POINT(${trunk[0]} ${trunk[1]})`);
      const toShapeM = distance(shape, point);
      const toBoundaryM = distance(boundary, point);
      worstM = Math.max(worstM, Math.abs(toBoundaryM - around.nearest.distanceM));
      // On the boundary itself either answer is right: the distance is 0.
      if (toBoundaryM < TOLERANCE_M) met.boundary += 1;
      else {
        expect(around.isInside, `case ${round}`).toBe(isArea && geos.GEOSContains(shape, point) === 1);
        expect(Math.abs((around.isInside ? 0 : around.nearest.distanceM) - toShapeM)).toBeLessThan(TOLERANCE_M);
        met[around.isInside ? "inside" : "outside"] += 1;
        if (isArea && !around.isInside && round % 4 === 1) {
          const size = crownSize(next);
          const outline = geometry(outlineText(size, trunk));
          const gapM = gapToOutlineM(around, size, emptyBetween());
          const expectedM = distance(shape, outline);
          if (expectedM > TOLERANCE_M) expect(Math.abs(gapM - expectedM), `case ${round}`).toBeLessThan(TOLERANCE_M);
          else expect(gapM, `case ${round}`).toBeLessThan(TOLERANCE_M);
          met[expectedM > TOLERANCE_M ? "outlines" : "crossed"] += 1;
          geos.GEOSGeom_destroy(outline);
        }
      }
      for (const one of [shape, boundary, point]) geos.GEOSGeom_destroy(one);
    }
    expect(worstM).toBeLessThan(TOLERANCE_M);
    // Enough of each to mean something.
    for (const count of Object.values(met)) expect(count).toBeGreaterThan(300);
  }, 180_000);
});

/** An outer ring, and holes that touch it or each other in one vertex. */
function area(next: () => number): Point[][] {
  const outer = star(next, 0, 0, 8 + Math.floor(next() * 12), 3, 12);
  const rings = [degenerate(next, closed(outer))];
  const kind = next();
  if (kind < 0.3) {
    // From a corner of the outer ring toward its middle: a hole that shares that corner.
    const [x, y] = outer[0]!;
    rings.push(closed([outer[0]!, [x * 0.3 - y * 0.02, y * 0.3 + x * 0.02], [x * 0.3 + y * 0.02, y * 0.3 - x * 0.02]]));
  } else if (kind < 0.6) {
    // Two holes about the middle that share the middle.
    rings.push(
      closed([
        [0, 0],
        [0.8, 0.4],
        [0.8, -0.4],
      ]),
      degenerate(
        next,
        closed([
          [0, 0],
          [-0.8, 0.4],
          [-0.8, -0.4],
        ]),
      ),
    );
  } else if (kind < 0.7) {
    // A sliver, a millimeter wide.
    rings.push(
      closed([
        [-1, 0],
        [1, 0],
        [1, 0.001],
        [-1, 0.001],
      ]),
    );
  }
  return rings;
}

const closed = (ring: readonly Point[]): Point[] => [...ring, ring[0]!];

/** Puts in vertices that change no shape: doubles, and points of the edges, which in whole meters are truly collinear. */
function degenerate(next: () => number, ring: readonly Point[]): Point[] {
  const more: Point[] = [];
  ring.forEach((point, at) => {
    more.push(point);
    if (next() < 0.2) more.push(point);
    if (next() < 0.05) more.push(point, point);
    const to = ring[at + 1];
    if (to !== undefined && next() < 0.2) more.push([(point[0] + to[0]) / 2, (point[1] + to[1]) / 2]);
  });
  return more;
}

/** A line of steps of whole meters along both axes and aslant, some of no length, some straight back. */
function walk(next: () => number): Point[] {
  const line: Point[] = [[0, 0]];
  const steps = 1 + Math.floor(next() * 20);
  for (let at = 0; at < steps; at += 1) {
    const [x, y] = line[at]!;
    const step = (): number => Math.floor(next() * 7) - 3;
    if (next() < 0.15 && at > 0) line.push(line[at - 1]!);
    else line.push([x + step(), y + (next() < 0.4 ? 0 : step())]);
  }
  return line;
}

function star(next: () => number, x: number, y: number, corners: number, leastM: number, mostM: number): Point[] {
  return Array.from({ length: corners }, (_, at): Point => {
    const angle = ((at + next() * 0.7) * 2 * Math.PI) / corners;
    const reachM = leastM + next() * (mostM - leastM);
    return [x + Math.cos(angle) * reachM, y + Math.sin(angle) * reachM];
  });
}

/** A place to search from: anywhere, a vertex, a point of an edge, the extension of an edge, or level with a vertex. */
function trunkFor(next: () => number, parts: readonly (readonly Point[])[], [x0, y0]: Point): Point {
  const part = parts[Math.floor(next() * parts.length)]!;
  const at = Math.floor(next() * (part.length - 1));
  const [from, to] = [part[at]!, part[at + 1]!];
  const kind = next();
  const along = (share: number): Point => [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
  if (kind < 0.1) return from;
  if (kind < 0.2) return along(next());
  if (kind < 0.35) return along(1 + next() * 3);
  if (kind < 0.5) return [x0 + (next() - 0.5) * 30, from[1]];
  return [x0 + (next() - 0.5) * 30, y0 + (next() - 0.5) * 30];
}

const crownSize = (next: () => number) => ({
  heightM: 10,
  baseM: 2,
  northM: 0.5 + next() * 5,
  eastM: 0.5 + next() * 5,
  southM: 0.5 + next() * 5,
  westM: 0.5 + next() * 5,
  habit: "ellipsoid" as const,
});

/** The crown's outline as the engine's polygon of 120 corners: a circle's, stretched in each quadrant by its two radii. */
function outlineText(size: ReturnType<typeof crownSize>, [x, y]: Point): string {
  const corner = (ray: number): string => {
    const [east, north] = [rayEast(ray % RAY_COUNT), rayNorth(ray % RAY_COUNT)];
    return `${x + east * (east >= 0 ? size.eastM : size.westM)} ${y + north * (north >= 0 ? size.northM : size.southM)}`;
  };
  return `POLYGON((${Array.from({ length: RAY_COUNT + 1 }, (_, ray) => corner(ray)).join(",")}))`;
}

/** Park and Miller's minimal standard generator. */
function seeded(seed: number): () => number {
  let state = seed * 7919;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
