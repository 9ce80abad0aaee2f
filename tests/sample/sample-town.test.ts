import { readFileSync } from "node:fs";
import type { Feature, LineString, Point, Polygon } from "geojson";
import { describe, expect, test } from "vitest";
import { sampleTown } from "../../sample-geojson/make/sample-town.ts";
import { FIELDS } from "../../src/core/model/column-map.ts";
import { ROAD_CLASSES } from "../../src/core/model/surroundings.ts";
import { CONDITIONS, DEFECTS, LAYERS, type Layer } from "../../src/core/model/terms.ts";
import { parseIsoDate } from "../../src/core/units/calendar.ts";

const folder = new URL("../../sample-geojson/", import.meta.url);
const textOf = (layer: Layer): string => readFileSync(new URL(`${layer}.geojson`, folder), "utf8");
const featuresOf = <G extends Point | LineString | Polygon>(layer: Layer): Feature<G, Record<string, unknown>>[] =>
  JSON.parse(textOf(layer)).features;

const trees = featuresOf<Point>("trees");
const roads = featuresOf<LineString>("roads");

/** Meters east and north of 139.5 W, 44.25 N: good to a few centimeters over the town, enough for the distances tested here. */
const METERS_PER_DEGREE = [79_868.6, 111_117.1] as const;
const planar = ([lon, lat]: readonly number[]): [number, number] => [
  (lon! + 139.5) * METERS_PER_DEGREE[0],
  (lat! - 44.25) * METERS_PER_DEGREE[1],
];

function distanceM(point: readonly number[], line: readonly (readonly number[])[]): number {
  const [x, y] = planar(point);
  let best = Number.POSITIVE_INFINITY;
  for (let at = 1; at < line.length; at += 1) {
    const [ax, ay] = planar(line[at - 1]!);
    const [bx, by] = planar(line[at]!);
    const share = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2);
    const held = Math.min(1, Math.max(0, share));
    best = Math.min(best, Math.hypot(x - ax - held * (bx - ax), y - ay - held * (by - ay)));
  }
  return best;
}

test("the committed files are what the script makes, byte for byte", () => {
  const made = sampleTown();
  expect([...made.keys()].sort()).toEqual(LAYERS.map((layer) => `${layer}.geojson`).sort());
  for (const layer of LAYERS) expect(made.get(`${layer}.geojson`) === textOf(layer), layer).toBe(true);
});

describe("every layer", () => {
  test.each(LAYERS)("%s uses only canonical columns, known geometry and 7 decimals within the town", (layer) => {
    const type =
      layer === "buildings" ? "Polygon" : ["roads", "paths", "conductors"].includes(layer) ? "LineString" : "Point";
    for (const { geometry, properties } of featuresOf(layer)) {
      expect(geometry.type).toBe(type);
      for (const key of Object.keys(properties)) expect(FIELDS[layer]).toContain(key);
      for (const [lon, lat] of positionsOf(geometry)) {
        // 1 km each way: 0.0125 degrees of longitude, 0.009 of latitude.
        expect(Math.abs(lon! + 139.5)).toBeLessThan(0.0125);
        expect(Math.abs(lat! - 44.25)).toBeLessThan(0.009);
        expect(Math.round(lon! * 1e7) / 1e7).toBe(lon);
      }
    }
  });

  test.each(LAYERS)("%s has an id on every feature, unique save for the one repeated tree", (layer) => {
    const ids = featuresOf(layer).map(({ properties }) => properties.id);
    expect(ids.every((id) => typeof id === "string" && id.length > 0)).toBe(true);
    const repeated = ids.filter((id, at) => ids.indexOf(id) !== at);
    expect(repeated).toEqual(layer === "trees" ? ["T-0318"] : []);
  });
});

test("the town is of the intended size", () => {
  expect(trees.length).toBeGreaterThan(1400);
  expect(trees.length).toBeLessThan(1600);
  expect(new Set(trees.map(({ properties }) => properties.species)).size).toBeGreaterThan(35);
  expect(featuresOf("buildings").length).toBeGreaterThan(600);
});

test("roads use known classes, all but the freeway, and say their speed with its unit", () => {
  const used = new Set(roads.map(({ properties }) => properties.class));
  expect(ROAD_CLASSES.filter((name) => !used.has(name))).toEqual(["freeway"]);
  for (const { properties } of roads) expect(properties.speed).toMatch(/^\d\d mph$/);
});

test("streets meet in shared positions", () => {
  const ends = roads.flatMap(({ geometry }) => [geometry.coordinates[0]!, geometry.coordinates.at(-1)!].map(String));
  const count = (end: string): number => ends.filter((other) => other === end).length;
  // Dead ends: three courts, the far ends of Heron Court, Commerce Street, Station Street, River Road and the two rural roads.
  expect(ends.filter((end) => count(end) === 1).length).toBe(9);
  expect(ends.filter((end) => count(end) >= 3).length).toBeGreaterThan(150);
});

test("no trunk stands in a roadway", () => {
  const narrowestHalfM = 3.6 / 2;
  for (const { geometry, properties } of trees) {
    const inside = roads.filter(({ geometry: road, properties: row }) => {
      const halfM = typeof row.width === "number" ? row.width / 2 : narrowestHalfM;
      return distanceM(geometry.coordinates, road.coordinates) < halfM;
    });
    expect(inside, String(properties.id)).toEqual([]);
  }
});

test("one tree stands inside a building", () => {
  const rings = featuresOf<Polygon>("buildings").map(({ geometry }) => geometry.coordinates[0]!);
  const inside = trees.filter(({ geometry }) => rings.some((ring) => isInside(geometry.coordinates, ring)));
  expect(inside.map(({ properties }) => properties.id)).toEqual(["T-1104"]);
});

test("gaps and mistakes are a few, and only the intended ones", () => {
  const rows = trees.map(({ properties }) => properties);
  const shareOf = (field: string): number => rows.filter((row) => typeof row[field] !== "number").length / rows.length;
  expect(shareOf("height")).toBeGreaterThan(0.09);
  expect(shareOf("height")).toBeLessThan(0.16);
  expect(shareOf("crown_base")).toBeGreaterThan(0.12);
  expect(shareOf("crown_base")).toBeLessThan(0.19);
  expect(rows.filter((row) => Number(row.crown_base) > Number(row.height) && row.height !== null).length).toBe(1);
  expect(rows.filter((row) => row.dbh === 0).length).toBe(2);
  const dates = rows.flatMap((row) => [row.planted, row.last_pruned]).filter((date) => typeof date === "string");
  expect(dates.filter((date) => parseIsoDate(date) === null).sort()).toEqual(["2024-02-30", "last spring"]);
  expect(dates.every((date) => parseIsoDate(date) === null || date <= "2026-11-02")).toBe(true);
  for (const row of rows) {
    if (row.condition !== undefined) expect(CONDITIONS).toContain(row.condition);
    if (typeof row.defects === "string") for (const one of row.defects.split("; ")) expect(DEFECTS).toContain(one);
  }
});

test("signs stand to the right of the driver they face, beside the roadway", () => {
  const signs = featuresOf<Point>("signs");
  expect(new Set(signs.map(({ properties }) => properties.kind))).toEqual(new Set(["stop", "yield"]));
  for (const { geometry, properties } of signs) {
    const facing = (Number(properties.facing) * Math.PI) / 180;
    const [x, y] = planar(geometry.coordinates);
    // The driver comes against the facing: the road he drives on is to the left of the sign, that is, to the right of its face.
    const left = { x: x + 5 * Math.sin(facing + Math.PI / 2), y: y + 5 * Math.cos(facing + Math.PI / 2) };
    const beside = [left.x / METERS_PER_DEGREE[0] - 139.5, left.y / METERS_PER_DEGREE[1] + 44.25];
    const nearest = (point: readonly number[]): number =>
      Math.min(...roads.map(({ geometry: road }) => distanceM(point, road.coordinates)));
    expect(nearest(geometry.coordinates), String(properties.id)).toBeGreaterThan(3.6);
    expect(nearest(beside), String(properties.id)).toBeLessThan(nearest(geometry.coordinates));
  }
});

test("spans are as long as streets have poles, and sag", () => {
  const rows = featuresOf<LineString>("conductors");
  expect(new Set(rows.map(({ properties }) => properties.voltage))).toEqual(new Set([12_470, 240, 69_000]));
  for (const { geometry, properties } of rows) {
    const [from, to] = geometry.coordinates.map(planar);
    const spanM = Math.hypot(to![0] - from![0], to![1] - from![1]);
    if (properties.voltage === 12_470) expect(spanM).toBeGreaterThan(15);
    expect(spanM).toBeLessThan(properties.voltage === 69_000 ? 100 : 62);
    expect(Number(properties.sag)).toBeGreaterThan(0);
    expect(Number(properties.sag)).toBeLessThan(0.03 * spanM);
  }
});

function positionsOf(geometry: Point | LineString | Polygon): number[][] {
  if (geometry.type === "Point") return [geometry.coordinates];
  return geometry.type === "LineString" ? geometry.coordinates : geometry.coordinates.flat();
}

function isInside([x, y]: readonly number[], ring: readonly (readonly number[])[]): boolean {
  let isIn = false;
  for (let at = 0, last = ring.length - 1; at < ring.length; last = at, at += 1) {
    const [ax, ay] = ring[at] as [number, number];
    const [bx, by] = ring[last] as [number, number];
    if (ay > y! !== by > y! && x! < ((bx - ax) * (y! - ay)) / (by - ay) + ax) isIn = !isIn;
  }
  return isIn;
}
