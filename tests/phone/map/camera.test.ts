import { describe, expect, test } from "vitest";
import { fitted, inWindow, keptNear, moved, onGround, zoomedAt } from "../../../src/phone/map/camera.ts";
import { streetLabel } from "../../../src/phone/map/street-label.ts";
import { streetLines } from "../../../src/phone/map/world.ts";

const window = { widthPx: 390, heightPx: 700 };
const bounds = [-100, -40, 60, 200] as const;

describe("the camera", () => {
  test("fits bounds into the window, clear of scale and buttons", () => {
    const camera = fitted(bounds, window);
    for (const [xM, yM] of [
      [-100, -40],
      [60, 200],
    ] as const) {
      const [x, y] = inWindow(camera, window, xM, yM);
      expect(x).toBeGreaterThanOrEqual(23.9);
      expect(x).toBeLessThanOrEqual(390 - 23.9);
      expect(y).toBeGreaterThanOrEqual(47.9);
      expect(y).toBeLessThanOrEqual(700 - 71.9);
    }
  });

  test("keeps the ground under the fingers while it zooms, and undoes it exactly", () => {
    const camera = fitted(bounds, window);
    const zoomed = zoomedAt(camera, window, 2, 300, 100);
    const [before, after] = [onGround(camera, window, 300, 100), onGround(zoomed, window, 300, 100)];
    // Floating-point sums of numbers of a few hundred.
    expect(after[0]).toBeCloseTo(before[0], 9);
    expect(after[1]).toBeCloseTo(before[1], 9);
    const back = zoomedAt(zoomed, window, 0.5, 300, 100);
    expect(back.xM).toBeCloseTo(camera.xM, 9);
    expect(back.pxPerM).toBeCloseTo(camera.pxPerM, 9);
  });

  test("moves with the hand and cannot lose the zone", () => {
    const camera = { xM: 0, yM: 0, pxPerM: 2 };
    expect(moved(camera, 20, -10)).toEqual({ xM: -10, yM: 5, pxPerM: 2 });
    expect(keptNear(moved(camera, 1e6, 1e6), bounds, 60)).toEqual({ xM: -160, yM: -100, pxPerM: 2 });
  });
});

describe("street names", () => {
  const [street] = streetLines([
    {
      name: "Elm Street",
      widthM: 7,
      lines: [
        [0, 0, 500, 0],
        [0, 0, 1000, 0, 1000, 1000],
      ],
      areas: [],
    },
  ]);

  test("run along the longest line, on its straight part", () => {
    expect(street!.alongM).toEqual([0, 100, 200]);
    // 0.3 of 200 m is 60 m along the first leg, which a name of 60 m fits: 30 to 90 m.
    expect(streetLabel(street!, 60, () => true)).toEqual({ xM: 60, yM: 0, angleDeg: 0 });
  });

  test("give way to what lies there, and stand nowhere rather than round a corner", () => {
    expect(streetLabel(street!, 60, (xM) => xM > 99)).toMatchObject({ xM: 100, yM: 40, angleDeg: 90 });
    expect(streetLabel(street!, 60, () => false)).toBeNull();
    expect(streetLabel(street!, 150, () => true)).toBeNull();
  });
});
