import type { Position } from "geojson";
import type { ControlPosition, IControl, Map as MapLibreMap } from "maplibre-gl";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { PlanSource } from "../../formats/plan/plan-source.ts";
import type { BoughlineHandle } from "../boughline-handle.ts";
import { sourceOfOpened } from "../open-plan-input.ts";
import { type ThemeName, TOKENS } from "../tokens.ts";
import { TypedEventTarget } from "../typed-events.ts";
import type { ShapeInHand } from "./draw-shape.ts";
import type { DrawingPurpose } from "./drawing.ts";
import { isUndoKey } from "./is-undo-key.ts";
import { markedTrees } from "./marked-trees.ts";
import { withZones } from "./with-zones.ts";
import { ZoneEditing } from "./zone-editing.ts";
import type { ZoneToolsEvents } from "./zone-tools-events.ts";
import { openWorkshop } from "./zone-workshop.ts";
import { ZonesPanel } from "./zones-panel.ts";

export interface ZoneToolsOptions {
  /** Corner of the map for the panel. Default `top-left`; with `addZoneTools` `bottom-left` on maps under 640 px wide. */
  readonly position?: ControlPosition;
  /** Default `light`. */
  readonly theme?: ThemeName;
  /** Units of the figures. Default: the plan's own. */
  readonly units?: DisplayUnits;
  /** Where `standard.json` is read from, for a plan that was not opened by the plugin. Default: where the plan came from. */
  readonly source?: PlanSource;
  /** Whether the panel shows the zone's hours, window, hazards and traffic; false where the plan's own panel does. Default true. */
  readonly card?: boolean;
  /** Whether the panel begins unfolded. Default: on maps at least 640 px wide. */
  readonly open?: boolean;
  /** Whether the plan may be changed. Default true. */
  readonly canEdit?: () => boolean;
}

/**
 * The zone tools on a map: a panel beside a plan that the plugin shows. Every edit is shown on the map and told by `zoneedit`; keeping it is the
 * host's. Needs the `standard.json` of the plan, which a plan opened by the plugin brings along.
 */
export class ZoneToolsControl extends TypedEventTarget<ZoneToolsEvents> implements IControl {
  readonly #handle: BoughlineHandle;
  readonly #options: ZoneToolsOptions;
  readonly #editing: ZoneEditing;
  #panel: ZonesPanel | null = null;
  #map: MapLibreMap | null = null;
  #shape: ShapeInHand | null = null;
  #drawn: DrawingPurpose | null = null;
  #problem: string | null = null;
  #theme: ThemeName;
  #units: DisplayUnits | undefined;
  #listeners = new AbortController();
  #styled: readonly { unsubscribe(): void }[] = [];

  constructor(handle: BoughlineHandle, options: ZoneToolsOptions = {}) {
    super();
    this.#handle = handle;
    this.#options = options;
    this.#theme = options.theme ?? "light";
    this.#units = options.units;
    this.#editing = new ZoneEditing({
      canEdit: () => options.canEdit?.() ?? true,
      show: (zones, label, edit) => {
        const opened = handle.plan;
        if (opened === null) return;
        const rezoned = withZones(opened, zones);
        handle.setPlan(rezoned);
        this.#emit("zoneedit", { edit, label, zones, features: rezoned.zones });
      },
      open: (zoneId) => handle.selectZone(zoneId),
      tell: (sentence) => {
        this.#problem = sentence;
        this.#emit("error", { error: new Error(sentence) });
        this.#show();
      },
      refuse: (edit, findings) => this.#emit("zonerefuse", { edit, findings }),
      refresh: () => this.#refresh(),
      openWorkshop,
    });
  }

  getDefaultPosition(): ControlPosition {
    return this.#options.position ?? "top-left";
  }

  onAdd(map: MapLibreMap): HTMLElement {
    const panel = new ZonesPanel();
    panel.classList.add("maplibregl-ctrl", "boughline-zones");
    panel.isOpen = this.#options.open ?? map.getContainer().clientWidth >= 640;
    this.#map = map;
    this.#panel = panel;
    this.#listeners = new AbortController();
    const { signal } = this.#listeners;
    for (const [name, listener] of this.#asks) panel.addEventListener(name, listener as EventListener, { signal });
    map.getContainer().addEventListener("keydown", (event) => this.#onKey(event), { signal });
    for (const type of ["planload", "treeselect", "zoneselect"] as const)
      this.#handle.addEventListener(type, () => this.#show(), { signal });
    // A change of the host's style takes the shape in hand with it: a whole one as it begins, one by differences once it is done.
    const giveUp = () => this.#editing.cancelDrawing();
    this.#styled = [map.on("styledataloading", giveUp), map.on("style.load", giveUp)];
    this.#show();
    return panel;
  }

  onRemove(): void {
    this.#editing.cancelDrawing();
    this.#listeners.abort();
    for (const subscription of this.#styled) subscription.unsubscribe();
    this.#styled = [];
    this.#panel?.remove();
    this.#panel = null;
    this.#map = null;
  }

  /** Takes the tools off the map; the zones stay as they are. */
  remove(): void {
    this.#map?.removeControl(this);
  }

  /** Applies an edit as the panel would. Resolves with true when something changed; what was refused comes as `zonerefuse`. */
  edit(edit: ZoneEdit): Promise<boolean> {
    this.#problem = null;
    this.#follow();
    return this.#editing.edit(edit);
  }

  undo(): void {
    this.#editing.undo();
  }

  redo(): void {
    this.#editing.redo();
  }

  /** Begins to draw on the map: an outline for a new zone or for trees to add, a line to split a zone. */
  draw(purpose: DrawingPurpose): Promise<void> {
    this.#problem = null;
    this.#follow();
    return this.#editing.draw(purpose);
  }

  cancelDrawing(): void {
    this.#editing.cancelDrawing();
  }

  setTheme(theme: ThemeName): void {
    this.#theme = theme;
    this.#show();
  }

  setUnits(units: DisplayUnits): void {
    this.#units = units;
    this.#show();
  }

  readonly #asks = [
    ["zone-edit", ({ detail }: CustomEvent<ZoneEdit>) => void this.edit(detail)],
    ["zone-draw", ({ detail }: CustomEvent<DrawingPurpose>) => void this.draw(detail)],
    ["zones-undo", () => this.undo()],
    ["zones-redo", () => this.redo()],
    ["notes-close", () => this.#editing.putAway()],
    ["drawing-done", () => void this.#editing.finishDrawing()],
    ["drawing-cancel", () => this.cancelDrawing()],
    ["zone-open", ({ detail }: CustomEvent<string>) => this.#open(detail)],
    ["zones-back", () => this.#open(null)],
    ["tree-open", ({ detail }: CustomEvent<string>) => this.#handle.select(detail)],
    ["treepick", ({ detail }: CustomEvent<{ treeId: string }>) => this.#handle.select(detail.treeId)],
  ] as const;

  #open(zoneId: string | null): void {
    this.#handle.select(null);
    this.#handle.selectZone(zoneId);
  }

  #onKey(event: KeyboardEvent): void {
    if (event.key === "Escape" && this.#editing.drawing !== null) {
      event.stopPropagation();
      this.cancelDrawing();
    }
    if (!isUndoKey(event)) return;
    event.preventDefault();
    if (event.shiftKey) this.redo();
    else this.undo();
  }

  #follow(): void {
    const { plan } = this.#handle;
    if (plan === null) return;
    const source = this.#options.source ?? sourceOfOpened(plan);
    if (source !== null) this.#editing.follow(plan, source);
    else this.#problem = "The zones of this plan cannot be changed here: its standard.json is not at hand.";
  }

  #refresh(): void {
    const purpose = this.#editing.drawing?.purpose ?? null;
    if (purpose !== this.#drawn) {
      this.#drawn = purpose;
      void this.#redraw(purpose);
      this.#emit("zonedraw", { purpose });
    }
    this.#show();
  }

  /** Takes the last shape off the map and begins the next; the drawing library is loaded when it is first wanted. */
  async #redraw(purpose: DrawingPurpose | null): Promise<void> {
    this.#shape?.end();
    this.#shape = null;
    this.#handle.setPicking(purpose === null);
    const map = this.#map;
    if (purpose === null || map === null) return;
    const drawing = await import("./draw-shape.ts").catch((error: unknown) => this.#giveUpDrawing(error));
    if (drawing === null || this.#drawn !== purpose || this.#map !== map || this.#shape !== null) return;
    const { ink, paper } = TOKENS.themes[this.#theme];
    const onShape = (positions: readonly Position[] | null) => this.#editing.reshape(positions);
    this.#shape = drawing.drawShape(map, purpose.for === "split" ? "line" : "outline", { ink, paper }, onShape);
  }

  #giveUpDrawing(cause: unknown): null {
    this.#problem = "Nothing can be drawn: the drawing tools could not be loaded.";
    this.#emit("error", { error: new Error(this.#problem, { cause }) });
    this.#editing.cancelDrawing();
    return null;
  }

  #show(): void {
    if (this.#panel === null) return;
    this.#follow();
    const { plan: opened, selectedTreeId, selectedZoneId: zoneId } = this.#handle;
    this.#panel.theme = this.#theme;
    if (opened === null) {
      this.#panel.shown = null;
      return;
    }
    const zone = opened.plan.zones.find((one) => one.zoneId === zoneId);
    const [tree = null] = selectedTreeId === null ? [] : markedTrees(opened, [selectedTreeId]);
    this.#panel.shown = {
      opened,
      editing: this.#editing,
      zoneId: zone?.zoneId ?? null,
      tree,
      order: zone === undefined ? [] : markedTrees(opened, zone.treeIds),
      units: this.#units ?? opened.plan.options.units,
      theme: this.#theme,
      problem: this.#problem,
      hasCard: this.#options.card ?? true,
    };
  }

  #emit<K extends keyof ZoneToolsEvents>(type: K, detail: ZoneToolsEvents[K]): void {
    this.dispatchEvent(new CustomEvent(type, { detail }));
  }
}
