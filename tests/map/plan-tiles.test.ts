import { VectorTile } from "@mapbox/vector-tile";
import { PbfReader } from "pbf";
import { PMTiles, type Source } from "pmtiles";
import { beforeAll, describe, expect, it } from "vitest";
import type { Plan } from "../../src/core/model/plan.ts";
import { joinBytes } from "../../src/formats/join-bytes.ts";
import { textAt } from "../../src/formats/tiles/byte-file.ts";
import { createLayers } from "../../src/map/create-layers.ts";
import { planTiles } from "../../src/map/tiles/plan-tiles.ts";
import { PLAN_TILE_LAYERS } from "../../src/map/tiles/tile-layers.ts";
import { filesInMemory as filesOf } from "./files-in-memory.ts";
import { smallOpenedPlan } from "./small-opened-plan.ts";

const EXTENT = 8192;
const { plan } = smallOpenedPlan();

/** 400 trees at the places of a handful, so that overviews have something to leave out. */
function crowded(): Plan {
  const trees = Array.from({ length: 400 }, (_, row) => ({
    ...plan.trees[row % 60]!,
    row,
    id: `C${row}`,
    lonDeg: plan.trees[row % 60]!.lonDeg + (row % 7) * 1e-6,
  }));
  return {
    ...plan,
    trees,
    conflicts: [],
    zones: [],
    prescriptions: trees.map((_, row) => ({ ...plan.prescriptions[row % 60]!, treeRow: row })),
    settings: trees.map((_, row) => ({ ...plan.settings[row % 60]!, treeRow: row })),
  };
}

interface Found {
  readonly layer: string;
  readonly properties: Record<string, unknown>;
  readonly lonDeg: number;
  readonly latDeg: number;
}

/** All features of a zoom by readers that are not ours: place of the first position, properties. */
async function featuresAt(bytes: Uint8Array, zoom: number): Promise<Found[]> {
  const source: Source = {
    getKey: () => "memory",
    getBytes: async (offset, length) => ({ data: bytes.slice(offset, offset + length).buffer }),
  };
  const archive = new PMTiles(source);
  const side = 2 ** zoom;
  const column = (lonDeg: number) => Math.floor(((lonDeg + 180) / 360) * side);
  const line = (latDeg: number) => {
    const sine = Math.sin((latDeg * Math.PI) / 180);
    return Math.floor((0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI)) * side);
  };
  const { minLon, maxLon, minLat, maxLat } = await archive.getHeader();
  const found: Found[] = [];
  for (let x = column(minLon); x <= column(maxLon); x += 1)
    for (let y = line(maxLat); y <= line(minLat); y += 1) {
      const tile = await archive.getZxy(zoom, x, y);
      if (tile === undefined) continue;
      const { layers } = new VectorTile(new PbfReader(new Uint8Array(tile.data)));
      for (const [layer, { length, extent }] of Object.entries(layers)) {
        expect(extent).toBe(EXTENT);
        for (let at = 0; at < length; at += 1) {
          const feature = layers[layer]!.feature(at);
          const [first] =
            feature.toGeoJSON(x, y, zoom).geometry.type === "Point" ? [feature.toGeoJSON(x, y, zoom)] : [];
          const position = first?.geometry.type === "Point" ? first.geometry.coordinates : [Number.NaN, Number.NaN];
          found.push({ layer, properties: feature.properties, lonDeg: position[0]!, latDeg: position[1]! });
        }
      }
    }
  return found;
}

describe("the tiles of a plan", () => {
  let bytes: Uint8Array;
  beforeAll(() => {
    bytes = joinBytes(planTiles(filesOf(plan)));
  });

  it("hold every tree at the closest zoom, where it stands, with the members that layers and filters read", async () => {
    const marks = createLayers(smallOpenedPlan()).sources["boughline-trees"]!
      .data as GeoJSON.FeatureCollection<GeoJSON.Point>;
    const found = (await featuresAt(bytes, 16)).filter(({ layer }) => layer === "trees");
    expect(found.length).toBe(60);
    for (const [row, mark] of marks.features.entries()) {
      const one = found.find(({ properties }) => properties.tree === mark.properties?.tree)!;
      const { at, bytes: length, conflictsAt, conflictsBytes, ...members } = one.properties as Record<string, number>;
      expect(members).toEqual({ ...mark.properties, row });
      // The tile says where the tree's own records are.
      const line = textAt(filesOf(plan)("prescriptions.jsonl"), at!, length!);
      expect(JSON.parse(line).tree).toEqual(plan.trees[row]);
      const conflicts = textAt(filesOf(plan)("conflicts.geojson"), conflictsAt!, conflictsBytes!);
      const ids = plan.conflicts.filter(({ treeRow }) => treeRow === row).map(({ conflictId }) => conflictId);
      for (const id of ids) expect(conflicts).toContain(`"conflict_id":${JSON.stringify(id)}`);
      expect(conflictsBytes === 0).toBe(ids.length === 0);
      // Half a unit of a tile of zoom 16 is 3.7e-7 degrees of longitude.
      expect(Math.abs(one.lonDeg - mark.geometry.coordinates[0]!)).toBeLessThan(3.8e-7);
      expect(Math.abs(one.latDeg - mark.geometry.coordinates[1]!)).toBeLessThan(3.8e-7);
    }
  });

  it("hold what every source of the drawn plan holds, by its ids", async () => {
    const { sources } = createLayers(smallOpenedPlan());
    const found = await featuresAt(bytes, 16);
    for (const { name, source, id } of Object.values(PLAN_TILE_LAYERS)) {
      const given = (sources[source]!.data as GeoJSON.FeatureCollection).features;
      const here = found.filter(({ layer }) => layer === name);
      if (id === null) expect(here.length).toBeGreaterThan(0);
      else {
        const ids = (all: readonly { properties: GeoJSON.GeoJsonProperties }[]) =>
          [...new Set(all.map(({ properties }) => properties?.[id] as string))].sort();
        expect([name, ids(here)]).toEqual([name, ids(given)]);
      }
    }
  });

  it("name in their metadata every layer and every member that a tile has", async () => {
    const fields = new Map<string, Set<string>>(
      Object.values(PLAN_TILE_LAYERS).map(({ name, fields }) => [name, new Set(Object.keys(fields))]),
    );
    for (const zoom of [9, 13, 16])
      for (const { layer, properties } of await featuresAt(bytes, zoom))
        for (const name of Object.keys(properties))
          expect([layer, name, fields.get(layer)?.has(name)]).toEqual([layer, name, true]);
  });

  it("keep far out every tree that wants work now, and count the others that are left out", async () => {
    const many = crowded();
    const tiles = joinBytes(planTiles(filesOf(many)));
    const urgent = many.prescriptions.filter(({ urgency }) => urgency === "now").length;
    expect(urgent).toBeGreaterThan(10);
    for (const zoom of [0, 5, 11, 13]) {
      const marks = (await featuresAt(tiles, zoom)).filter(({ layer }) => layer === "trees");
      expect(marks.filter(({ properties }) => properties.urgency === "now").length).toBe(urgent);
      expect(marks.length).toBeLessThan(400);
      const stoodFor = marks.reduce((sum, { properties }) => sum + Number(properties.stands ?? 1), 0);
      expect(stoodFor).toBe(400);
    }
    const close = (await featuresAt(tiles, 14)).filter(({ layer }) => layer === "trees");
    expect(close.length).toBe(400);
    expect(close.every(({ properties }) => properties.stands === undefined)).toBe(true);
  });

  it("are the same bytes twice", () => {
    expect(joinBytes(planTiles(filesOf(plan)))).toEqual(bytes);
  });
});
