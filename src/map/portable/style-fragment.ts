import type { GeoJSONSourceSpecification, StyleSpecification } from "maplibre-gl";
import { type ThemeName, TOKENS } from "../tokens.ts";
import {
  conflictFileLayers,
  overheadFileLayers,
  sightFileLayers,
  surroundingsFileLayers,
  zoneFileLayers,
  zoneNameFileLayer,
} from "./place-file-layers.ts";
import { FILE_SOURCES, SPRITE_ID } from "./plan-files.ts";
import { crownFileLayers, figureFileLayers, markFileLayers } from "./tree-file-layers.ts";

/**
 * The symbology over a plan's own files as a plain style: sources that name the files, layers in drawing order, and a sprite. Addresses
 * in it are relative to the plan's revision and to `styles/`; whoever uses it makes them whole. It shows what the files say and no more:
 * crowns as circles of their mean radius, no selection, no order of work.
 */
export function styleFragment(name: ThemeName): StyleSpecification {
  const theme = TOKENS.themes[name];
  const sources = Object.fromEntries(
    Object.entries(FILE_SOURCES).map(([file, id]): [string, GeoJSONSourceSpecification] => [
      id,
      { type: "geojson", data: `${file}.geojson` },
    ]),
  );
  return {
    version: 8,
    name: `Boughline ${name}`,
    sprite: [{ id: SPRITE_ID, url: `sprite-${name}` }],
    sources,
    layers: [
      ...surroundingsFileLayers(theme),
      ...sightFileLayers(theme),
      ...zoneFileLayers(theme),
      ...crownFileLayers(theme),
      ...conflictFileLayers(theme),
      ...overheadFileLayers(theme),
      ...markFileLayers(theme),
      ...figureFileLayers(theme),
      zoneNameFileLayer(theme),
    ],
  };
}
