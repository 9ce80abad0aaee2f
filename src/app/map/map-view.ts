import { LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Map as MapLibreMap } from "maplibre-gl";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import {
  addBoughlineLayers,
  type BoughlineHandle,
  type DatedTrees,
  FLAT_PARTS,
  PARTS,
  type TreeFilter,
} from "../../map/index.ts";
import { TOKENS } from "../../map/tokens.ts";
import type { ShapeInHand, ShapeKind } from "../../map/zoning/draw-shape.ts";
import type { PageTheme } from "../theme.ts";
import { fitPlaces, type Placed } from "./fit-places.ts";
import type { MapLook } from "./map-look.ts";
import { type MapPlace, samePlace } from "./map-place.ts";
import { PageMap } from "./page-map.ts";
import { SolidControl } from "./solid-control.ts";

/** Zoom at which a single tree is shown: its crown is then some 60 px wide. */
const TREE_ZOOM = 19;
const MOVE_MS = 180;
const WITHOUT_ZONES = FLAT_PARTS.filter((part) => part !== "zones");

/**
 * The map with the plan on it. Draws into the page itself, where MapLibre's style sheet is. Fires `map-tree` (detail: tree id or
 * null), `map-zone` (detail: zone id or null), `map-look` (detail: the ground in view), `map-shape` (detail: positions of the shape being drawn, or null), `map-problem` (detail: sentence); has the attribute `drawn` once the plan is drawn.
 */
@customElement("map-view")
export class MapView extends LitElement {
  @property({ attribute: false }) opened: OpenedPlan | null = null;
  /** Which trees keep their marks; null for all. */
  @property({ attribute: false }) filter: TreeFilter | null = null;
  /** The block over the map's upper left corner, so that nothing is shown under it; null where there is none. */
  @property({ attribute: false }) corner: () => DOMRect | null = () => null;
  /** How the trees stand on another date; null for the plan's own. */
  @property({ attribute: false }) dated: DatedTrees | null = null;
  @property() treeId: string | null = null;
  @property() zoneId: string | null = null;
  /** Whether the work zones are drawn. */
  @property({ type: Boolean }) withZones = false;
  @property() theme: PageTheme = "light";
  @property() units: DisplayUnits = "us";
  /** The shape that the reader is drawing; null while none is. */
  @property() drawing: ShapeKind | null = null;
  /** Address of a base map's style; null for bare paper. */
  @property() basemap: string | null = null;
  /** Where the map is to look, once; null for where it would by itself. */
  @property({ attribute: false }) place: MapPlace | null = null;
  /** Where the map looks when it shows the whole plan. */
  private whole: MapPlace | null = null;
  private map: MapLibreMap | null = null;
  private handle: BoughlineHandle | null = null;
  private pageMap: PageMap | null = null;
  /** Whether trees and what stands around them are drawn as solids. */
  private isSolid = false;
  private readonly solids = new SolidControl(
    (isOn) => {
      this.isSolid = isOn;
      this.showZones();
    },
    (durationMs) => this.calm(durationMs),
  );
  private shape: ShapeInHand | null = null;

  protected override createRenderRoot() {
    return this;
  }

  protected override firstUpdated() {
    // Labels are drawn from the page's font, which must be there before the first one is.
    document.fonts.load("600 16px 'Source Sans 3'").finally(() => this.isConnected && this.tryToStart());
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.shape?.end();
    this.handle?.remove();
    this.map?.remove();
    this.shape = null;
    this.handle = null;
    this.map = null;
  }

  protected override updated(changed: Map<string, unknown>) {
    const { map, handle } = this;
    if (map === null || handle === null) return;
    if (changed.has("opened")) {
      this.removeAttribute("drawn");
      handle.setPlan(this.opened);
      map.once("idle", () => this.setAttribute("drawn", ""));
      // The same trees with other zones stay where the reader looks at them.
      const before = changed.get("opened") as OpenedPlan | null | undefined;
      if (before?.plan.trees !== this.opened?.plan.trees) this.showTrees(undefined, 0);
    }
    if (changed.has("place")) this.goToPlace();
    if (changed.has("dated")) handle.setDate(this.dated);
    if (changed.has("filter")) handle.setFilter(this.filter);
    if (changed.has("treeId")) handle.select(this.treeId);
    if (changed.has("zoneId")) handle.selectZone(this.zoneId);
    if (changed.has("withZones")) this.showZones();
    if (changed.has("drawing")) this.startDrawing(map, handle);
    if (changed.has("units")) {
      handle.setUnits(this.units);
      this.pageMap?.setUnits(this.units);
      this.solids.layer = this.units === "us" ? "3 ft" : "1 m";
    }
    if (changed.has("theme")) {
      this.pageMap?.setTheme(this.theme);
      handle.setTheme(this.theme);
    }
  }

  /** Shows the given trees, or all of the plan. */
  showTrees(trees: readonly Placed[] = this.opened?.plan.trees ?? [], durationMs = MOVE_MS) {
    // The sheet below may just have taken room from the map, of which it hears only later.
    this.map?.resize();
    const { map, clientWidth, clientHeight } = this;
    const sheet = { widthPx: clientWidth, heightPx: clientHeight, marginPx: this.marginPx, corner: this.cornerPx };
    const frame = fitPlaces(trees, sheet, TREE_ZOOM);
    if (map === null || frame === null) return;
    if (trees === this.opened?.plan.trees) this.whole = frame;
    map.easeTo({ center: [frame.lonDeg, frame.latDeg], zoom: frame.zoom, duration: this.calm(durationMs) });
  }

  /** Shows a tree close up; a tree already in sight and large enough stays where it is. */
  showTree(lonDeg: number, latDeg: number) {
    const { map } = this;
    if (map === null) return;
    map.resize();
    const isNear = map.getZoom() >= TREE_ZOOM - 1.5 && map.getBounds().contains([lonDeg, latDeg]);
    if (isNear) return;
    map.easeTo({ center: [lonDeg, latDeg], zoom: Math.max(TREE_ZOOM, map.getZoom()), duration: this.calm(MOVE_MS) });
  }

  /** Where a place is on the screen, in pixels of the page; null before the map stands. */
  pointOf(lonDeg: number, latDeg: number): { x: number; y: number } | null {
    if (this.map === null) return null;
    const { x, y } = this.map.project([lonDeg, latDeg]);
    const box = this.getBoundingClientRect();
    return { x: box.left + x, y: box.top + y };
  }

  /** Where the reader moved the map; null where it shows the whole plan, or does not stand yet. */
  placeNow(): MapPlace | null {
    if (this.map === null || this.place !== null) return this.place;
    const { lng, lat } = this.map.getCenter();
    const now = { lonDeg: lng, latDeg: lat, zoom: this.map.getZoom() };
    return this.whole === null || samePlace(now, this.whole) ? null : now;
  }

  /** Goes where it was told to, once. */
  private goToPlace() {
    const { map, place } = this;
    if (map === null || place === null) return;
    this.place = null;
    map.jumpTo({ center: [place.lonDeg, place.latDeg], zoom: place.zoom });
  }

  /** What the map shows now, for it to be drawn again on paper; null before it stands. */
  look(): MapLook | null {
    const { map, opened, filter, dated, treeId, zoneId, basemap } = this;
    if (map === null || opened === null) return null;
    const { lng, lat } = map.getCenter();
    const parts = this.withZones ? FLAT_PARTS : WITHOUT_ZONES;
    const frame = { lonDeg: lng, latDeg: lat, zoom: map.getZoom() };
    return { frame, widthPx: this.clientWidth, opened, filter, dated, treeId, zoneId, basemap, parts };
  }

  /** A browser without WebGL has no map; list, cards and zones do without. */
  private tryToStart() {
    try {
      this.start();
    } catch {
      const sorry = document.createElement("p");
      sorry.className = "no-map";
      sorry.textContent =
        "This browser cannot draw the map: WebGL 2 is switched off or missing. The list, the cards, the zones and the packets work without it.";
      this.replaceChildren(sorry);
    }
  }

  private start() {
    this.pageMap = new PageMap(this, this.basemap, this.theme, this.units);
    const { map } = this.pageMap;
    this.solids.layer = this.units === "us" ? "3 ft" : "1 m";
    map.addControl(this.solids, "bottom-right");
    map.on("resize", () => this.keepTreeInSight());
    map.on("moveend", () => this.tellLook(map));
    map.on("error", (event) => this.emit("map-problem", `The map reports: ${event.error.message}`));
    this.map = map;
    this.handle = addBoughlineLayers(map, this.opened, {
      theme: this.theme,
      units: this.units,
      parts: PARTS.filter((part) => part !== "surroundings" || this.basemap === null),
    });
    this.handle.addEventListener("solidsdraw", ({ detail }) => this.solids.tell(detail));
    this.handle.addEventListener("treeselect", ({ detail }) => this.emit("map-tree", detail.treeId));
    this.handle.addEventListener("zoneselect", ({ detail }) => this.emit("map-zone", detail.zoneId));
    this.handle.addEventListener("error", ({ detail }) => this.emit("map-problem", detail.error.message));
    this.showZones();
    if (this.filter !== null) this.handle.setFilter(this.filter);
    map.once("load", () => {
      this.showTrees(undefined, 0);
      this.goToPlace();
      map.once("idle", () => this.setAttribute("drawn", ""));
      this.handle?.select(this.treeId);
      this.handle?.selectZone(this.zoneId);
    });
  }

  /** The sheet may take room from the map as it opens; the tree it is about should not go under. */
  private keepTreeInSight() {
    const tree = this.opened?.plan.trees.find((one) => one.id === this.treeId);
    if (tree === undefined || this.map === null) return;
    if (!this.map.getBounds().contains([tree.lonDeg, tree.latDeg]))
      this.map.panTo([tree.lonDeg, tree.latDeg], { duration: 0 });
  }

  /** Takes the last shape off the map and begins the next; the drawing library is loaded when it is first wanted. */
  private async startDrawing(map: MapLibreMap, handle: BoughlineHandle) {
    const { drawing } = this;
    this.shape?.end();
    this.shape = null;
    handle.setPicking(drawing === null);
    if (drawing === null) return;
    const { drawShape } = await import("../../map/zoning/draw-shape.ts");
    if (this.drawing !== drawing || this.map !== map || this.shape !== null) return;
    const { ink, paper } = TOKENS.themes[this.theme];
    this.shape = drawShape(map, drawing, { ink, paper }, (positions) => this.emit("map-shape", positions));
  }

  private tellLook(map: MapLibreMap) {
    const bounds = map.getBounds();
    const [west, south, east, north] = [bounds.getWest(), bounds.getSouth(), bounds.getEast(), bounds.getNorth()];
    this.emit("map-look", { west, south, east, north });
  }

  private showZones() {
    const parts = this.withZones ? FLAT_PARTS : WITHOUT_ZONES;
    this.handle?.setParts(this.isSolid ? [...parts, "solids"] : parts);
  }

  /** Room for marks, names and the scale along the map's edges; less of it on a phone. */
  private get marginPx(): number {
    return Math.min(this.clientWidth, this.clientHeight) < 480 ? 24 : 44;
  }

  private get cornerPx(): { widthPx: number; heightPx: number } | null {
    const block = this.corner();
    if (block === null) return null;
    const { left, top } = this.getBoundingClientRect();
    return { widthPx: block.right - left, heightPx: block.bottom - top };
  }

  private calm(durationMs: number): number {
    return matchMedia("(prefers-reduced-motion: reduce)").matches ? 0 : durationMs;
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
