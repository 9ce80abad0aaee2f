import fc from "fast-check";
import type { LineString } from "geojson";
import { describe, expect, test } from "vitest";
import type { SurroundingFeature } from "../../../../src/core/model/surroundings.ts";
import { planeOf, toPlane } from "../../../../src/core/plane/plane.ts";
import { streetLines } from "../../../../src/core/zone/streets/street-lines.ts";
import { type StreetNet, streetNet } from "../../../../src/core/zone/streets/street-net.ts";
import { streetPlace } from "../../../../src/core/zone/streets/street-place.ts";
import { streetReach } from "../../../../src/core/zone/streets/street-reach.ts";
import { Streets } from "../../../../src/core/zone/streets/streets.ts";

/** Meters east and north of 10 E, 50 N (a plane's own meridian) in degrees, good to a millimeter for the few hundred meters used here. */
const degrees = ([eastM, northM]: readonly [number, number]): [number, number] => [
  10 + eastM / 71_695.8,
  50 + northM / 111_229.0,
];

const road = (name: string | null, ...points: readonly (readonly [number, number])[]): SurroundingFeature =>
  ({
    id: `road of ${points.length}`,
    layer: "roads",
    name,
    geometry: { type: "LineString", coordinates: points.map(degrees) } satisfies LineString,
  }) as unknown as SurroundingFeature;

const PLANE = planeOf(10);
const EVERYWHERE = { west: 9, south: 49, east: 11, north: 51 };
const netOf = (...roads: SurroundingFeature[]): StreetNet => streetNet(streetLines(roads), PLANE, EVERYWHERE)!;
const vertexAt = (net: StreetNet, at: readonly [number, number]): number => {
  const [x, y] = toPlane(PLANE, ...degrees(at));
  return net.xM.findIndex((xM, vertex) => Math.hypot(xM - x, net.yM[vertex]! - y) < 0.05);
};
const placeAt = (net: StreetNet, at: readonly [number, number], reachM = 30) => {
  const [x, y] = toPlane(PLANE, ...degrees(at));
  return streetPlace(net, x, y, reachM);
};

describe("the net of streets", () => {
  // A cross of two streets that share the vertex (100, 0), and one that ends 1 m from it without sharing one.
  const net = netOf(
    road("East Street", [0, 0], [100, 0], [200, 0]),
    road("North Street", [100, -50], [100, 0], [100, 80]),
    road("Lone Street", [100, 1], [180, 60]),
  );

  test("joins streets where they share a vertex and nowhere else", () => {
    expect(net.xM.length).toBe(7);
    expect(net.edgesAt[vertexAt(net, [100, 0])]!.length).toBe(4);
    const reached = streetReach(net, vertexAt(net, [0, 0]), 1000);
    // 100 + 80 = 180 m to the north end; the lone street is not reached.
    expect(reached.get(vertexAt(net, [100, 80]))).toBeCloseTo(180, 1);
    expect(reached.has(vertexAt(net, [180, 60]))).toBe(false);
  });

  test("ways no farther than asked for are found, the start itself at 0", () => {
    const start = vertexAt(net, [0, 0]);
    const reached = streetReach(net, start, 120);
    expect([...reached.keys()].sort()).toEqual([start, vertexAt(net, [100, 0])].sort());
    expect(reached.get(start)).toBe(0);
  });

  test("a place is on the nearest street within reach, with its side, whichever way the line was drawn", () => {
    const north = placeAt(net, [40, 6])!;
    expect(north.alongM).toBeCloseTo(40, 1);
    expect(north.side).toBe("East Street left");
    expect(placeAt(net, [160, 6])!.side).toBe("East Street left");
    expect(placeAt(net, [40, -6])!.side).toBe("East Street right");
    const backward = netOf(road("East Street", [200, 0], [100, 0], [0, 0]));
    expect(placeAt(backward, [40, 6])!.side).toBe("East Street left");
    expect(placeAt(net, [40, 31])).toBeNull();
    // Beyond the end of a street its end counts.
    expect(placeAt(net, [-10, 0])!.alongM).toBe(0);
  });

  test("a street without a name is told by its id, and areas of roads make no net", () => {
    expect(placeAt(netOf(road(null, [0, 0], [100, 0])), [10, 5])!.side).toBe("road of 2 left");
    const area = { ...road("Square", [0, 0]), geometry: { type: "Polygon", coordinates: [] } };
    expect(streetLines([area as unknown as SurroundingFeature]).lines).toEqual([]);
    expect(new Streets(streetLines([]), [{ lonDeg: 10, latDeg: 50 }]).netAt(10)).toBeNull();
  });
});

test("on random grids the ways are as long as the shortest found by trying every vertex between (Floyd and Warshall)", () => {
  const anyGrid = fc.array(
    fc
      .tuple(fc.nat({ max: 3 }), fc.nat({ max: 3 }), fc.boolean())
      .map(([x, y, isEast]): [[number, number], [number, number]] => [
        [x * 40, y * 30],
        isEast ? [x * 40 + 40, y * 30] : [x * 40, y * 30 + 30],
      ]),
    { minLength: 1, maxLength: 20 },
  );
  fc.assert(
    fc.property(anyGrid, (edges) => {
      const net = netOf(...edges.map(([from, to], at) => road(`${at}`, from, to)));
      const count = net.xM.length;
      const least = Array.from({ length: count }, (_, a) =>
        Float64Array.from({ length: count }, (_, b) => (a === b ? 0 : Infinity)),
      );
      net.from.forEach((a, edge) => {
        const b = net.to[edge]!;
        least[a]![b] = least[b]![a] = Math.min(least[a]![b]!, net.lengthM[edge]!);
      });
      for (let k = 0; k < count; k += 1)
        for (let a = 0; a < count; a += 1)
          for (let b = 0; b < count; b += 1) least[a]![b] = Math.min(least[a]![b]!, least[a]![k]! + least[k]![b]!);
      for (let start = 0; start < count; start += 1) {
        const reached = streetReach(net, start, 100);
        for (let end = 0; end < count; end += 1) {
          // A micrometer: sums of the same lengths in another order.
          if (least[start]![end]! <= 100 - 1e-6) expect(reached.get(end)).toBeCloseTo(least[start]![end]!, 6);
          if (least[start]![end]! > 100 + 1e-6) expect(reached.has(end)).toBe(false);
        }
      }
    }),
    { seed: 31, numRuns: 100 },
  );
});
