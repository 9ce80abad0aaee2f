import { expect, test } from "vitest";
import { barLength } from "../../../src/core/packet/map-furniture.ts";
import { placeNumbers } from "../../../src/core/packet/place-numbers.ts";
import { drawZoneMap } from "../../../src/core/packet/zone-map.ts";
import { zoneStops } from "../../../src/core/packet/zone-stops.ts";
import { smallPlan, smallZone } from "./small-plan.ts";

test("the scale bar is the longest round length that fits", () => {
  // At 1 mm per m 45 m fit: 20. At 1 mm per ft (3.28 mm per m) 45 ft fit: 20.
  expect(barLength(1, "metric")).toEqual({ count: 20, lengthMm: 20 });
  expect(barLength(1 / 0.3048, "us").count).toBe(20);
});

test("numbers stand apart", () => {
  const spots = Array.from({ length: 12 }, (_, at) => [20 + at * 2, 30] as const);
  const shapes = placeNumbers(
    spots,
    spots.map(() => 1),
    { left: 0, top: 0, right: 100, bottom: 60 },
  );
  const centers = shapes.flatMap((shape) => (shape.type === "text" ? [[shape.xMm, shape.yMm] as const] : []));
  expect(centers).toHaveLength(12);
  centers.forEach(([x, y], at) => {
    for (const [otherX, otherY] of centers.slice(at + 1))
      expect(Math.hypot(otherX - x, otherY - y)).toBeGreaterThan(3.4);
  });
});

test("the map is at true scale and stays on its sheet", () => {
  const map = drawZoneMap(smallPlan, smallZone, zoneStops(smallPlan, smallZone), { widthMm: 182, heightMm: 98 });
  const discs = map.shapes.flatMap((shape) => (shape.type === "path" && shape.fill === "crown" ? [shape.d] : []));
  const middle = (d: string) => {
    const xs = (d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number).filter((_, at) => at % 2 === 0);
    return { x: (Math.min(...xs) + Math.max(...xs)) / 2, radius: (Math.max(...xs) - Math.min(...xs)) / 2 };
  };
  const [first, second] = discs.map(middle);
  // T-101 stands 14 m west of T-102 and has a radius of 5.6 m; coordinates are written to 0.01 mm.
  expect((second!.x - first!.x) / first!.radius).toBeCloseTo(14 / 5.6, 2);
});
