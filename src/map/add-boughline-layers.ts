import type { Map as MapLibreMap, MapMouseEvent } from "maplibre-gl";
import type { Tree } from "../core/model/trees.ts";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import type { BoughlineHandle } from "./boughline-handle.ts";
import { createLook } from "./create-layers.ts";
import type { PlanSources } from "./create-sources.ts";
import type { BoughlineEvents } from "./events.ts";
import type { DatedTrees } from "./features/plan-look.ts";
import { threadFeatures } from "./features/zone-features.ts";
import { SOURCES } from "./ids.ts";
import { zonePaint } from "./layers/zone-layers.ts";
import { setFeatureState } from "./on-map/feature-states.ts";
import { hostFont, layerAbove, showsMap } from "./on-map/host-style.ts";
import { PlacedStyle } from "./on-map/placed-style.ts";
import { PlanData } from "./on-map/plan-data.ts";
import { SolidsInView } from "./on-map/solids-in-view.ts";
import { type UnderPointer, underPointer } from "./on-map/under-pointer.ts";
import { isOpened, openPlanInput, type PlanInput } from "./open-plan-input.ts";
import { type AddOptions, FLAT_PARTS, type LayerOptions, type Part, type TreeFilter } from "./options.ts";
import { planBounds } from "./plan-bounds.ts";
import { TiledLayersOnMap } from "./tiles/tiled-layers-on-map.ts";
import { isTiledPlan, type TiledPlan } from "./tiles/tiled-plan.ts";
import { type ThemeName, TOKENS } from "./tokens.ts";
import { TypedEventTarget } from "./typed-events.ts";

/**
 * Adds a plan's layers to a map, at once or as soon as its style and the plan are there, and keeps them there when the host changes
 * style.
 */
export function addBoughlineLayers(
  map: MapLibreMap,
  from: PlanInput | TiledPlan | null,
  options: AddOptions = {},
): BoughlineHandle {
  if (isTiledPlan(from)) return new TiledLayersOnMap(map, from, options);
  const opened = from !== null && isOpened(from) ? from : null;
  const layers = new LayersOnMap(map, opened, options);
  if (from !== null && opened === null) void layers.load(from);
  else if (options.fit === true) layers.fit();
  return layers;
}

class LayersOnMap extends TypedEventTarget<BoughlineEvents> implements BoughlineHandle {
  plan: OpenedPlan | null;
  selectedTreeId: string | null = null;
  selectedZoneId: string | null = null;
  readonly #map: MapLibreMap;
  readonly #data: PlanData;
  readonly #solids: SolidsInView;
  #options: AddOptions;
  #treeOf: ReadonlyMap<string, Tree>;
  #filter: TreeFilter | null = null;
  #shownParts: ReadonlySet<Part> | null = null;
  #hovered: UnderPointer | null = null;
  #isPicking = true;
  #placed: PlacedStyle | null = null;
  /** Counts what was asked to be shown, so that a plan opened too late is let go. */
  #asked = 0;
  #isOpening = false;
  readonly #subscriptions: { unsubscribe(): void }[] = [];

  constructor(map: MapLibreMap, opened: OpenedPlan | null, options: AddOptions) {
    super();
    this.#map = map;
    this.#data = new PlanData(map);
    this.#solids = new SolidsInView(map);
    this.#options = options;
    this.plan = opened;
    this.#treeOf = treesById(opened);
    this.#subscriptions.push(
      map.on("style.load", () => this.#guarded(() => this.#place())),
      map.on("click", (event) => this.#guarded(() => this.#pick(event))),
      map.on("mousemove", (event) => this.#guarded(() => this.#point(event))),
      map.on("mouseout", () => this.#guarded(() => this.#setHovered(null))),
      map.on("idle", () => this.#guarded(() => this.#atRest())),
    );
    this.#guarded(() => {
      if (map.getStyle() !== undefined) this.#place();
    });
  }

  get isOpening(): boolean {
    return this.#isOpening;
  }

  async load(from: PlanInput): Promise<OpenedPlan | null> {
    this.#asked += 1;
    const asked = this.#asked;
    this.#isOpening = true;
    try {
      const opened = await openPlanInput(from);
      if (asked !== this.#asked) return null;
      this.setPlan(opened);
      if (this.#options.fit === true) this.fit();
      return opened;
    } catch (error) {
      if (asked !== this.#asked) return null;
      this.#isOpening = false;
      this.#report(error);
      return null;
    }
  }

  /** Moves the map to the plan's trees, at once. */
  fit(): void {
    const bounds = this.plan === null ? null : planBounds(this.plan);
    if (bounds !== null) this.#guarded(() => this.#map.fitBounds(bounds, { padding: 48, maxZoom: 19, animate: false }));
  }

  setPlan(opened: OpenedPlan | null): void {
    this.#asked += 1;
    this.#isOpening = false;
    this.plan = opened;
    this.#treeOf = treesById(opened);
    const hasTree = this.selectedTreeId !== null && this.#treeOf.has(this.selectedTreeId);
    const hasZone = opened?.plan.zones.some((zone) => zone.zoneId === this.selectedZoneId) ?? false;
    if (!hasTree) this.select(null);
    if (!hasZone) this.selectZone(null);
    // What is shown stays where only the zones are others, so that a change of them shows at once.
    const rezoned = this.#data.rezone(opened);
    if (rezoned === null) this.#refill();
    else {
      this.#change(rezoned);
      this.#showSelectedZone();
    }
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

  setDate(dated: DatedTrees | null): void {
    this.#change(this.#data.follow(dated));
  }

  setTheme(theme: ThemeName): void {
    this.#options = { ...this.#options, theme };
    this.#placed?.repaint(createLook(this.#styleOptions()));
    this.#showSelectedZone();
  }

  setParts(parts: readonly Part[]): void {
    this.#shownParts = new Set(parts);
    this.#placed?.setParts(this.#shownParts);
  }

  setPicking(isPicking: boolean): void {
    this.#isPicking = isPicking;
    if (!isPicking) this.#guarded(() => this.#setHovered(null));
  }

  setUnits(units: DisplayUnits): void {
    this.#options = { ...this.#options, units };
    this.#refill();
  }

  remove(): void {
    this.#asked += 1;
    this.#isOpening = false;
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
    const sources = this.#data.sources(this.plan, options);
    this.#solids.forget();
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
    const parts = this.#options.parts ?? FLAT_PARTS.filter((part) => part !== "surroundings" || ownGround);
    const textFont = this.#options.textFont ?? (host === undefined ? undefined : hostFont(host));
    return { ...this.#options, parts, ...(textFont === undefined ? {} : { textFont }) };
  }

  #refill(): void {
    this.#bring(this.#data.sources(this.plan, this.#options));
    this.#solids.forget();
    this.#showSelectedZone();
  }

  #change(change: ReturnType<PlanData["follow"]>): void {
    if (change === null) return;
    if (change.marks === null) this.#bring(this.#data.marksSource());
    else this.#settle(this.#placed?.update(SOURCES.trees, change.marks));
    this.#bring(change.sources);
  }

  #atRest(): void {
    this.#bring(this.#data.atRest());
    const parts = this.#shownParts ?? new Set(this.#options.parts ?? FLAT_PARTS);
    const owed = this.#solids.atRest(this.#data.look, this.#options, parts.has("solids"));
    if (owed === null) return;
    this.#bring(owed.sources);
    this.#emit("solidsdraw", owed.shown);
  }

  #bring(sources: PlanSources | null): void {
    if (sources !== null) this.#settle(this.#placed?.refill(sources));
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
    if (this.#placed === null || !this.#isPicking || event.defaultPrevented) return;
    const found = underPointer(this.#map, event, this.#treeOf);
    this.select(found?.what === "tree" ? found.id : null);
    if (found?.what !== "tree") this.selectZone(found?.id ?? null);
  }

  #point(event: MapMouseEvent): void {
    if (this.#placed !== null && this.#isPicking) this.#setHovered(underPointer(this.#map, event, this.#treeOf));
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
