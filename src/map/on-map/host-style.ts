import type { Map as MapLibreMap, StyleSpecification, SymbolLayerSpecification } from "maplibre-gl";
import { PREFIX } from "../ids.ts";
import type { AddOptions } from "../options.ts";

/** Whether a host's style draws more than a bare background of its own. */
export function showsMap(host: StyleSpecification): boolean {
  return host.layers.some((layer) => !layer.id.startsWith(PREFIX) && layer.type !== "background");
}

/** The host's layer below which the plan goes: as asked where that layer is there, else its first symbol layer; undefined for the top. */
export function layerAbove(
  map: MapLibreMap,
  host: StyleSpecification,
  beforeId: AddOptions["beforeId"],
): string | undefined {
  if (typeof beforeId === "function") return beforeId(host);
  if (beforeId !== undefined) return map.getLayer(beforeId) === undefined ? undefined : beforeId;
  return host.layers.find((layer) => layer.type === "symbol" && !layer.id.startsWith(PREFIX))?.id;
}

/** The fonts of the host's first labels where it fetches glyphs; undefined where labels come from local fonts. */
export function hostFont(host: StyleSpecification): readonly string[] | undefined {
  if (host.glyphs === undefined) return undefined;
  for (const layer of host.layers) {
    const font = layer.type === "symbol" ? (layer as SymbolLayerSpecification).layout?.["text-font"] : undefined;
    if (Array.isArray(font) && font.every((name) => typeof name === "string") && font[0] !== "literal")
      return font as string[];
  }
  return ["Open Sans Regular", "Arial Unicode MS Regular"];
}
