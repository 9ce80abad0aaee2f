import type { GeoJSONFeatureDiff, GeoJSONSource, Map as MapLibreMap } from "maplibre-gl";
import type { PlanStyle } from "../create-layers.ts";
import type { PlanSources } from "../create-sources.ts";
import type { Part, TreeFilter } from "../options.ts";
import { filterExpression } from "../tree-filter.ts";

/**
 * A plan's sources, layers and images as they stand on a map. What of them the host has taken away meanwhile is passed over by every
 * method.
 */
export class PlacedStyle {
  readonly #map: MapLibreMap;
  #style: PlanStyle;

  /** Puts on the map what is not there yet: layers in their order below `beforeId`, or on top. */
  constructor(map: MapLibreMap, style: PlanStyle, beforeId: string | undefined) {
    this.#map = map;
    this.#style = style;
    for (const image of style.images) {
      if (!map.hasImage(image.id)) map.addImage(image.id, image, { pixelRatio: image.pixelRatio });
    }
    for (const [id, source] of Object.entries(style.sources)) {
      if (map.getSource(id) === undefined) map.addSource(id, source);
    }
    for (const layer of style.layers) {
      if (map.getLayer(layer.id) === undefined) map.addLayer(layer, beforeId);
    }
  }

  /** Takes over the colors and images of the same layers. */
  repaint(next: Omit<PlanStyle, "sources">): void {
    const map = this.#map;
    const before = new Map(this.#style.layers.map((layer) => [layer.id, layer]));
    this.#style = { ...this.#style, ...next };
    for (const image of next.images) {
      if (map.hasImage(image.id)) map.updateImage(image.id, image);
    }
    for (const layer of next.layers) {
      if (map.getLayer(layer.id) === undefined) continue;
      const old = (before.get(layer.id)?.paint ?? {}) as Record<string, unknown>;
      for (const [name, value] of Object.entries(layer.paint ?? {})) {
        if (JSON.stringify(old[name]) !== JSON.stringify(value))
          map.setPaintProperty(layer.id, name as never, value as never);
      }
    }
  }

  /** Shows other data in the same layers; resolves when the map has taken them. */
  async refill(sources: PlanSources): Promise<void> {
    await Promise.all(
      Object.entries(sources).map(([id, source]) => this.setData(id, source.data as GeoJSON.FeatureCollection)),
    );
  }

  async setData(id: string, collection: GeoJSON.FeatureCollection): Promise<void> {
    const source = this.#map.getSource(id) as GeoJSONSource | undefined;
    // A promise on 6, the source itself on 5.
    await source?.setData(collection);
  }

  /** Changes members of features by their ids; resolves when the map has taken them. */
  async update(id: string, changes: readonly GeoJSONFeatureDiff[]): Promise<void> {
    const source = this.#map.getSource(id) as GeoJSONSource | undefined;
    if (changes.length > 0) await source?.updateData({ update: [...changes] });
  }

  setFilter(filter: TreeFilter | null): void {
    for (const layer of this.#style.layers) {
      if (layer.metadata.trees !== true || this.#map.getLayer(layer.id) === undefined) continue;
      const own = "filter" in layer ? layer.filter : undefined;
      this.#map.setFilter(layer.id, filterExpression(own, filter) ?? null);
    }
  }

  setParts(parts: ReadonlySet<Part>): void {
    for (const layer of this.#style.layers) {
      if (this.#map.getLayer(layer.id) === undefined) continue;
      const isInTheWay = layer.metadata.flat === true && parts.has("solids");
      const visibility = parts.has(layer.metadata.part) && !isInTheWay ? "visible" : "none";
      this.#map.setLayoutProperty(layer.id, "visibility", visibility);
    }
  }

  setPaint(layerId: string, name: string, value: unknown): void {
    if (this.#map.getLayer(layerId) !== undefined) this.#map.setPaintProperty(layerId, name as never, value as never);
  }

  remove(): void {
    const map = this.#map;
    if (map.getStyle() === undefined) return;
    for (const layer of [...this.#style.layers].reverse()) {
      if (map.getLayer(layer.id) !== undefined) map.removeLayer(layer.id);
    }
    for (const id of Object.keys(this.#style.sources)) {
      if (map.getSource(id) !== undefined) map.removeSource(id);
    }
    for (const image of this.#style.images) {
      if (map.hasImage(image.id)) map.removeImage(image.id);
    }
  }
}
