import type { Geometry } from "geojson";
import { expect, it } from "vitest";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import type { Layer } from "../../../src/core/model/terms.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

const POINT: Geometry = { type: "Point", coordinates: [-123, 49] };
const LINE: Geometry = {
  type: "LineString",
  coordinates: [
    [-123, 49],
    [-123.001, 49],
  ],
};

const found = (layer: Layer, geometry: Geometry, rows: readonly Record<string, unknown>[]) => {
  const features: SourceFeature[] = rows.map((properties, index) => ({
    layer,
    file: `${layer}.geojson`,
    index,
    ordinal: index,
    id: null,
    properties,
    geometry,
  }));
  return buildSurroundings({ [layer]: features }, {}, usCommon(), {
    asOf: isoDate("2026-06-15"),
    units: "metric",
    drive: "right",
    place: { hardinessZone: null, region: null },
  })
    .findings.filter(({ code }) => code === "unreadable-value")
    .map(({ feature, field, value, severity }) => [feature, field, value, severity]);
};

it("names each value of signs, signals and conductors that cannot be read, one a feature and field", () => {
  expect(found("signs", POINT, [{ height: "tall" }, { height: "7 ft" }, { height: -3 }])).toEqual([
    ["#0", "height", "tall", "warning"],
    ["#2", "height", "-3", "warning"],
  ]);
  expect(found("signals", POINT, [{ height: {} }])).toEqual([["#0", "height", "(no plain value)", "warning"]]);
  const rows = [
    { voltage: "medium", attachment_height_1: "30 ft" },
    { voltage: "12.47 kV", sag: "much" },
  ];
  expect(found("conductors", LINE, rows)).toEqual([
    ["#0", "voltage", "medium", "warning"],
    ["#1", "sag", "much", "warning"],
  ]);
});

it("finds no fault with markers of missing values, zeros and several voltages", () => {
  const rows = [
    { voltage: "N/A", sag: 0 },
    { voltage: 0 },
    { voltage: "11000;400" },
    { voltage: -999 },
    { voltage: null },
  ];
  expect(found("conductors", LINE, rows)).toEqual([]);
});
