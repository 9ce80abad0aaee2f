import { expect, test } from "vitest";
import { toPlane } from "../../../src/core/plane/plane.ts";
import { METERS_PER_PX_AT_ZOOM_0, offsetLonLat, zoomAtPx } from "../../../src/map/features/ground-scale.ts";

test("a pixel at zoom 0 on the equator is the equator over 512", () => {
  expect(METERS_PER_PX_AT_ZOOM_0).toBeCloseTo(40_075_016.686 / 512, 3);
});

test("14 pixels for 7 m: two pixels a meter", () => {
  const zoom = zoomAtPx(7, 14, 60);
  // At 60 degrees a pixel is half of what it is on the equator.
  expect((METERS_PER_PX_AT_ZOOM_0 * 0.5) / 2 ** zoom).toBeCloseTo(0.5, 9);
});

test.each([-33.9, 0, 44.25, 64.1])("a step of 6 m east and 8 m north is 10 m in the plane at latitude %f", (latDeg) => {
  const [x0, y0] = toPlane(720, 180, latDeg);
  const [x1, y1] = toPlane(720, ...offsetLonLat(180, latDeg, 6, 8));
  // A millimeter: the plane's own scale error is under 0.01 mm here.
  expect(x1 - x0).toBeCloseTo(6, 3);
  expect(y1 - y0).toBeCloseTo(8, 3);
});
