import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitPlaces, type MapFrame, type Placed, type Sheet } from "../../../src/app/map/fit-places.ts";

const SHEET: Sheet = { widthPx: 1000, heightPx: 700, marginPx: 50, corner: { widthPx: 380, heightPx: 150 } };
const BARE: Sheet = { ...SHEET, corner: null };

/** Where a place comes to lie on the sheet, by the definition of web Mercator on tiles of 512 pixels. */
function onSheet(place: Placed, frame: MapFrame, sheet: Sheet): { x: number; y: number } {
  const world = 512 * 2 ** frame.zoom;
  const north = (latDeg: number) => Math.log(Math.tan(Math.PI / 4 + (latDeg * Math.PI) / 360)) / (2 * Math.PI);
  return {
    x: sheet.widthPx / 2 + ((place.lonDeg - frame.lonDeg) / 360) * world,
    y: sheet.heightPx / 2 - (north(place.latDeg) - north(frame.latDeg)) * world,
  };
}

describe("fitPlaces", () => {
  test("two places on the equator fill the width between the margins", () => {
    const places = [
      { lonDeg: -0.45, latDeg: 0 },
      { lonDeg: 0.45, latDeg: 0 },
    ];
    // 0.9 degrees are 0.0025 of the world, 1.28 px at zoom 0; the room is 900 px: log2(900 / 1.28) = 9.4576.
    const frame = fitPlaces(places, BARE, 22)!;
    expect(frame.zoom).toBeCloseTo(Math.log2(900 / 1.28), 9);
    expect(frame.lonDeg).toBeCloseTo(0, 9);
    expect(frame.latDeg).toBeCloseTo(0, 9);
  });

  test("a corner that covers nothing costs nothing", () => {
    // The upper left place lies far below the block.
    const places = [
      { lonDeg: -0.45, latDeg: -0.1 },
      { lonDeg: 0.45, latDeg: -0.1 },
    ];
    expect(fitPlaces(places, SHEET, 22)).toEqual(fitPlaces(places, BARE, 22));
  });

  test("a place in the corner makes the rest move aside", () => {
    const places = [
      { lonDeg: -0.45, latDeg: 0.3 },
      { lonDeg: 0.45, latDeg: -0.3 },
    ];
    const frame = fitPlaces(places, SHEET, 22)!;
    const { x, y } = onSheet(places[0]!, frame, SHEET);
    expect(x > 380 || y > 150).toBe(true);
    expect(frame.zoom).toBeLessThan(fitPlaces(places, BARE, 22)!.zoom);
  });

  test("one place is shown at the closest zoom, beside the corner; none at all is no frame", () => {
    expect(fitPlaces([{ lonDeg: 12, latDeg: 50 }], SHEET, 19)?.zoom).toBe(19);
    expect(fitPlaces([], SHEET, 19)).toBeNull();
  });

  test("every place lies between the margins and beside the corner, wherever it is on earth", () => {
    const place = fc.record({
      lonDeg: fc.double({ min: -0.02, max: 0.02, noNaN: true }),
      latDeg: fc.double({ min: -0.02, max: 0.02, noNaN: true }),
    });
    const middle = fc.record({
      lonDeg: fc.double({ min: -170, max: 170, noNaN: true }),
      latDeg: fc.double({ min: -70, max: 70, noNaN: true }),
    });
    const sheet = fc.record({
      widthPx: fc.integer({ min: 500, max: 3000 }),
      heightPx: fc.integer({ min: 400, max: 2000 }),
      marginPx: fc.constantFrom(20, 44),
      corner: fc.constantFrom(null, { widthPx: 384, heightPx: 152 }),
    });
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 30 }), middle, sheet, (offsets, at, on) => {
        const places = offsets.map(({ lonDeg, latDeg }) => ({
          lonDeg: at.lonDeg + lonDeg,
          latDeg: at.latDeg + latDeg,
        }));
        const frame = fitPlaces(places, on, 19)!;
        for (const one of places) {
          const { x, y } = onSheet(one, frame, on);
          // Thousandths of a pixel: doubles of degrees at zoom 19 keep about a millionth.
          expect(Math.min(x, on.widthPx - x, y, on.heightPx - y)).toBeGreaterThan(on.marginPx - 0.001);
          if (on.corner !== null) expect(x > on.corner.widthPx - 0.001 || y > on.corner.heightPx - 0.001).toBe(true);
        }
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});
