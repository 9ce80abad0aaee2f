import type { Feature } from "geojson";
import { type ByteFile, textAt } from "../../formats/tiles/byte-file.ts";
import { cutTiles, type TileLayer } from "../../formats/tiles/cut-tiles.ts";
import type { PmtilesArchive } from "../../formats/tiles/pmtiles-archive.ts";
import { thinned } from "../../formats/tiles/thinned.ts";
import { tilesTouching, worldX, worldY } from "../../formats/tiles/world-place.ts";
import { marksOf, placedLayer, surroundingsAt, thinnedLayer } from "./cell-layers.ts";
import { boxOf, type ThingPlaces } from "./plan-places.ts";
import { MIDDLE_ZOOM, PLAN_TILE_LAYERS, ROADS_FROM_ZOOM, TILE_ZOOMS } from "./tile-layers.ts";
import type { PartSource } from "./tree-part.ts";

/** Adds the tiles farther out than the cells: thinned trees, and roads at the last of their zooms. */
export function addOverview(
  archive: PmtilesArchive,
  from: PartSource,
  surroundings: ByteFile,
  things: ThingPlaces,
): void {
  const last = MIDDLE_ZOOM - 1;
  const all = () => from.trees.x.keys();
  // What is kept farther out is kept here too, so no other mark is ever needed.
  const marks = marksOf(from, [...thinned(from.trees, all(), last).keys()]);
  const roads = surroundingsAt(surroundings, things, roadPlaces(surroundings, things));
  for (let zoom = last; zoom >= TILE_ZOOMS.first; zoom -= 1) {
    const layers: TileLayer[] = [thinnedLayer(from, all(), marks, zoom)];
    if (zoom >= ROADS_FROM_ZOOM)
      layers.push({ ...placedLayer(PLAN_TILE_LAYERS.surroundings, roads, "shapes"), minZoom: zoom, maxZoom: zoom });
    for (const [x, y] of touched(layers, zoom)) cutTiles(archive, { zoom, x, y }, layers, zoom);
  }
}

/** Roads as lines only: what else stands around trees is too small to be seen so far out. */
function roadPlaces(file: ByteFile, { offset, length }: ThingPlaces): number[] {
  return [...offset.keys()].filter((place) => {
    const { properties, geometry } = JSON.parse(textAt(file, offset[place]!, length[place]!)) as Feature;
    return properties?.layer === "roads" && geometry?.type === "LineString";
  });
}

/** The tiles of a zoom that features touch, in the order in which they are first touched. */
function touched(layers: readonly TileLayer[], zoom: number): (readonly [x: number, y: number])[] {
  const tiles = new Map<string, readonly [number, number]>();
  for (const { geometry } of layers.flatMap(({ features }) => features)) {
    const box =
      geometry.type === "Point"
        ? pointBox(worldX(geometry.coordinates[0]!), worldY(geometry.coordinates[1]!))
        : boxOf(geometry);
    for (const tile of tilesTouching(box, zoom)) tiles.set(tile.join("/"), tile);
  }
  return [...tiles.values()];
}

const pointBox = (x: number, y: number) => ({ west: x, east: x, north: y, south: y });
