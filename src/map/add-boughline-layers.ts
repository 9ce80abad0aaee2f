import type {
  GeoJSONSource,
  Map as MapLibreMap,
  MapMouseEvent,
  StyleSpecification,
  SymbolLayerSpecification,
} from "maplibre-gl";
import type { Tree } from "../core/model/trees.ts";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { createLayers, createSources, type PlanStyle } from "./create-layers.ts";
import type { BoughlineEvents } from "./events.ts";
import { threadFeatures } from "./features/zone-features.ts";
import { PREFIX, SOURCES } from "./ids.ts";
import { zoneEdgeOpacity } from "./layers/zone-layers.ts";
import { type AddOptions, PARTS, type Part, type TreeFilter } from "./options.ts";
import { filterExpression } from "./tree-filter.ts";
import { type TypedEvents, TypedEventTarget } from "./typed-events.ts";

/** A plan on a map. Its methods may be called at any time, before the map has loaded and across changes of the host's style. */
export interface BoughlineHandle extends TypedEvents<BoughlineEvents> {
  readonly plan: OpenedPlan | null;
  readonly selectedTreeId: string | null;
  readonly selectedZoneId: string | null;
  /** Shows another plan; keeps what is selected where the new plan has it too. */
  setPlan(opened: OpenedPlan | null): void;
  /** Keeps marks only for trees that meet the filter; null shows all. */
  setFilter(filter: TreeFilter | null): void;
  /** Selects a tree, or none. An unknown id selects none. */
  select(treeId: string | null): void;
  /** Selects a zone and shows its order of work, or none. An unknown id selects none. */
  selectZone(zoneId: string | null): void;
  setTheme(theme: "light" | "dark"): void;
  /** Shows these parts and hides the others, of those that were added. */
  setParts(parts: readonly Part[]): void;
  setUnits(units: DisplayUnits): void;
  /** Takes everything off the map again. The handle is of no use afterwards. */
  remove(): void;
}

/** Half the side in CSS pixels of the square around a click or tap in which a tree is still meant. */
const REACH_PX = 6;
const TREE_LAYERS = ["boughline-marks", "boughline-tree-dots", "boughline-crowns"];
const ZONE_LAYERS = ["boughline-zone-names", "boughline-zone-edges", "boughline-zones"];

/** Adds a plan's layers to a map, at once or as soon as its style has loaded, and keeps them there when the host changes style. */
export function addBoughlineLayers(
  map: MapLibreMap,
  opened: OpenedPlan | null,
  options: AddOptions = {},
): BoughlineHandle {
  return new LayersOnMap(map, opened, options);
}

class LayersOnMap extends TypedEventTarget<BoughlineEvents> implements BoughlineHandle {
  plan: OpenedPlan | null;
  selectedTreeId: string | null = null;
  selectedZoneId: string | null = null;
  readonly #map: MapLibreMap;
  #options: AddOptions;
  #treeOf: ReadonlyMap<string, Tree>;
  #filter: TreeFilter | null = null;
  #shownParts: ReadonlySet<Part> | null = null;
  #hovered: { source: string; id: string } | null = null;
  #style: PlanStyle | null = null;
  readonly #subscriptions: { unsubscribe(): void }[] = [];

  constructor(map: MapLibreMap, opened: OpenedPlan | null, options: AddOptions) {
    super();
    this.#map = map;
    this.#options = options;
    this.plan = opened;
    this.#treeOf = treesById(opened);
    this.#subscriptions.push(
      map.on("style.load", () => this.#guarded(() => this.#addAll())),
      map.on("click", (event) => this.#guarded(() => this.#pick(event))),
      map.on("mousemove", (event) => this.#guarded(() => this.#hover(event))),
      map.on("mouseout", () => this.#guarded(() => this.#setHovered(null))),
    );
    this.#guarded(() => {
      if (map.getStyle() !== undefined) this.#addAll();
    });
  }

  setPlan(opened: OpenedPlan | null): void {
    this.plan = opened;
    this.#treeOf = treesById(opened);
    const hasTree = this.selectedTreeId !== null && this.#treeOf.has(this.selectedTreeId);
    const hasZone = opened?.plan.zones.some((zone) => zone.zoneId === this.selectedZoneId) ?? false;
    if (!hasTree) this.select(null);
    if (!hasZone) this.selectZone(null);
    this.#refreshSources();
    if (this.#style !== null && opened !== null) this.#emit("planload", { opened });
  }

  setFilter(filter: TreeFilter | null): void {
    this.#filter = filter;
    for (const layer of this.#style?.layers ?? []) {
      if (layer.metadata.trees === true && this.#map.getLayer(layer.id) !== undefined) {
        const own = "filter" in layer ? layer.filter : undefined;
        this.#map.setFilter(layer.id, filterExpression(own, filter) ?? null);
      }
    }
  }

  select(treeId: string | null): void {
    const row = this.plan?.plan.trees.findIndex((tree) => tree.id === treeId) ?? -1;
    const next = row === -1 ? null : treeId;
    if (next === this.selectedTreeId) return;
    this.#markSelected("tree", this.selectedTreeId, false);
    this.selectedTreeId = next;
    this.#markSelected("tree", next, true);
    this.#emit("treeselect", { treeId: next, feature: row === -1 ? null : (this.plan?.trees.features[row] ?? null) });
  }

  selectZone(zoneId: string | null): void {
    const row = this.plan?.plan.zones.findIndex((zone) => zone.zoneId === zoneId) ?? -1;
    const next = row === -1 ? null : zoneId;
    if (next === this.selectedZoneId) return;
    this.#markSelected("zone", this.selectedZoneId, false);
    this.selectedZoneId = next;
    this.#markSelected("zone", next, true);
    this.#showThread();
    this.#emit("zoneselect", { zoneId: next, feature: row === -1 ? null : (this.plan?.zones.features[row] ?? null) });
  }

  setTheme(theme: "light" | "dark"): void {
    this.#options = { ...this.#options, theme };
    if (this.#style === null) return;
    const before = this.#style;
    this.#style = this.#createStyle();
    for (const image of this.#style.images) {
      if (this.#map.hasImage(image.id)) this.#map.updateImage(image.id, image);
    }
    const old = new Map(before.layers.map((layer) => [layer.id, layer]));
    for (const layer of this.#style.layers) {
      if (this.#map.getLayer(layer.id) === undefined) continue;
      const oldPaint = (old.get(layer.id)?.paint ?? {}) as Record<string, unknown>;
      for (const [name, value] of Object.entries(layer.paint ?? {})) {
        if (JSON.stringify(oldPaint[name]) !== JSON.stringify(value))
          this.#map.setPaintProperty(layer.id, name as never, value as never);
      }
    }
  }

  setParts(parts: readonly Part[]): void {
    this.#shownParts = new Set(parts);
    for (const layer of this.#style?.layers ?? []) {
      if (this.#map.getLayer(layer.id) === undefined) continue;
      const visibility = this.#shownParts.has(layer.metadata.part) ? "visible" : "none";
      this.#map.setLayoutProperty(layer.id, "visibility", visibility);
    }
  }

  setUnits(units: DisplayUnits): void {
    this.#options = { ...this.#options, units };
    this.#refreshSources();
  }

  remove(): void {
    for (const subscription of this.#subscriptions.splice(0)) subscription.unsubscribe();
    this.#guarded(() => {
      this.#setHovered(null);
      if (this.#style === null || this.#map.getStyle() === undefined) return;
      for (const layer of [...this.#style.layers].reverse()) {
        if (this.#map.getLayer(layer.id) !== undefined) this.#map.removeLayer(layer.id);
      }
      for (const id of Object.keys(this.#style.sources)) {
        if (this.#map.getSource(id) !== undefined) this.#map.removeSource(id);
      }
      for (const image of this.#style.images) {
        if (this.#map.hasImage(image.id)) this.#map.removeImage(image.id);
      }
    });
    this.#style = null;
  }

  #addAll(): void {
    const map = this.#map;
    const host = map.getStyle();
    if (host === undefined) return;
    this.#style = this.#createStyle();
    const beforeId = this.#beforeId(host);
    for (const image of this.#style.images) {
      if (!map.hasImage(image.id)) map.addImage(image.id, image, { pixelRatio: image.pixelRatio });
    }
    for (const [id, source] of Object.entries(this.#style.sources)) {
      if (map.getSource(id) === undefined) map.addSource(id, source);
    }
    for (const layer of this.#style.layers) {
      if (map.getLayer(layer.id) === undefined) map.addLayer(layer, beforeId);
    }
    this.#markSelected("tree", this.selectedTreeId, true);
    this.#markSelected("zone", this.selectedZoneId, true);
    this.#showThread();
    if (this.#filter !== null) this.setFilter(this.#filter);
    if (this.#shownParts !== null) this.setParts([...this.#shownParts]);
    if (this.plan !== null) this.#emit("planload", { opened: this.plan });
  }

  #createStyle(): PlanStyle {
    const host = this.#map.getStyle();
    const own = host === undefined ? [] : host.layers.filter((layer) => !layer.id.startsWith(PREFIX));
    const showsMap = own.some((layer) => layer.type !== "background");
    const parts = this.#options.parts ?? PARTS.filter((part) => part !== "surroundings" || !showsMap);
    const textFont = this.#options.textFont ?? (host === undefined ? undefined : hostFont(host));
    return createLayers(this.plan, { ...this.#options, parts, ...(textFont === undefined ? {} : { textFont }) });
  }

  #beforeId(host: StyleSpecification): string | undefined {
    const { beforeId } = this.#options;
    if (typeof beforeId === "function") return beforeId(host);
    if (beforeId !== undefined) return this.#map.getLayer(beforeId) === undefined ? undefined : beforeId;
    return host.layers.find((layer) => layer.type === "symbol" && !layer.id.startsWith(PREFIX))?.id;
  }

  #refreshSources(): void {
    if (this.#style === null) return;
    const sources = createSources(this.plan, this.#options);
    this.#style = { ...this.#style, sources };
    for (const [id, source] of Object.entries(sources)) this.#setData(id, source.data as GeoJSON.FeatureCollection);
    this.#showThread();
  }

  #showThread(): void {
    const edges = "boughline-zone-edges";
    if (this.#map.getLayer(edges) !== undefined)
      this.#map.setPaintProperty(edges, "line-opacity", zoneEdgeOpacity(this.selectedZoneId !== null));
    if (this.plan !== null) this.#setData(SOURCES.thread, threadFeatures(this.plan.plan, this.selectedZoneId));
  }

  #setData(id: string, collection: GeoJSON.FeatureCollection): void {
    const source = this.#map.getSource(id) as GeoJSONSource | undefined;
    // A promise on 6, the source itself on 5.
    Promise.resolve(source?.setData(collection)).catch((error: unknown) => this.#report(error));
  }

  #markSelected(what: "tree" | "zone", id: string | null, selected: boolean): void {
    if (id === null) return;
    const sources = what === "tree" ? [SOURCES.trees, SOURCES.crowns] : [SOURCES.zoneEdges];
    for (const source of sources) {
      if (this.#map.getSource(source) !== undefined) this.#map.setFeatureState({ source, id }, { selected });
    }
  }

  #pick(event: MapMouseEvent): void {
    if (this.#style === null || event.defaultPrevented) return;
    const treeId = this.#treeAt(event);
    const zoneId = treeId === null ? this.#memberAt(event, ZONE_LAYERS, "zone") : null;
    this.select(treeId);
    if (zoneId !== null || treeId === null) this.selectZone(zoneId);
  }

  #hover(event: MapMouseEvent): void {
    if (this.#style === null) return;
    const treeId = this.#treeAt(event);
    const zoneId = treeId === null ? this.#memberAt(event, ZONE_LAYERS, "zone") : null;
    this.#setHovered(treeId ?? zoneId, treeId === null ? "zone" : "tree");
  }

  #setHovered(id: string | null, what: "tree" | "zone" = "tree"): void {
    const source = what === "tree" ? SOURCES.trees : SOURCES.zoneEdges;
    const before = this.#hovered;
    if (before?.id === id && before?.source === source) return;
    if (before !== null) this.#setHoverState(before.source, before.id, false);
    this.#hovered = id === null ? null : { source, id };
    if (id !== null) this.#setHoverState(source, id, true);
    const canvas = this.#map.getCanvas();
    if (id !== null) canvas.style.cursor = "pointer";
    else if (before !== null) canvas.style.cursor = "";
  }

  #setHoverState(source: string, id: string, hover: boolean): void {
    for (const one of source === SOURCES.trees ? [source, SOURCES.crowns] : [source]) {
      if (this.#map.getSource(one) !== undefined) this.#map.setFeatureState({ source: one, id }, { hover });
    }
  }

  /** The tree at a point: the one whose trunk is nearest among those under it. */
  #treeAt(event: MapMouseEvent): string | null {
    const { x, y } = event.point;
    const layers = TREE_LAYERS.filter((id) => this.#map.getLayer(id) !== undefined);
    if (layers.length === 0) return null;
    const found = this.#map.queryRenderedFeatures(
      [
        [x - REACH_PX, y - REACH_PX],
        [x + REACH_PX, y + REACH_PX],
      ],
      { layers },
    );
    let nearest: string | null = null;
    let nearestPx = Number.POSITIVE_INFINITY;
    for (const feature of found) {
      const treeId: unknown = feature.properties.tree;
      const tree = typeof treeId === "string" ? this.#treeOf.get(treeId) : undefined;
      if (tree === undefined) continue;
      const at = this.#map.project([tree.lonDeg, tree.latDeg]);
      const distancePx = Math.hypot(at.x - x, at.y - y);
      if (distancePx < nearestPx) {
        nearest = tree.id;
        nearestPx = distancePx;
      }
    }
    return nearest;
  }

  #memberAt(event: MapMouseEvent, ids: readonly string[], member: string): string | null {
    const layers = ids.filter((id) => this.#map.getLayer(id) !== undefined);
    if (layers.length === 0) return null;
    const value: unknown = this.#map.queryRenderedFeatures(event.point, { layers })[0]?.properties[member];
    return typeof value === "string" ? value : null;
  }

  #emit<K extends keyof BoughlineEvents>(type: K, detail: BoughlineEvents[K]): void {
    this.dispatchEvent(new CustomEvent(type, { detail }));
  }

  #guarded(act: () => void): void {
    try {
      act();
    } catch (error) {
      this.#report(error);
    }
  }

  #report(error: unknown): void {
    this.#emit("error", { error: error instanceof Error ? error : new Error(String(error)) });
  }
}

const treesById = (opened: OpenedPlan | null): ReadonlyMap<string, Tree> =>
  new Map((opened?.plan.trees ?? []).map((tree) => [tree.id, tree]));

/** The fonts of the host's first labels where it fetches glyphs; undefined where labels come from local fonts. */
function hostFont(host: StyleSpecification): readonly string[] | undefined {
  if (host.glyphs === undefined) return undefined;
  for (const layer of host.layers) {
    const font = layer.type === "symbol" ? (layer as SymbolLayerSpecification).layout?.["text-font"] : undefined;
    if (Array.isArray(font) && font.every((name) => typeof name === "string") && font[0] !== "literal")
      return font as string[];
  }
  return ["Open Sans Regular", "Arial Unicode MS Regular"];
}
