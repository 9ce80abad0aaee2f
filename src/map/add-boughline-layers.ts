import type { Map as MapLibreMap, MapMouseEvent } from "maplibre-gl";
import type { Tree } from "../core/model/trees.ts";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import type { BoughlineHandle } from "./boughline-handle.ts";
import { createLook } from "./create-layers.ts";
import { closeSources, farSources, type PlanSources } from "./create-sources.ts";
import type { BoughlineEvents } from "./events.ts";
import { threadFeatures } from "./features/zone-features.ts";
import { SOURCES } from "./ids.ts";
import { CROWNS_FROM_ZOOM } from "./layers/tree-layers.ts";
import { zonePaint } from "./layers/zone-layers.ts";
import { setFeatureState } from "./on-map/feature-states.ts";
import { hostFont, layerAbove, showsMap } from "./on-map/host-style.ts";
import { PlacedStyle } from "./on-map/placed-style.ts";
import { type UnderPointer, underPointer } from "./on-map/under-pointer.ts";
import { type AddOptions, type LayerOptions, PARTS, type Part, type TreeFilter } from "./options.ts";
import { TOKENS } from "./tokens.ts";
import { TypedEventTarget } from "./typed-events.ts";

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
  #hovered: UnderPointer | null = null;
  #placed: PlacedStyle | null = null;
  /** Whether what is drawn close up only is still to be brought, once the map has come to rest. */
  #owesCloseUp = false;
  readonly #subscriptions: { unsubscribe(): void }[] = [];

  constructor(map: MapLibreMap, opened: OpenedPlan | null, options: AddOptions) {
    super();
    this.#map = map;
    this.#options = options;
    this.plan = opened;
    this.#treeOf = treesById(opened);
    this.#subscriptions.push(
      map.on("style.load", () => this.#guarded(() => this.#place())),
      map.on("click", (event) => this.#guarded(() => this.#pick(event))),
      map.on("mousemove", (event) => this.#guarded(() => this.#point(event))),
      map.on("mouseout", () => this.#guarded(() => this.#setHovered(null))),
      map.on("idle", () => this.#guarded(() => this.#bringCloseUp())),
    );
    this.#guarded(() => {
      if (map.getStyle() !== undefined) this.#place();
    });
  }

  setPlan(opened: OpenedPlan | null): void {
    this.plan = opened;
    this.#treeOf = treesById(opened);
    const hasTree = this.selectedTreeId !== null && this.#treeOf.has(this.selectedTreeId);
    const hasZone = opened?.plan.zones.some((zone) => zone.zoneId === this.selectedZoneId) ?? false;
    if (!hasTree) this.select(null);
    if (!hasZone) this.selectZone(null);
    this.#refill();
    if (this.#placed !== null && opened !== null) this.#emit("planload", { opened });
  }

  setFilter(filter: TreeFilter | null): void {
    this.#filter = filter;
    this.#placed?.setFilter(filter);
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
    this.#showSelectedZone();
    this.#emit("zoneselect", { zoneId: next, feature: row === -1 ? null : (this.plan?.zones.features[row] ?? null) });
  }

  setTheme(theme: "light" | "dark"): void {
    this.#options = { ...this.#options, theme };
    this.#placed?.repaint(createLook(this.#styleOptions()));
    this.#showSelectedZone();
  }

  setParts(parts: readonly Part[]): void {
    this.#shownParts = new Set(parts);
    this.#placed?.setParts(this.#shownParts);
  }

  setUnits(units: DisplayUnits): void {
    this.#options = { ...this.#options, units };
    this.#refill();
  }

  remove(): void {
    for (const subscription of this.#subscriptions.splice(0)) subscription.unsubscribe();
    this.#guarded(() => {
      this.#setHovered(null);
      this.#placed?.remove();
    });
    this.#placed = null;
  }

  #place(): void {
    const host = this.#map.getStyle();
    if (host === undefined) return;
    const above = layerAbove(this.#map, host, this.#options.beforeId);
    const options = this.#styleOptions();
    const sources = { ...farSources(this.plan, options), ...this.#closeSources() };
    this.#placed = new PlacedStyle(this.#map, { sources, ...createLook(options) }, above);
    this.#markSelected("tree", this.selectedTreeId, true);
    this.#markSelected("zone", this.selectedZoneId, true);
    this.#showSelectedZone();
    if (this.#filter !== null) this.#placed.setFilter(this.#filter);
    if (this.#shownParts !== null) this.#placed.setParts(this.#shownParts);
    if (this.plan !== null) this.#emit("planload", { opened: this.plan });
  }

  /** The options with what the host's style decides in place of what was left open. */
  #styleOptions(): LayerOptions {
    const host = this.#map.getStyle();
    const ownGround = host === undefined || !showsMap(host);
    const parts = this.#options.parts ?? PARTS.filter((part) => part !== "surroundings" || ownGround);
    const textFont = this.#options.textFont ?? (host === undefined ? undefined : hostFont(host));
    return { ...this.#options, parts, ...(textFont === undefined ? {} : { textFont }) };
  }

  #refill(): void {
    this.#settle(this.#placed?.refill({ ...farSources(this.plan, this.#options), ...this.#closeSources() }));
    this.#showSelectedZone();
  }

  /** What is drawn close up, or, where the map shows none of it yet, nothing, so that the first look comes sooner. */
  #closeSources(): PlanSources {
    this.#owesCloseUp = this.plan !== null && this.#map.getZoom() < CROWNS_FROM_ZOOM;
    return closeSources(this.#owesCloseUp ? null : this.plan, this.#options);
  }

  #bringCloseUp(): void {
    if (!this.#owesCloseUp || this.#placed === null) return;
    this.#owesCloseUp = false;
    this.#settle(this.#placed.refill(closeSources(this.plan, this.#options)));
  }

  /** Draws the selected zone's order of work and lets the other zones step back. */
  #showSelectedZone(): void {
    const theme = TOKENS.themes[this.#options.theme ?? "light"];
    for (const [layerId, name, value] of zonePaint(theme, this.selectedZoneId !== null))
      this.#placed?.setPaint(layerId, name, value);
    if (this.plan !== null)
      this.#settle(this.#placed?.setData(SOURCES.thread, threadFeatures(this.plan.plan, this.selectedZoneId)));
  }

  #markSelected(what: UnderPointer["what"], id: string | null, selected: boolean): void {
    if (id !== null) setFeatureState(this.#map, { what, id }, { selected });
  }

  #pick(event: MapMouseEvent): void {
    if (this.#placed === null || event.defaultPrevented) return;
    const found = underPointer(this.#map, event, this.#treeOf);
    this.select(found?.what === "tree" ? found.id : null);
    if (found?.what !== "tree") this.selectZone(found?.id ?? null);
  }

  #point(event: MapMouseEvent): void {
    if (this.#placed !== null) this.#setHovered(underPointer(this.#map, event, this.#treeOf));
  }

  #setHovered(next: UnderPointer | null): void {
    const before = this.#hovered;
    if (before?.id === next?.id && before?.what === next?.what) return;
    if (before !== null) setFeatureState(this.#map, before, { hover: false });
    this.#hovered = next;
    if (next !== null) setFeatureState(this.#map, next, { hover: true });
    const canvas = this.#map.getCanvas();
    if (next !== null) canvas.style.cursor = "pointer";
    else if (before !== null) canvas.style.cursor = "";
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

  #settle(work: Promise<void> | undefined): void {
    work?.catch((error: unknown) => this.#report(error));
  }

  #report(error: unknown): void {
    this.#emit("error", { error: error instanceof Error ? error : new Error(String(error)) });
  }
}

const treesById = (opened: OpenedPlan | null): ReadonlyMap<string, Tree> =>
  new Map((opened?.plan.trees ?? []).map((tree) => [tree.id, tree]));
