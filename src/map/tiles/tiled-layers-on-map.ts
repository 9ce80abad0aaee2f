import type { Map as MapLibreMap, MapMouseEvent } from "maplibre-gl";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { BoughlineHandle } from "../boughline-handle.ts";
import { createLook } from "../create-layers.ts";
import type { BoughlineEvents } from "../events.ts";
import { threadFeatures } from "../features/zone-features.ts";
import { SOURCES } from "../ids.ts";
import { zonePaint } from "../layers/zone-layers.ts";
import { hostFont, layerAbove, showsMap } from "../on-map/host-style.ts";
import { PlacedStyle } from "../on-map/placed-style.ts";
import type { UnderPointer } from "../on-map/under-pointer.ts";
import { type AddOptions, FLAT_PARTS, type LayerOptions, type Part, type TreeFilter } from "../options.ts";
import { type ThemeName, TOKENS } from "../tokens.ts";
import { TypedEventTarget } from "../typed-events.ts";
import { OpenedPart } from "./opened-part.ts";
import { treePlacesOnMap, underTiledPointer } from "./tiled-features.ts";
import type { TiledPlan } from "./tiled-plan.ts";
import { figureMember, setTiledState, tiledLayers, tilesSource } from "./tiled-style.ts";

const WHOLE = "needs the whole plan: add it by its files in place of its tiles";
const EMPTY = { type: "FeatureCollection" as const, features: [] };

/** A plan by its tiles on a map: layers, symbols, filter and selection as of a whole plan; cards of the trees that are selected. */
export class TiledLayersOnMap extends TypedEventTarget<BoughlineEvents> implements BoughlineHandle {
  selectedTreeId: string | null = null;
  selectedZoneId: string | null = null;
  isOpening = true;
  readonly #map: MapLibreMap;
  readonly #from: TiledPlan;
  readonly #part: OpenedPart;
  // Protocols are known to all maps together, so each plan has one of its own.
  readonly #protocol = `boughline-${Math.random().toString(36).slice(2)}`;
  readonly #subscriptions: { unsubscribe(): void }[] = [];
  #options: AddOptions;
  #bounds: [number, number, number, number] | null = null;
  #placed: PlacedStyle | null = null;
  #filter: TreeFilter | null = null;
  #shownParts: ReadonlySet<Part> | null = null;
  #hovered: UnderPointer | null = null;
  #isPicking = true;
  #isRemoved = false;

  constructor(map: MapLibreMap, from: TiledPlan, options: AddOptions) {
    super();
    this.#map = map;
    this.#from = from;
    this.#part = new OpenedPart(from);
    this.#options = options;
    from.host.addProtocol(this.#protocol, async ({ url }, abort) => {
      const [zoom, x, y] = url.split("/").slice(-3).map(Number);
      const tile = await from.tiles.getZxy(zoom!, x!, y!, abort.signal);
      return { data: tile?.data ?? new ArrayBuffer(0) };
    });
    this.#subscriptions.push(
      map.on("style.load", () => this.#guarded(() => this.#place())),
      map.on("click", (event) => this.#guarded(() => this.#pick(event))),
      map.on("mousemove", (event) => this.#guarded(() => this.#point(event))),
      map.on("mouseout", () => this.#guarded(() => this.#setHovered(null))),
    );
    void this.#open();
  }

  /** What of the plan is held: its options and zones, and the trees that were selected. */
  get plan(): OpenedPlan | null {
    return this.#part.opened;
  }

  async load(): Promise<null> {
    this.#report(new Error(`Another plan cannot take the place of tiles: remove them and add it`));
    return null;
  }

  setPlan(): void {
    void this.load();
  }

  setDate(dated: unknown): void {
    if (dated !== null) this.#report(new Error(`Another date ${WHOLE}`));
  }

  setFilter(filter: TreeFilter | null): void {
    this.#filter = filter;
    this.#placed?.setFilter(filter);
  }

  setTheme(theme: ThemeName): void {
    this.#options = { ...this.#options, theme };
    this.#placed?.repaint(this.#look());
    this.#showSelectedZone();
  }

  setParts(parts: readonly Part[]): void {
    this.#shownParts = new Set(parts);
    this.#placed?.setParts(this.#shownParts);
  }

  setUnits(units: DisplayUnits): void {
    this.#options = { ...this.#options, units };
    if (this.#map.getLayer("boughline-figures") !== undefined)
      this.#map.setLayoutProperty("boughline-figures", "text-field", ["get", figureMember(units)]);
  }

  setPicking(isPicking: boolean): void {
    this.#isPicking = isPicking;
    if (!isPicking) this.#guarded(() => this.#setHovered(null));
  }

  /** Selects a tree of the tiles that are loaded, or none; its card and event come once its records are read. */
  select(treeId: string | null): void {
    if (treeId === this.selectedTreeId) return;
    const places =
      treeId === null ? undefined : treePlacesOnMap(this.#map, ["==", ["get", "tree"], treeId]).get(treeId);
    const next = places === undefined ? null : treeId;
    if (next === this.selectedTreeId) return;
    this.#mark("tree", this.selectedTreeId, false);
    this.selectedTreeId = next;
    this.#mark("tree", next, true);
    if (next === null || places === undefined) {
      this.#emit("treeselect", { treeId: null, feature: null });
      return;
    }
    const read = async () => {
      await this.#part.take(next, places);
      if (this.selectedTreeId !== next || this.#isRemoved) return;
      const feature = this.plan?.trees.features.find(({ id }) => id === next) ?? null;
      this.#emit("treeselect", { treeId: next, feature });
    };
    read().catch((error: unknown) => this.#report(error));
  }

  /** Selects a zone, or none; its order of work goes through the trees of it that are loaded. */
  selectZone(zoneId: string | null): void {
    const zone = this.plan?.zones.features.find(({ properties }) => properties?.zone === zoneId);
    const next = zone === undefined ? null : zoneId;
    if (next === this.selectedZoneId) return;
    this.#mark("zone", this.selectedZoneId, false);
    this.selectedZoneId = next;
    this.#mark("zone", next, true);
    const tell = () => {
      this.#showSelectedZone();
      this.#emit("zoneselect", { zoneId: next, feature: zone ?? null });
    };
    if (next === null) {
      tell();
      return;
    }
    const places = [...treePlacesOnMap(this.#map, ["==", ["get", "zone"], next])];
    Promise.all(places.map(([treeId, at]) => this.#part.take(treeId, at)))
      .then(() => {
        if (this.selectedZoneId === next && !this.#isRemoved) tell();
      })
      .catch((error: unknown) => this.#report(error));
  }

  remove(): void {
    if (this.#isRemoved) return;
    this.#isRemoved = true;
    for (const subscription of this.#subscriptions.splice(0)) subscription.unsubscribe();
    this.#guarded(() => {
      this.#setHovered(null);
      this.#placed?.remove();
    });
    this.#placed = null;
    this.#from.host.removeProtocol(this.#protocol);
  }

  async #open(): Promise<void> {
    try {
      const [header] = await Promise.all([this.#from.tiles.getHeader(), this.#part.open()]);
      if (this.#isRemoved) return;
      const { minLon, minLat, maxLon, maxLat } = header;
      this.#bounds = [minLon, minLat, maxLon, maxLat];
      this.isOpening = false;
      if (this.#options.fit === true) this.#map.fitBounds(this.#bounds, { padding: 48, maxZoom: 19, animate: false });
      if (this.#map.getStyle() !== undefined) this.#place();
    } catch (error) {
      this.isOpening = false;
      this.#report(error);
    }
  }

  #place(): void {
    const host = this.#map.getStyle();
    if (host === undefined || this.#bounds === null || this.#isRemoved) return;
    const above = layerAbove(this.#map, host, this.#options.beforeId);
    const sources = {
      ...tilesSource(this.#protocol, this.#bounds),
      [SOURCES.thread]: { type: "geojson" as const, data: EMPTY, promoteId: "number" },
    };
    this.#placed = new PlacedStyle(this.#map, { sources, ...this.#look() }, above);
    this.#mark("tree", this.selectedTreeId, true);
    this.#mark("zone", this.selectedZoneId, true);
    this.#showSelectedZone();
    if (this.#filter !== null) this.#placed.setFilter(this.#filter);
    if (this.#shownParts !== null) this.#placed.setParts(this.#shownParts);
    if (this.plan !== null) this.#emit("planload", { opened: this.plan });
  }

  #look(): ReturnType<typeof createLook> {
    const host = this.#map.getStyle();
    const ownGround = host === undefined || !showsMap(host);
    const parts = this.#options.parts ?? FLAT_PARTS.filter((part) => part !== "surroundings" || ownGround);
    const textFont = this.#options.textFont ?? (host === undefined ? undefined : hostFont(host));
    const options: LayerOptions = { ...this.#options, parts, ...(textFont === undefined ? {} : { textFont }) };
    const look = createLook(options);
    const units = this.#options.units ?? this.plan?.plan.options.units ?? "metric";
    return { ...look, layers: tiledLayers(look.layers, new Set([SOURCES.thread]), units) };
  }

  #showSelectedZone(): void {
    const theme = TOKENS.themes[this.#options.theme ?? "light"];
    for (const [layerId, name, value] of zonePaint(theme, this.selectedZoneId !== null))
      this.#placed?.setPaint(layerId, name, value);
    if (this.plan === null) return;
    this.#placed
      ?.setData(SOURCES.thread, threadFeatures(this.plan.plan, this.selectedZoneId))
      .catch((error: unknown) => this.#report(error));
  }

  #mark(what: UnderPointer["what"], id: string | null, selected: boolean): void {
    if (id !== null) setTiledState(this.#map, { what, id }, { selected });
  }

  #pick(event: MapMouseEvent): void {
    if (this.#placed === null || !this.#isPicking || event.defaultPrevented) return;
    const found = underTiledPointer(this.#map, event.point);
    this.select(found?.what === "tree" ? found.id : null);
    if (found?.what !== "tree") this.selectZone(found?.id ?? null);
  }

  #point(event: MapMouseEvent): void {
    if (this.#placed !== null && this.#isPicking) this.#setHovered(underTiledPointer(this.#map, event.point));
  }

  #setHovered(next: UnderPointer | null): void {
    const before = this.#hovered;
    if (before?.id === next?.id && before?.what === next?.what) return;
    if (before !== null) setTiledState(this.#map, before, { hover: false });
    this.#hovered = next;
    if (next !== null) setTiledState(this.#map, next, { hover: true });
    this.#map.getCanvas().style.cursor = next === null ? "" : "pointer";
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
