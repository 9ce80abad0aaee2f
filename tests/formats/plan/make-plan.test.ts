import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { parseColumnMap } from "../../../src/core/inventory/column-map-schema.ts";
import { LAYERS, type Layer } from "../../../src/core/model/terms.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import type { LayerFile, PlanOutput, PlanRequest } from "../../../src/formats/plan/plan-request.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { zonePlan } from "../../../src/formats/plan/zone-plan.ts";

const read = (path: string): Uint8Array => readFileSync(new URL(`../../../${path}`, import.meta.url));
const text = (bytes: Uint8Array | undefined): string => new TextDecoder("utf-8", { fatal: true }).decode(bytes);
const layerFile = (layer: Layer, path: string, filter: string | null = null): LayerFile => ({
  layer,
  name: path.slice(path.lastIndexOf("/") + 1),
  bytes: read(path),
  filter,
});

const request = (files: readonly LayerFile[], more: Partial<PlanRequest> = {}): PlanRequest => ({
  revision: 1,
  files,
  columns: {},
  standardJson: null,
  options: {
    asOf: isoDate("2026-11-02"),
    units: "us",
    drive: "right",
    place: { hardinessZone: null, region: null },
  },
  crs: null,
  withZones: false,
  ...more,
});

const TOWN = LAYERS.map((layer) => layerFile(layer, `sample-geojson/${layer}.geojson`));

function ubcRequest(): PlanRequest {
  const parsed = parseColumnMap(JSON.parse(text(read("tests/fixtures/ubc/columns.json"))));
  if ("faults" in parsed) throw new Error(parsed.faults.join("; "));
  return request(
    [
      layerFile("trees", "tests/fixtures/ubc/trees.geojson", "TREE_STATUS lacks Removed"),
      layerFile("buildings", "tests/fixtures/ubc/buildings.geojson"),
      layerFile("roads", "tests/fixtures/ubc/road-areas.geojson"),
      layerFile("paths", "tests/fixtures/ubc/walkway-areas.geojson"),
    ],
    { columns: parsed.columns },
  );
}

const silent = () => {};

/** The bytes of a plan's tree file with the members this program added taken out again, as text. */
const withoutBough = (trees: string): string => trees.replaceAll(/,?"bough_[a-z_]+":(?:"(?:[^"\\]|\\.)*"|[^,}]*)/g, "");

describe.each([
  ["the sample town", () => request(TOWN), ["buildings", "conductors", "paths", "roads", "signals", "signs"]],
  ["a piece of a real campus", ubcRequest, ["buildings", "paths", "roads"]],
])("a plan of %s", (_, make, around) => {
  let output: PlanOutput;
  beforeAll(async () => {
    output = await makePlan(make(), silent);
  });

  test("holds the files of a revision", () => {
    expect([...output.files.keys()].sort()).toEqual([
      "columns.json",
      "conflicts.geojson",
      "findings.csv",
      ...around.map((layer) => `layer-${layer}.geojson`),
      "plan.json",
      "prescriptions.jsonl",
      "set-aside.geojson",
      "sight.geojson",
      "spans.csv",
      "standard.json",
      "surroundings.geojson",
      "trees.geojson",
      "visits.csv",
      "workload.csv",
      "zones.geojson",
    ]);
  });

  test("uses every tree or sets it aside with a finding, and the counts add up", () => {
    const manifest = JSON.parse(text(output.files.get("plan.json")));
    const trees = JSON.parse(text(output.files.get("trees.geojson"))).features.length;
    for (const input of manifest.inputs) expect(input.used + input.setAside).toBe(input.features);
    const given = manifest.inputs.filter(({ layer }: { layer: string }) => layer === "trees");
    expect(given.reduce((sum: number, input: { used: number }) => sum + input.used, 0)).toBe(trees);
    const setAside = JSON.parse(text(output.files.get("set-aside.geojson"))).features.length;
    const counted = manifest.inputs.reduce((sum: number, input: { setAside: number }) => sum + input.setAside, 0);
    expect(setAside).toBe(counted);
  });

  test("keeps every tree's original bytes beside the new members", () => {
    const original = text(make().files[0]!.bytes);
    const result = withoutBough(text(output.files.get("trees.geojson")));
    const lines = new Set(original.split("\n").map((line) => line.replace(/,?\r?$/, "")));
    const features = result
      .split("\n")
      .filter((line) => line.includes('"type":"Feature",') || line.includes('"type": "Feature",'));
    expect(features.length).toBeGreaterThan(500);
    for (const feature of features) expect(lines.has(feature.replace(/,?\r?$/, ""))).toBe(true);
  });

  test("is the same, byte for byte, when made again", async () => {
    const again = await makePlan(make(), silent);
    expect(again.planId).toBe(output.planId);
    for (const [name, bytes] of output.files) expect(Buffer.compare(again.files.get(name)!, bytes)).toBe(0);
  });

  test("opens again as the plan it was, and gets zones that hold each next visit once", async () => {
    const opened = await openPlan(memorySource(output.files));
    expect(opened.plan.trees.length).toBe(opened.trees.features.length);
    expect(opened.plan.prescriptions.map(({ treeId }) => treeId)).toEqual(opened.plan.trees.map(({ id }) => id));
    const zoned = await openPlan(memorySource((await zonePlan(memorySource(output.files), 2)).files));
    expect(zoned.plan.revision).toBe(2);
    const visits = zoned.plan.zones.flatMap(({ visitIds }) => visitIds);
    expect(new Set(visits).size).toBe(visits.length);
    expect(visits.length).toBeGreaterThan(0);
    const inZone = zoned.trees.features.filter(({ properties }) => properties?.bough_zone !== null);
    expect(inZone.length).toBe(new Set(zoned.plan.zones.flatMap(({ treeIds }) => treeIds)).size);
  });
});

test("a bad tree among good ones changes nothing for them", async () => {
  const clean = text(TOWN[0]!.bytes);
  const bad = '{"type":"Feature","properties":{"id":"bad"},"geometry":{"type":"Point","coordinates":[500,95]}},\n';
  const at = clean.indexOf("{", clean.indexOf("["));
  const dirty = new TextEncoder().encode(clean.slice(0, at) + bad + clean.slice(at));
  const [first, ...others] = TOWN;
  const one = await makePlan(request(TOWN), silent);
  const two = await makePlan(request([{ ...first!, bytes: dirty }, ...others]), silent);
  expect(text(two.files.get("trees.geojson"))).toBe(text(one.files.get("trees.geojson")));
  expect(text(two.files.get("conflicts.geojson"))).toBe(text(one.files.get("conflicts.geojson")));
  expect(JSON.parse(text(two.files.get("set-aside.geojson"))).features).toHaveLength(1);
});

test("trees alone make a plan in which nothing is clear and all that was not checked is named", async () => {
  const output = await makePlan(request([TOWN[0]!]), silent);
  const { features } = JSON.parse(text(output.files.get("trees.geojson")));
  for (const { properties } of features) {
    expect(properties.bough_urgency).not.toBe("clear");
    expect(properties.bough_not_checked).toContain("roadway");
    expect(properties.bough_not_checked).toContain("conductor");
    expect(properties.bough_crew).not.toBe("ground");
  }
});
