import { expect, it } from "vitest";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { checkFiles } from "../../../src/formats/check/check-files.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";

const columns = { trees: { id: { column: "TREE_NO" } }, signs: { id: { column: "SIGN_NO" } } };
const options = {
  asOf: isoDate("2026-06-15"),
  units: "metric",
  drive: "right",
  place: { hardinessZone: null, region: null },
} as const;

const point = (lonDeg: number) => ({ type: "Point", coordinates: [lonDeg, lonDeg === 0 ? 0 : 43.07] });
const layer = (features: readonly object[]): Uint8Array =>
  new TextEncoder().encode(
    JSON.stringify({
      type: "FeatureCollection",
      features: features.map((feature) => ({ type: "Feature", ...feature })),
    }),
  );
/** Doubts and set-asides of the reader and of the inventory; the third and fifth tree share an id, the last has none. */
const TREES = layer([
  { properties: { TREE_NO: 501 }, geometry: point(0) },
  { id: "f2", properties: { TREE_NO: 502 }, geometry: null },
  { properties: { TREE_NO: 503, height: "tall" }, geometry: point(-89.4) },
  { properties: { TREE_NO: 504, species: "Stump" }, geometry: point(-89.41) },
  { id: "f5", properties: { TREE_NO: 503, height: "high" }, geometry: point(-89.42) },
  { properties: { TREE_NO: "12345678901234567890" }, geometry: { type: "Point", coordinates: [1, 2, "x"] } },
  { id: "f7", properties: { height: "low" }, geometry: point(-89.43) },
  { properties: { height: "flat" }, geometry: point(-89.44) },
]);
const SIGNS = layer([{ properties: { SIGN_NO: "S1", height: "tall" }, geometry: point(-89.45) }]);

/** Names by code and value, of trees and signs. */
const NAMES = [
  ["zero-position", "501"],
  ["no-geometry", "502"],
  ["unreadable-value tall", "503"],
  ["no-tree-there Stump", "504"],
  ["unreadable-value high", "503~2"],
  ["duplicate-id 503", "503~2"],
  ["unreadable-value low", "f7"],
  ["unreadable-value flat", "#7"],
  ["unreadable-value tall", "S1"],
];
const named = (code: string, value: string | null, feature: string | null): [string, string | null] => [
  NAMES.some(([wanted]) => wanted === code) ? code : `${code} ${value}`,
  feature,
];

it("are a tree's id in the plan, whichever stage made the finding", async () => {
  const files = [
    { layer: "trees", name: "t.geojson", bytes: TREES, filter: null },
    { layer: "signs", name: "s.geojson", bytes: SIGNS, filter: null },
  ] as const;
  const request = { revision: 1, files, columns, standardJson: null, options, crs: null, withZones: false };
  const { findings } = await makePlan(request, () => {});
  const got = findings.map(({ code, value, feature }) => named(code, value, feature));
  for (const name of NAMES) expect(got).toContainEqual(name);
  // The position is no number: set aside by the reader, its id kept digit by digit.
  expect(findings.filter(({ feature }) => feature === "12345678901234567890")).toHaveLength(1);
});

it("are the same in a check", async () => {
  const files = [
    { name: "t.geojson", bytes: TREES, layer: "trees", filter: null },
    { name: "s.geojson", bytes: SIGNS, layer: "signs", filter: null },
  ] as const;
  const checks = await checkFiles(files, { columns, crs: null, standard: usCommon(), options });
  const got = checks.flatMap(({ findings }) => findings.map(({ code, value, feature }) => named(code, value, feature)));
  for (const name of NAMES) expect(got).toContainEqual(name);
});
