import initGeosJs from "geos-wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { Neighborhood } from "../../src/core/plane/neighborhood.ts";
import { planeOf, toLonLat, toPlane } from "../../src/core/plane/plane.ts";
import { ShapesBuilder } from "../../src/core/plane/shapes-builder.ts";

/**
 * Source: GEOS 3.13.0 (geos-wasm 3.1.1), GEOSDistance and GEOSContains on the same planar coordinates, written as WKT with 17 digits.
 * A thousand seeded polygons with and without a hole, and lines, of 3 to 400 vertices.
 */
type Geos = Awaited<ReturnType<typeof initGeosJs>>;
let geos: Geos;
beforeAll(async () => {
  geos = await initGeosJs();
});

/** Coordinates of 4.5e6 m resolve a nanometer in doubles; a tenth of a micrometer leaves room for the arithmetic of both. */
const TOLERANCE_M = 1e-7;
const RADIUS_M = 200;

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
  const pointer = geos.Module._malloc(8);
  geos.GEOSDistance(one, other, pointer);
  const value = geos.Module.getValue(pointer, "double");
  geos.Module._free(pointer);
  return value;
}

type Ring = [number, number][];

describe("distances from a trunk", () => {
  it("equal those of GEOS on ten thousand polygons and lines", () => {
    const next = seeded(11);
    const around = new Neighborhood();
    const lonDeg = -123.2;
    const plane = planeOf(lonDeg);
    let worstM = 0;
    let insides = 0;
    for (let round = 0; round < 10_000; round += 1) {
      const [x0, y0] = toPlane(plane, lonDeg + next() * 0.05, 49.2 + next() * 0.1);
      const isArea = round % 3 !== 0;
      const count = 3 + Math.floor(next() ** 3 * 400);
      const size = 2 + next() * 40;
      const rings: Ring[] = isArea ? [star(next, x0, y0, count, 1, size)] : [walk(next, x0, y0, count)];
      if (isArea && count >= 20) rings.push(star(next, x0, y0, 5, 0.2, 0.9));
      // The trunk's own plane and the shape's are one here; the shape goes through longitude and latitude as in a real run.
      const builder = new ShapesBuilder();
      const lines = rings.map((ring) => ring.map(([x, y]) => [...toLonLat(plane, x, y)]));
      if (isArea) builder.addArea(0, lines);
      else builder.addLines(0, lines, 0);
      const shapes = builder.finish().get(plane)!;
      const [tx, ty] = [x0 + (next() - 0.5) * 3 * size, y0 + (next() - 0.5) * 3 * size];
      around.search(shapes, tx, ty, RADIUS_M);
      if (around.itemCount === 0) throw new Error("The shape was not found");
      around.load(0, RADIUS_M);
      const oursM = around.isInside ? 0 : around.nearest.distanceM;

      const packed = Array.from({ length: shapes.parts.starts.length - 1 }, (_, part) => {
        const [from, to] = [shapes.parts.starts[part]!, shapes.parts.starts[part + 1]!];
        return Array.from(
          { length: to - from },
          (_, at) => `${shapes.parts.xy[2 * (from + at)]} ${shapes.parts.xy[2 * (from + at) + 1]}`,
        ).join(",");
      });
      const shape = geometry(
        isArea ? `POLYGON(${packed.map((ring) => `(${ring})`).join(",")})` : `LINESTRING(${packed[0]})`,
      );
      const trunk = geometry(`POINT(${tx} ${ty})`);
      worstM = Math.max(worstM, Math.abs(distance(shape, trunk) - oursM));
      if (isArea) expect(geos.GEOSContains(shape, trunk) === 1).toBe(around.isInside);
      if (around.isInside) insides += 1;
      geos.GEOSGeom_destroy(shape);
      geos.GEOSGeom_destroy(trunk);
    }
    expect(worstM).toBeLessThan(TOLERANCE_M);
    expect(insides).toBeGreaterThan(50);
  });
});

/** A ring that never crosses itself: corners in the order of their angle. */
function star(next: () => number, x0: number, y0: number, count: number, leastM: number, mostM: number): Ring {
  const ring: Ring = Array.from({ length: count }, (_, at) => {
    const angle = ((at + next() * 0.8) * 2 * Math.PI) / count;
    const reachM = leastM + next() * (mostM - leastM);
    return [x0 + Math.cos(angle) * reachM, y0 + Math.sin(angle) * reachM];
  });
  return [...ring, ring[0]!];
}

function walk(next: () => number, x0: number, y0: number, count: number): Ring {
  const line: Ring = [[x0, y0]];
  for (let at = 1; at < count; at += 1) {
    const [x, y] = line[at - 1]!;
    line.push([x + (next() - 0.5) * 8, y + (next() - 0.5) * 8]);
  }
  return line;
}

function seeded(seed: number): () => number {
  let state = seed * 7919;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
