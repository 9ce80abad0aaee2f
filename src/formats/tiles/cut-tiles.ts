import { GeoJSONVT } from "@maplibre/geojson-vt";
import { fromGeojsonVt } from "@maplibre/vt-pbf";
import type { Feature } from "geojson";
import type { PmtilesArchive } from "./pmtiles-archive.ts";

/** Features of one layer for some zooms. A layer may be given more than once, each time for other zooms. */
export interface TileLayer {
  readonly name: string;
  readonly features: readonly Feature[];
  readonly minZoom: number;
  readonly maxZoom: number;
  /** Farthest that a drawn line may stray from the given one, in units of the tile; 0 for points. */
  readonly tolerance: number;
  /** How far beyond its edge a tile holds what is drawn across it, in units of the tile; 0 for points, which belong to one tile. */
  readonly buffer: number;
}

/** Units along a tile's side: what the map's renderer works with, so that nothing is rounded twice. */
export const TILE_EXTENT = 8192;

/**
 * Cuts the tiles of some zooms below a tile, itself among them, and adds those with anything in them to the archive. Only what is drawn at a zoom is
 * in its tiles.
 */
export function cutTiles(
  archive: PmtilesArchive,
  under: { readonly zoom: number; readonly x: number; readonly y: number },
  layers: readonly TileLayer[],
  lastZoom: number,
): void {
  const cut = layers
    .filter(({ features }) => features.length > 0)
    .map((layer) => ({
      ...layer,
      index: new GeoJSONVT(
        { type: "FeatureCollection", features: [...layer.features] },
        {
          maxZoom: lastZoom,
          indexMaxZoom: 0,
          indexMaxPoints: 0,
          extent: TILE_EXTENT,
          tolerance: layer.tolerance,
          buffer: layer.buffer,
        },
      ),
    }));
  const cutUnder = (zoom: number, x: number, y: number, maybe: typeof cut): void => {
    // What is not in a tile, its buffer included, is in none below it either.
    const found = maybe.flatMap((layer) => {
      const tile = layer.index.getTile(zoom, x, y);
      return tile === null || tile.features.length === 0 ? [] : [{ layer, tile }];
    });
    const shown = found.filter(({ layer }) => zoom >= layer.minZoom && zoom <= layer.maxZoom);
    if (shown.length > 0) {
      const layersOfTile = Object.fromEntries(shown.map(({ layer, tile }) => [layer.name, tile]));
      archive.add(zoom, x, y, fromGeojsonVt(layersOfTile, { version: 2, extent: TILE_EXTENT }));
    }
    const below = found.filter(({ layer }) => layer.maxZoom > zoom).map(({ layer }) => layer);
    if (zoom === lastZoom || below.length === 0) return;
    for (const [right, down] of QUARTERS) cutUnder(zoom + 1, x * 2 + right, y * 2 + down, below);
  };
  cutUnder(under.zoom, under.x, under.y, cut);
}

const QUARTERS = [
  [0, 0],
  [1, 0],
  [0, 1],
  [1, 1],
] as const;
