import type { Feature } from "geojson";
import type { Zone } from "../../core/model/zone.ts";
import { readPlan } from "../../core/plan/read-plan.ts";
import { type ByteFile, textAt } from "../../formats/tiles/byte-file.ts";
import { cutTiles, type TileLayer } from "../../formats/tiles/cut-tiles.ts";
import { PmtilesArchive } from "../../formats/tiles/pmtiles-archive.ts";
import { marksOf, placedLayer, sightAt, surroundingsAt, thinnedLayer, treeLayers } from "./cell-layers.ts";
import { CellRows } from "./cell-rows.ts";
import { addOverview } from "./overview-tiles.ts";
import { conflictPlaces, thingPlaces, treePlaces } from "./plan-places.ts";
import {
  CELL_ZOOM,
  LAST_THINNED_ZOOM,
  MIDDLE_ZOOM,
  PLAN_TILE_LAYERS,
  type PlanTileLayer,
  TILE_ZOOMS,
} from "./tile-layers.ts";
import { tilesMetadata } from "./tiles-metadata.ts";
import type { PartSource } from "./tree-part.ts";
import { type PlacedFeature, zoneParts } from "./zone-parts.ts";

/** Gives a file of a revision by its name. Throws Error where it is missing. */
export type RevisionFile = (name: string) => ByteFile;

const EMPTY = '{"type":"FeatureCollection","features":[]}';

/**
 * The tiles of a plan as a PMTiles archive in pieces: all that its map layers draw by. Up to zoom 13 trees are thinned, but for those that want work now.
 *
 * Reads each line of the large files three times and holds what stands in one tile of zoom 14 at a time, or the marks of one of zoom 12, beside the
 * compressed tiles and some hundred bytes a tree. The same files give the same bytes. Throws as `readPlan` does.
 */
export function planTiles(file: RevisionFile, onProgress: (share: number) => void = () => {}): Uint8Array[] {
  const from = partSource(file);
  const surroundings = file("surroundings.geojson");
  const sight = file("sight.geojson");
  const things = { surroundings: thingPlaces(surroundings), sight: thingPlaces(sight) };
  const zones = zoneParts(from.frame, from.trees);
  const zoneLayers = Object.entries(zones) as [keyof typeof zones, PlacedFeature[]][];
  const archive = new PmtilesArchive();
  addOverview(archive, from, surroundings, things.surroundings);
  for (const [first, last] of [
    [MIDDLE_ZOOM, LAST_THINNED_ZOOM],
    [CELL_ZOOM, TILE_ZOOMS.last],
  ] as const) {
    const cells = new CellRows(first);
    cells.addTrees(from.trees);
    cells.addBoxes("surroundings", things.surroundings.boxes);
    cells.addBoxes("sight", first < CELL_ZOOM ? [] : things.sight.boxes);
    for (const [layer, placed] of zoneLayers)
      cells.addBoxes(
        layer,
        placed.map(({ box }) => box),
      );
    const order = cells.keys();
    for (const [done, key] of order.entries()) {
      const { x, y, own, beside, at } = cells.get(key);
      const drawn: TileLayer[] = first < CELL_ZOOM ? middleLayers(from, own) : treeLayers(from, own, beside);
      const shapes = (layer: PlanTileLayer, features: readonly Feature[]) =>
        drawn.push(placedLayer(layer, features, "shapes"));
      shapes(
        { ...PLAN_TILE_LAYERS.surroundings, minZoom: first },
        surroundingsAt(surroundings, things.surroundings, at("surroundings")),
      );
      shapes(PLAN_TILE_LAYERS.sight, sightAt(sight, things.sight, at("sight")));
      for (const [layer, placed] of zoneLayers)
        shapes(
          PLAN_TILE_LAYERS[layer],
          at(layer).map((place) => placed[place]!.feature),
        );
      cutTiles(archive, { zoom: first, x, y }, drawn, last);
      onProgress(first < CELL_ZOOM ? 0.2 * ((done + 1) / order.length) : 0.2 + 0.8 * ((done + 1) / order.length));
    }
  }
  return archive.end(tilesMetadata(from.frame, from.trees));
}

/** The marks that the zooms just before the cells keep of the trees that stand in a tile. */
function middleLayers(from: PartSource, own: readonly number[]): TileLayer[] {
  const marks = marksOf(from, own);
  return [MIDDLE_ZOOM, LAST_THINNED_ZOOM].map((zoom) => thinnedLayer(from, own, marks, zoom));
}

function partSource(file: RevisionFile): PartSource {
  const whole = (name: string) => textAt(file(name), 0, file(name).size);
  const frame = readPlan({
    manifest: whole("plan.json"),
    zones: whole("zones.geojson"),
    prescriptions: "",
    conflicts: EMPTY,
    surroundings: EMPTY,
    sight: EMPTY,
    findings: [],
  });
  const prescriptions = file("prescriptions.jsonl");
  const conflicts = file("conflicts.geojson");
  const trees = treePlaces(prescriptions);
  const ofTree = conflictPlaces(conflicts, trees);
  const zoneOf = new Map(frame.zones.flatMap((zone: Zone) => zone.treeIds.map((id) => [id, zone.zoneId] as const)));
  return { frame, prescriptions, conflicts, trees, ofTree, zoneOf };
}
