import { createExpression } from "@maplibre/maplibre-gl-style-spec";
import { expect, test } from "vitest";
import { METERS_PER_PX_AT_ZOOM_0 } from "../../../src/map/features/ground-scale.ts";
import { groundPx } from "../../../src/map/portable/ground-px.ts";

const EXTENT = 8192;

/** The tile over a place, and where in it the place is: Web Mercator, 2^zoom tiles a side. */
function tileAt(lonDeg: number, latDeg: number, z: number) {
  const sine = Math.sin((latDeg * Math.PI) / 180);
  const x = ((lonDeg + 180) / 360) * 2 ** z;
  const y = (0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI)) * 2 ** z;
  const at = { x: Math.round((x % 1) * EXTENT), y: Math.round((y % 1) * EXTENT) };
  return { canonical: { z, x: Math.floor(x), y: Math.floor(y) }, geometry: [[at]] };
}

/** Pixels of 5 m at a place and zoom, by the specification's own evaluator. */
function pxOf5M(lonDeg: number, latDeg: number, zoom: number): number {
  const spec = {
    type: "number",
    "property-type": "data-driven",
    expression: { interpolated: true, parameters: ["zoom", "feature"] },
  };
  const made = createExpression(groundPx(["get", "length"]), "layers[0].paint.circle-radius", spec as never);
  if (made.result === "error") throw new Error(made.value.map(({ message }) => message).join());
  const { canonical, geometry } = tileAt(lonDeg, latDeg, Math.min(18, Math.floor(zoom)));
  const feature = { type: 1, properties: { length: 5 }, geometry };
  return made.value.evaluate({ zoom }, feature as never, {}, canonical as never) as number;
}

test.each([
  [0, 0],
  [-139.5, 44.25],
  [13.4, 52.5],
  [151.2, -33.9],
  [25.5, 65],
  [179.9, -45],
  [-90, 30],
])("a length on the ground is as long on the screen as Web Mercator draws it, at %d, %d", (lonDeg, latDeg) => {
  for (const zoom of [13, 16, 17.5, 18, 19, 20, 22]) {
    const exactPx = (5 * 2 ** zoom) / (METERS_PER_PX_AT_ZOOM_0 * Math.cos((latDeg * Math.PI) / 180));
    // The percent that the cosine is promised to.
    expect(Math.abs(pxOf5M(lonDeg, latDeg, zoom) / exactPx - 1)).toBeLessThan(0.01);
  }
});
