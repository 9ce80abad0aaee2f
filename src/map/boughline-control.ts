import type { ControlPosition, IControl, Map as MapLibreMap } from "maplibre-gl";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { addBoughlineLayers } from "./add-boughline-layers.ts";
import type { BoughlineHandle } from "./boughline-handle.ts";
import type { BoughlineEvents } from "./events.ts";
import type { DatedTrees } from "./features/plan-look.ts";
import type { PlanInput } from "./open-plan-input.ts";
import type { AddOptions, Part, TreeFilter } from "./options.ts";
import { ControlPanel } from "./panel/control-panel.ts";
import { isTiledPlan, type TiledPlan } from "./tiles/tiled-plan.ts";
import type { ThemeName } from "./tokens.ts";
import { TypedEventTarget } from "./typed-events.ts";
import { wordsWith } from "./words.ts";
import type { ZoneToolsControl } from "./zoning/zone-tools-control.ts";

export interface ControlOptions extends AddOptions {
  /** The plan to show, or where it comes from. Default: none until `load` or `setPlan`. */
  readonly plan?: PlanInput | TiledPlan;
  /** Whether the panel starts open. Default true on maps at least 640 pixels wide. */
  readonly open?: boolean;
  /** Whether the panel shows the legend while nothing is selected. Default true; without it the panel is there for a selection only. */
  readonly legend?: boolean;
  /** Whether the panel shows the card of the selected tree or zone. Default true; without it a host shows its own on `treeselect`. */
  readonly card?: boolean;
  /** The zone tools, from the plugin's second script. Default: none, and the drawing library is not loaded. */
  readonly zoneTools?: (
    map: MapLibreMap,
    handle: BoughlineHandle,
    options: { readonly theme: ThemeName; readonly units?: DisplayUnits; readonly card: boolean },
  ) => ZoneToolsControl;
}

const EVENTS = ["treeselect", "zoneselect", "planload", "solidsdraw", "error"] as const;

/**
 * A plan on a map with a panel that shows the legend, the selected tree's card or the selected zone.
 *
 * @example map.addControl(new BoughlineControl({ plan: "/plan/current/" }));
 */
export class BoughlineControl extends TypedEventTarget<BoughlineEvents> implements IControl, BoughlineHandle {
  #options: ControlOptions;
  /** What is shown when the control is put on a map: the plan that was opened, else where it comes from. */
  #from: PlanInput | TiledPlan | null;
  #filter: TreeFilter | null = null;
  #parts: readonly Part[] | null = null;
  #map: MapLibreMap | null = null;
  #handle: BoughlineHandle | null = null;
  #isPicking = true;
  #panel: ControlPanel | null = null;
  #zoneTools: ZoneToolsControl | null = null;

  constructor(options: ControlOptions = {}) {
    super();
    this.#options = options;
    this.#from = options.plan ?? null;
  }

  get plan(): OpenedPlan | null {
    return this.#handle?.plan ?? null;
  }

  get isOpening(): boolean {
    return this.#handle?.isOpening ?? false;
  }

  get selectedTreeId(): string | null {
    return this.#handle?.selectedTreeId ?? null;
  }

  get selectedZoneId(): string | null {
    return this.#handle?.selectedZoneId ?? null;
  }

  /** The zone tools while the control is on a map and was given them. */
  get zoneTools(): ZoneToolsControl | null {
    return this.#zoneTools;
  }

  getDefaultPosition(): ControlPosition {
    return "top-right";
  }

  onAdd(map: MapLibreMap): HTMLElement {
    const { words, legend = true, card = true } = this.#options;
    const handle = addBoughlineLayers(map, this.#from, this.#options);
    const panel = new ControlPanel(wordsWith(words), {
      isOpen: this.#options.open ?? map.getContainer().clientWidth >= 640,
      hasLegend: legend,
      hasCard: card,
      onTreePick: (treeId) => handle.select(treeId),
      onClose: () => {
        handle.select(null);
        handle.selectZone(null);
      },
    });
    this.#map = map;
    this.#handle = handle;
    this.#panel = panel;
    for (const type of EVENTS)
      handle.addEventListener(type, (event) => {
        if (type === "planload" && !isTiledPlan(this.#from)) this.#from = handle.plan;
        this.#show();
        this.dispatchEvent(new CustomEvent(type, { detail: event.detail }));
      });
    handle.setPicking(this.#isPicking);
    if (this.#filter !== null) handle.setFilter(this.#filter);
    if (this.#parts !== null) handle.setParts(this.#parts);
    this.#show();
    const { theme = "light", units, zoneTools } = this.#options;
    this.#zoneTools = zoneTools?.(map, this, { theme, ...(units === undefined ? {} : { units }), card: !card }) ?? null;
    return panel.element;
  }

  onRemove(): void {
    this.#zoneTools?.remove();
    this.#zoneTools = null;
    this.#handle?.remove();
    this.#panel?.remove();
    this.#map = null;
    this.#handle = null;
    this.#panel = null;
  }

  /** Takes the control off its map; the same as the map's `removeControl`. */
  remove(): void {
    this.#map?.removeControl(this);
  }

  async load(from: PlanInput): Promise<OpenedPlan | null> {
    this.#from = from;
    const loading = this.#handle?.load(from) ?? null;
    this.#show();
    return loading;
  }

  setPlan(opened: OpenedPlan | null): void {
    this.#from = opened;
    this.#handle?.setPlan(opened);
    this.#show();
  }

  setDate(dated: DatedTrees | null): void {
    this.#handle?.setDate(dated);
  }

  setFilter(filter: TreeFilter | null): void {
    this.#filter = filter;
    this.#handle?.setFilter(filter);
  }

  setParts(parts: readonly Part[]): void {
    this.#parts = parts;
    this.#handle?.setParts(parts);
  }

  select(treeId: string | null): void {
    this.#handle?.select(treeId);
  }

  selectZone(zoneId: string | null): void {
    this.#handle?.selectZone(zoneId);
  }

  setTheme(theme: ThemeName): void {
    this.#options = { ...this.#options, theme };
    this.#handle?.setTheme(theme);
    this.#zoneTools?.setTheme(theme);
    this.#show();
  }

  setPicking(isPicking: boolean): void {
    this.#isPicking = isPicking;
    this.#handle?.setPicking(isPicking);
  }

  setUnits(units: DisplayUnits): void {
    this.#options = { ...this.#options, units };
    this.#handle?.setUnits(units);
    this.#zoneTools?.setUnits(units);
    this.#show();
  }

  #show(): void {
    const handle = this.#handle;
    if (handle === null) return;
    this.#panel?.show({
      opened: handle.plan,
      isOpening: handle.isOpening,
      hasFailed: handle.plan === null && !handle.isOpening && this.#from !== null,
      treeId: handle.selectedTreeId,
      zoneId: handle.selectedZoneId,
      units: this.#options.units,
      theme: this.#options.theme ?? "light",
      words: this.#options.words,
    });
  }
}
