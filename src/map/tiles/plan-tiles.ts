import type { Feature } from "geojson";
import type { Zone } from "../../core/model/zone.ts";
import { readPlan } from "../../core/plan/read-plan.ts";
import { type ByteFile, textAt } from "../../formats/tiles/byte-file.ts";
import { cutTiles, type TileLayer } from "../../formats/tiles/cut-tiles.ts";
import { PmtilesArchive } from "../../formats/tiles/pmtiles-archive.ts";
import { placedLayer, sightAt, surroundingsAt, treeLayers } from "./cell-layers.ts";
import { CellRows } from "./cell-rows.ts";
import { addOverview } from "./overview-tiles.ts";
import { conflictPlaces, thingPlaces, treePlaces } from "./plan-places.ts";
import { CELL_ZOOM, PLAN_TILE_LAYERS, type PlanTileLayer, TILE_ZOOMS } from "./tile-layers.ts";
import { tilesMetadata } from "./tiles-metadata.ts";
import type { PartSource } from "./tree-part.ts";
import { type PlacedFeature, zoneParts } from "./zone-parts.ts";

/** Gives a file of a revision by its name. Throws Error where it is missing. */
export type RevisionFile = (name: string) => ByteFile;

const EMPTY = '{"type":"FeatureCollection","features":[]}';

/**
 * The tiles of a plan as a PMTiles archive in pieces: all that its map layers draw by. Up to zoom 13 trees are thinned, but for those that want work now.
 *
 * Reads each line of the large files twice and holds what stands in one cell of zoom 12 at a time, beside the compressed tiles and about a hundred bytes
 * a tree. The same files give the same bytes. Throws as `readPlan` does.
 */
export function planTiles(file: RevisionFile, onProgress: (share: number) => void = () => {}): Uint8Array[] {
  const from = partSource(file);
  const surroundings = file("surroundings.geojson");
  const sight = file("sight.geojson");
  const things = { surroundings: thingPlaces(surroundings), sight: thingPlaces(sight) };
  const zones = zoneParts(from.frame, from.trees);
  const cells = new CellRows();
  cells.addTrees(from.trees);
  cells.addBoxes("surroundings", things.surroundings.boxes);
  cells.addBoxes("sight", things.sight.boxes);
  for (const [layer, placed] of Object.entries(zones))
    cells.addBoxes(
      layer,
      placed.map(({ box }) => box),
    );

  const archive = new PmtilesArchive();
  addOverview(archive, from, surroundings, things.surroundings);
  const order = cells.keys();
  for (const [done, key] of order.entries()) {
    const { x, y, own, beside, at } = cells.get(key);
    const drawn: TileLayer[] = own.length + beside.length === 0 ? [] : treeLayers(from, own, beside);
    const shapes = (layer: PlanTileLayer, features: readonly Feature[]) =>
      drawn.push(placedLayer(layer, features, "shapes"));
    shapes(
      { ...PLAN_TILE_LAYERS.surroundings, minZoom: CELL_ZOOM },
      surroundingsAt(surroundings, things.surroundings, at("surroundings")),
    );
    shapes(PLAN_TILE_LAYERS.sight, sightAt(sight, things.sight, at("sight")));
    for (const [layer, placed] of Object.entries(zones) as [keyof typeof zones, PlacedFeature[]][])
      shapes(
        PLAN_TILE_LAYERS[layer],
        at(layer).map((place) => placed[place]!.feature),
      );
    cutTiles(archive, { zoom: CELL_ZOOM, x, y }, drawn, TILE_ZOOMS.last);
    onProgress((done + 1) / order.length);
  }
  return archive.end(tilesMetadata(from.frame, from.trees));
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
