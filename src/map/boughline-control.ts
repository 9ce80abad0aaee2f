import type { ControlPosition, IControl, Map as MapLibreMap } from "maplibre-gl";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { addBoughlineLayers } from "./add-boughline-layers.ts";
import type { BoughlineHandle } from "./boughline-handle.ts";
import type { BoughlineEvents } from "./events.ts";
import type { AddOptions, TreeFilter } from "./options.ts";
import { ControlPanel } from "./panel/control-panel.ts";
import { TypedEventTarget } from "./typed-events.ts";
import { wordsWith } from "./words.ts";

export interface ControlOptions extends AddOptions {
  /** The plan to show. Default: none until `setPlan`. */
  readonly plan?: OpenedPlan;
  /** Whether the panel starts open. Default true on maps at least 640 pixels wide. */
  readonly open?: boolean;
}

/**
 * A plan on a map with a panel that shows the legend, the selected tree's card or the selected zone.
 *
 * @example map.addControl(new BoughlineControl({ plan: await openPlan(urlSource("/plan/current")) }));
 */
export class BoughlineControl extends TypedEventTarget<BoughlineEvents> implements IControl {
  #options: ControlOptions;
  #plan: OpenedPlan | null;
  #filter: TreeFilter | null = null;
  #handle: BoughlineHandle | null = null;
  #panel: ControlPanel | null = null;

  constructor(options: ControlOptions = {}) {
    super();
    this.#options = options;
    this.#plan = options.plan ?? null;
  }

  get selectedTreeId(): string | null {
    return this.#handle?.selectedTreeId ?? null;
  }

  get selectedZoneId(): string | null {
    return this.#handle?.selectedZoneId ?? null;
  }

  getDefaultPosition(): ControlPosition {
    return "top-right";
  }

  onAdd(map: MapLibreMap): HTMLElement {
    const { theme = "light", words } = this.#options;
    const handle = addBoughlineLayers(map, this.#plan, this.#options);
    const panel = new ControlPanel(wordsWith(words), {
      isOpen: this.#options.open ?? map.getContainer().clientWidth >= 640,
      onTreePick: (treeId) => handle.select(treeId),
      onClose: () => {
        handle.select(null);
        handle.selectZone(null);
      },
    });
    this.#handle = handle;
    this.#panel = panel;
    const show = () =>
      panel.show({
        opened: handle.plan,
        treeId: handle.selectedTreeId,
        zoneId: handle.selectedZoneId,
        units: this.#options.units,
        theme: this.#options.theme ?? theme,
        words,
      });
    handle.addEventListener("treeselect", (event) => {
      show();
      this.dispatchEvent(new CustomEvent("treeselect", { detail: event.detail }));
    });
    handle.addEventListener("zoneselect", (event) => {
      show();
      this.dispatchEvent(new CustomEvent("zoneselect", { detail: event.detail }));
    });
    handle.addEventListener("planload", (event) => {
      show();
      this.dispatchEvent(new CustomEvent("planload", { detail: event.detail }));
    });
    handle.addEventListener("error", (event) => this.dispatchEvent(new CustomEvent("error", { detail: event.detail })));
    if (this.#filter !== null) handle.setFilter(this.#filter);
    show();
    return panel.element;
  }

  onRemove(): void {
    this.#handle?.remove();
    this.#panel?.remove();
    this.#handle = null;
    this.#panel = null;
  }

  setPlan(opened: OpenedPlan | null): void {
    this.#plan = opened;
    this.#handle?.setPlan(opened);
    this.#panel?.update({ opened });
  }

  setFilter(filter: TreeFilter | null): void {
    this.#filter = filter;
    this.#handle?.setFilter(filter);
  }

  select(treeId: string | null): void {
    this.#handle?.select(treeId);
  }

  selectZone(zoneId: string | null): void {
    this.#handle?.selectZone(zoneId);
  }

  setTheme(theme: "light" | "dark"): void {
    this.#options = { ...this.#options, theme };
    this.#handle?.setTheme(theme);
    this.#panel?.update({ theme });
  }

  setUnits(units: DisplayUnits): void {
    this.#options = { ...this.#options, units };
    this.#handle?.setUnits(units);
    this.#panel?.update({ units });
  }
}
