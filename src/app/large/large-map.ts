import { LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import { addProtocol, type Map as MapLibreMap, removeProtocol } from "maplibre-gl";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { addBoughlineLayers, type BoughlineHandle, type TreeFilter, tiledPlan } from "../../map/index.ts";
import { PLAN_TILE_LAYERS } from "../../map/tiles/tile-layers.ts";
import { TILES_SOURCE } from "../../map/tiles/tiled-style.ts";
import { PageMap } from "../map/page-map.ts";
import type { PageTheme } from "../theme.ts";

/** Zoom from which the trees in view are listed: farther out they are so many that to ask for them would hold the page up. */
const LIST_FROM_ZOOM = 14;

/** What the map shows of a selection: the plan as far as it is read, and what of it is selected. */
export interface LargeSelection {
  readonly opened: OpenedPlan | null;
  readonly treeId: string | null;
  readonly zoneId: string | null;
}

/** A place of the map's features, by their members. */
export type MapMember = { readonly properties: Readonly<Record<string, unknown>> };

/**
 * The map of a plan that is looked at by its tiles. Fires `marks` (detail: the features of the trees in view, null where the map is too far out) once the map rests, `selection` (detail: the
 * selection, with its records read), `map-problem` (detail: sentence); has the attribute `drawn` once it has drawn.
 */
@customElement("large-map")
export class LargeMap extends LitElement {
  /** Address of the revision's folder. */
  @property() address = "";
  @property() theme: PageTheme = "light";
  @property() units: DisplayUnits = "us";
  @property() basemap: string | null = null;
  @property({ attribute: false }) filter: TreeFilter | null = null;
  private pageMap: PageMap | null = null;
  private handle: BoughlineHandle | null = null;

  protected override createRenderRoot() {
    return this;
  }

  protected override firstUpdated() {
    document.fonts.load("600 16px 'Source Sans 3'").finally(() => this.isConnected && this.tryToStart());
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.handle?.remove();
    this.pageMap?.map.remove();
    this.handle = null;
    this.pageMap = null;
  }

  protected override updated(changed: Map<string, unknown>) {
    const { pageMap, handle } = this;
    if (pageMap === null || handle === null) return;
    if (changed.has("filter")) handle.setFilter(this.filter);
    if (changed.has("units")) {
      handle.setUnits(this.units);
      pageMap.setUnits(this.units);
    }
    if (!changed.has("theme")) return;
    pageMap.setTheme(this.theme);
    handle.setTheme(this.theme);
  }

  /** Selects a tree that is in view, or none. */
  select(treeId: string | null) {
    this.handle?.select(treeId);
    if (treeId === null) this.handle?.selectZone(null);
  }

  private tryToStart() {
    try {
      this.start();
    } catch {
      this.textContent =
        "This browser cannot draw the map: WebGL 2 is switched off or missing. A plan this large is looked at by its map only.";
    }
  }

  private start() {
    const frame = new PageMap(this, this.basemap, this.theme, this.units);
    const { map } = frame;
    map.on("error", (event) => this.emit("map-problem", `The map reports: ${event.error.message}`));
    map.on("idle", () => {
      // The map rests for a moment before its tiles are known.
      if (map.getSource(TILES_SOURCE) === undefined) return;
      this.setAttribute("drawn", "");
      this.tellMarks(map);
    });
    const handle = addBoughlineLayers(
      map,
      tiledPlan(new URL(this.address, location.href), { addProtocol, removeProtocol }),
      {
        theme: this.theme,
        units: this.units,
        fit: true,
      },
    );
    handle.addEventListener("treeselect", () => this.tellSelection(handle));
    handle.addEventListener("zoneselect", () => this.tellSelection(handle));
    handle.addEventListener("error", ({ detail }) => this.emit("map-problem", detail.error.message));
    if (this.filter !== null) handle.setFilter(this.filter);
    this.pageMap = frame;
    this.handle = handle;
  }

  private tellMarks(map: MapLibreMap) {
    if (map.getZoom() < LIST_FROM_ZOOM) {
      this.emit("marks", null);
      return;
    }
    const layers = map
      .getStyle()
      .layers.flatMap((layer) =>
        "source" in layer && layer.source === TILES_SOURCE && layer["source-layer"] === PLAN_TILE_LAYERS.trees.name
          ? [layer.id]
          : [],
      );
    const found: readonly MapMember[] = layers.length === 0 ? [] : map.queryRenderedFeatures({ layers });
    this.emit("marks", found);
  }

  private tellSelection({ plan, selectedTreeId, selectedZoneId }: BoughlineHandle) {
    const selection: LargeSelection = { opened: plan, treeId: selectedTreeId, zoneId: selectedZoneId };
    this.emit("selection", selection);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
