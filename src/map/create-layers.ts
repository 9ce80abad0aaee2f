import type { GeoJSONSourceSpecification } from "maplibre-gl";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { crownFeatures } from "./features/crown-features.ts";
import { encroachmentFeatures } from "./features/encroachment-features.ts";
import { figureFeatures } from "./features/figure-features.ts";
import { surroundingFeatures } from "./features/surrounding-features.ts";
import { markFeatures, treeMarks } from "./features/tree-marks.ts";
import { zoneBands } from "./features/zone-bands.ts";
import { threadFeatures, zoneAreas, zoneEdges, zoneNames } from "./features/zone-features.ts";
import { SOURCES } from "./ids.ts";
import type { PlanLayer } from "./layers/plan-layer.ts";
import { sightLayers } from "./layers/sight-layers.ts";
import { overheadLayers, roadNameLayer, surroundingsLayers } from "./layers/surroundings-layers.ts";
import { crownLayers, figureLayer, markLayers } from "./layers/tree-layers.ts";
import { threadLayers, zoneAreaLayers, zoneEdgeLayers, zoneNameLayers } from "./layers/zone-layers.ts";
import { type LayerOptions, PARTS } from "./options.ts";
import { type MapImage, mapImages } from "./symbols/mark-images.ts";
import { TOKENS } from "./tokens.ts";
import { wordsWith } from "./words.ts";

/** A plan as style data: put it into a style of your own, or let `addBoughlineLayers` add it to a map. */
export interface PlanStyle {
  readonly sources: Readonly<Record<string, GeoJSONSourceSpecification>>;
  /** In drawing order, bottom first. */
  readonly layers: readonly PlanLayer[];
  readonly images: readonly MapImage[];
}

/** Drawn by the map from the reader's own fonts where a style has no glyphs address; the first name only carries the weight. */
export const LOCAL_TEXT_FONT = ["Semibold", "'Source Sans 3'"] as const;

/** Sources, layers and images that show a plan; with null, the same layers over empty sources. */
export function createLayers(opened: OpenedPlan | null, options: LayerOptions = {}): PlanStyle {
  return { sources: createSources(opened, options), ...createLook(options) };
}

/** The layers and images alone, for a theme that changed. */
export function createLook(options: LayerOptions): Omit<PlanStyle, "sources"> {
  const theme = TOKENS.themes[options.theme ?? "light"];
  const textFont = options.textFont ?? LOCAL_TEXT_FONT;
  const parts = new Set(options.parts ?? PARTS);
  const layers = [
    ...surroundingsLayers(theme),
    ...sightLayers(theme),
    ...zoneAreaLayers(theme),
    ...crownLayers(theme),
    ...zoneEdgeLayers(theme),
    ...overheadLayers(theme),
    roadNameLayer(theme, textFont),
    figureLayer(theme, textFont),
    ...threadLayers(theme, textFont),
    ...markLayers(theme),
    ...zoneNameLayers(theme, textFont),
  ].filter((layer) => parts.has(layer.metadata.part));
  return { layers, images: mapImages(options.theme ?? "light") };
}

/** The sources alone, for a plan or units that changed. */
export function createSources(opened: OpenedPlan | null, options: LayerOptions): PlanStyle["sources"] {
  const words = wordsWith(options.words);
  const empty: GeoJSON.FeatureCollection = { type: "FeatureCollection", features: [] };
  const source = (made: GeoJSON.FeatureCollection, promoteId?: string): GeoJSONSourceSpecification => ({
    type: "geojson",
    data: made,
    ...(promoteId === undefined ? {} : { promoteId }),
  });
  // Crowns keep all their corners, and tiles down to zoom 20, so that close up they stay round.
  const fine = (made: GeoJSON.FeatureCollection, promoteId: string): GeoJSONSourceSpecification => ({
    ...source(made, promoteId),
    tolerance: 0.08,
    maxzoom: 20,
  });
  const marks = opened === null ? [] : treeMarks(opened.plan);
  const of = (make: (plan: OpenedPlan) => GeoJSON.FeatureCollection) => (opened === null ? empty : make(opened));
  const units = options.units ?? opened?.plan.options.units ?? "metric";
  return {
    [SOURCES.surroundings]: source(of(surroundingFeatures)),
    [SOURCES.sight]: source(
      of((from) => from.sight),
      "id",
    ),
    [SOURCES.zones]: fine(
      of((from) => zoneAreas(from.plan)),
      "zone",
    ),
    [SOURCES.zoneBands]: source(
      of((from) => zoneBands(from.plan, words)),
      "zone",
    ),
    [SOURCES.zoneEdges]: fine(
      of((from) => zoneEdges(from.plan)),
      "zone",
    ),
    // Few and large tiles, so that a name is not cut in two where tiles meet.
    [SOURCES.zoneNames]: {
      ...source(
        of((from) => zoneNames(from.plan, words)),
        "zone",
      ),
      maxzoom: 15,
    },
    [SOURCES.crowns]: fine(
      of((from) => crownFeatures(from.plan, marks)),
      "tree",
    ),
    [SOURCES.encroachments]: fine(
      of((from) => encroachmentFeatures(from.plan, marks)),
      "conflict",
    ),
    [SOURCES.trees]: source(
      of((from) => markFeatures(from.plan, marks)),
      "tree",
    ),
    [SOURCES.figures]: source(
      of((from) => figureFeatures(from.plan, marks, units, words)),
      "tree",
    ),
    [SOURCES.thread]: source(
      of((from) => threadFeatures(from.plan, null)),
      "number",
    ),
  };
}
