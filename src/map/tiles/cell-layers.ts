import type { Feature, Geometry } from "geojson";
import { surroundingOf } from "../../core/plan/read-records.ts";
import { type ByteFile, textAt } from "../../formats/tiles/byte-file.ts";
import type { TileLayer } from "../../formats/tiles/cut-tiles.ts";
import { thinned } from "../../formats/tiles/thinned.ts";
import { crownFeatures } from "../features/crown-features.ts";
import { encroachmentFeatures } from "../features/encroachment-features.ts";
import { figureFeatures } from "../features/figure-features.ts";
import { surroundingFeatures } from "../features/surrounding-features.ts";
import { markFeatures } from "../features/tree-marks.ts";
import { wordsWith } from "../words.ts";
import type { ThingPlaces } from "./plan-places.ts";
import { recordPlaces as placeOf, type RecordPlaces } from "./record-places.ts";
import { CELL_ZOOM, PLAN_TILE_LAYERS, type PlanTileLayer, TILE_ZOOMS } from "./tile-layers.ts";
import { type PartSource, treePart } from "./tree-part.ts";

/** Beyond a tile's edge, in its units of 8192: 16 pixels of a tile drawn 512 wide, more than the widest line. */
const BUFFER = 256;
/** Lines may stray by an eighth of a pixel of a tile drawn 512 wide. */
const TOLERANCE = 2;

/** A layer of a cell's tiles from features; points belong to one tile each, so they need no buffer. */
export const placedLayer = (
  { name, minZoom }: PlanTileLayer,
  features: readonly Feature[],
  shape: "points" | "shapes",
): TileLayer => ({
  name,
  features,
  minZoom,
  maxZoom: TILE_ZOOMS.last,
  tolerance: shape === "points" ? 0 : TOLERANCE,
  buffer: shape === "points" ? 0 : BUFFER,
});

/** The layers that show trees close up. `own` are the trees that stand in the cell, in input order; `beside` those whose crowns may reach in. */
export function treeLayers(from: PartSource, own: readonly number[], beside: readonly number[]): TileLayer[] {
  const look = treePart(from, [...own, ...beside]);
  const all = look.marks.map((_, at) => at);
  const marks = markFeatures(look.opened.plan, look.marks).features.slice(0, own.length);
  const placed = marks.map((mark, at) => markOf(mark, placeOf(from, own[at]!), 1));
  return [
    { ...placedLayer(PLAN_TILE_LAYERS.trees, placed, "points"), minZoom: CELL_ZOOM },
    placedLayer(PLAN_TILE_LAYERS.crowns, crownFeatures(look, all).features, "shapes"),
    placedLayer(PLAN_TILE_LAYERS.conflicts, encroachmentFeatures(look, all).features, "shapes"),
    placedLayer(PLAN_TILE_LAYERS.figures, figures(look, all.slice(0, own.length)), "points"),
  ];
}

/** Trees whose records are held together while their marks are made. */
const AT_ONCE = 2000;

/** The marks of some trees by their rows. Of what the marks are made from only a few trees are held at a time. */
export function marksOf(from: PartSource, rows: readonly number[]): Map<number, Feature> {
  const marks = new Map<number, Feature>();
  for (let at = 0; at < rows.length; at += AT_ONCE) {
    const some = rows.slice(at, at + AT_ONCE);
    const look = treePart(from, some);
    for (const [place, mark] of markFeatures(look.opened.plan, look.marks).features.entries())
      marks.set(some[place]!, mark);
  }
  return marks;
}

/** The marks that a zoom keeps of some trees, each with how many it stands for; `marks` has at least those. */
export function thinnedLayer(
  from: PartSource,
  rows: Iterable<number>,
  marks: ReadonlyMap<number, Feature>,
  zoom: number,
): TileLayer {
  const stands = thinned(from.trees, rows, zoom);
  const kept = [...stands].map(([row, count]) => markOf(marks.get(row)!, placeOf(from, row), count));
  return { ...placedLayer(PLAN_TILE_LAYERS.trees, kept, "points"), minZoom: zoom, maxZoom: zoom };
}

/** A mark with the places of its tree's records, and where it stands for more than itself, for how many. */
export const markOf = (mark: Feature, places: RecordPlaces, stands: number): Feature => ({
  ...mark,
  properties: { ...mark.properties, ...places, ...(stands === 1 ? {} : { stands }) },
});

/** The figures in both systems of units, so that a reader may choose. */
function figures(look: Parameters<typeof figureFeatures>[0], rows: readonly number[]): Feature[] {
  const words = wordsWith(undefined);
  const us = figureFeatures(look, rows, "us", words).features;
  const metric = figureFeatures(look, rows, "metric", words).features;
  const { units } = look.opened.plan.options;
  return us.map((feature, at) => {
    const [text_us, text_metric] = [feature.properties?.text, metric[at]?.properties?.text];
    const text = units === "us" ? text_us : text_metric;
    return { ...feature, properties: { ...feature.properties, text, text_us, text_metric } };
  });
}

/** The surroundings at some places of their file, as the map draws them. */
export function surroundingsAt(file: ByteFile, places: ThingPlaces, at: readonly number[]): Feature[] {
  const surroundings = at.map((place) => surroundingOf(featureAt(file, places, place)));
  return surroundingFeatures(surroundings).features;
}

/** The areas of sight at some places of their file, with the members that layers draw by. */
export const sightAt = (file: ByteFile, places: ThingPlaces, at: readonly number[]): Feature[] =>
  at.map((place) => {
    const { id, part, kind, hidden_share } = (featureAt(file, places, place).properties ?? {}) as Record<
      string,
      unknown
    >;
    const { geometry } = featureAt(file, places, place);
    return { type: "Feature", geometry: geometry as Geometry, properties: { id, part, kind, hidden_share } };
  });

const featureAt = (file: ByteFile, { offset, length }: ThingPlaces, place: number): Feature<Geometry | null> =>
  JSON.parse(textAt(file, offset[place]!, length[place]!));
