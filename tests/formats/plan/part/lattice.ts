import type { IsoDate } from "../../../../src/core/units/calendar.ts";
import type { PlanRequest } from "../../../../src/formats/plan/plan-request.ts";

/** In open ocean, on the meridian of a plane, where meters east and west of it are the same to the last bit. */
const ORIGIN = { lonDeg: -139.5, latDeg: 44.25 };
// Meters in one degree at 44.25 degrees north, from the WGS 84 radii of curvature.
const METERS_PER_DEGREE = { lon: 79_868.6, lat: 111_117.1 };

const at = (xM: number, yM: number): [number, number] => [
  ORIGIN.lonDeg + xM / METERS_PER_DEGREE.lon,
  ORIGIN.latDeg + yM / METERS_PER_DEGREE.lat,
];

const bytesOf = (features: readonly unknown[]): Uint8Array =>
  new TextEncoder().encode(JSON.stringify({ type: "FeatureCollection", features }));

/**
 * A scene made of equal distances: two trees of one size at every corner of a lattice of streets 40 m apart, as far from one street as from the other and
 * on the diagonal of a house, ids given again and again. Trees of neighboring corners hide areas of sight together.
 */
export function latticeRequest(cells: number): PlanRequest {
  const features = { trees: [] as unknown[], buildings: [] as unknown[], roads: [] as unknown[] };
  const feature = (properties: object, geometry: object) => ({ type: "Feature", properties, geometry });
  const speeds = ["25 mph", "30 mph"];
  for (let row = 0; row < cells; row += 1) {
    for (let column = 0; column < cells; column += 1) {
      const [xM, yM] = [(column - cells / 2) * 40, row * 40];
      const number = row * cells + column;
      const sizes = { species: "Acer rubrum", dbh: 45, height: 14, crown_base: 0.8, radius: 6 };
      // The same ids again and again: which of two is the first is decided by input order.
      for (const alongM of [7, 14]) {
        const place = { type: "Point", coordinates: at(xM + 7, yM + alongM) };
        features.trees.push(feature({ id: number % 20, ...sizes }, place));
      }
      const corners = [
        [15, 15],
        [25, 15],
        [25, 25],
        [15, 25],
        [15, 15],
      ].map(([dx, dy]) => at(xM + dx!, yM + dy!));
      features.buildings.push(
        feature({ id: `B${number % 7}`, height: 9 }, { type: "Polygon", coordinates: [corners] }),
      );
      const road = { id: `R${number % 5}`, name: "Main", class: "residential", speed: speeds[number % 2], width: 8 };
      features.roads.push(
        feature(road, { type: "LineString", coordinates: [at(xM, yM), at(xM + 40, yM)] }),
        feature(road, { type: "LineString", coordinates: [at(xM, yM), at(xM, yM + 40)] }),
      );
    }
  }
  return {
    revision: 1,
    files: (["trees", "buildings", "roads"] as const).map((layer) => ({
      layer,
      name: `${layer}.geojson`,
      bytes: bytesOf(features[layer]),
      filter: null,
    })),
    columns: {},
    standardJson: null,
    options: {
      asOf: "2026-11-02" as IsoDate,
      units: "us",
      drive: "right",
      place: { hardinessZone: 5, region: "US-WI" },
    },
    crs: null,
    withZones: false,
  };
}
