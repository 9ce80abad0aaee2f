import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { createSources, type PlanSources } from "./create-sources.ts";
import type { PlanLayer } from "./layers/plan-layer.ts";
import { sightLayers } from "./layers/sight-layers.ts";
import { solidLayers } from "./layers/solid-layers.ts";
import { overheadLayers, roadNameLayer, surroundingsLayers } from "./layers/surroundings-layers.ts";
import { crownLayers, figureLayer, markLayers } from "./layers/tree-layers.ts";
import { threadLayers, zoneAreaLayers, zoneEdgeLayers, zoneNameLayers } from "./layers/zone-layers.ts";
import { FLAT_PARTS, type LayerOptions } from "./options.ts";
import { type MapImage, mapImages } from "./symbols/mark-images.ts";
import { TOKENS } from "./tokens.ts";

/** A plan as style data: put it into a style of your own, or let `addBoughlineLayers` add it to a map. */
export interface PlanStyle {
  readonly sources: PlanSources;
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
  const parts = new Set(options.parts ?? FLAT_PARTS);
  const layers = [
    ...surroundingsLayers(theme),
    ...sightLayers(theme),
    ...zoneAreaLayers(theme),
    ...crownLayers(theme),
    ...solidLayers(theme),
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
