import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { TreeCard } from "../card/tree-card.ts";
import type { ThemeName } from "../tokens.ts";
import type { PartialWords, Words } from "../words.ts";
import { Legend } from "./legend.ts";
import { ZoneCard } from "./zone-card.ts";

/** What the panel shows: the tree where one is selected, else the zone, else the legend. */
export interface PanelState {
  readonly opened: OpenedPlan | null;
  readonly isOpening: boolean;
  /** Whether a plan was asked for and could not be opened. */
  readonly hasFailed: boolean;
  readonly treeId: string | null;
  readonly zoneId: string | null;
  readonly units: DisplayUnits | undefined;
  readonly theme: ThemeName;
  readonly words: PartialWords | undefined;
}

export interface PanelActions {
  readonly isOpen: boolean;
  readonly hasLegend: boolean;
  readonly hasCard: boolean;
  readonly onTreePick: (treeId: string) => void;
  /** The reader leaves the selection, by the button or by Escape. */
  readonly onClose: () => void;
}

/** The control's element: a button that folds the panel, the panel itself, and a line that says aloud what was selected. */
export class ControlPanel {
  readonly element: HTMLElement;
  readonly #words: Words;
  readonly #actions: PanelActions;
  readonly #fold: HTMLButtonElement;
  readonly #body: HTMLElement;
  readonly #back: HTMLButtonElement;
  readonly #content: HTMLElement;
  readonly #spoken: HTMLElement;
  readonly #listeners = new AbortController();
  #state: PanelState | null = null;
  #isOpen: boolean;

  constructor(words: Words, actions: PanelActions) {
    this.#words = words;
    this.#actions = actions;
    this.#isOpen = actions.isOpen;
    this.element = make("section", "maplibregl-ctrl maplibregl-ctrl-group boughline-control");
    this.element.setAttribute("aria-label", words.title);
    this.#fold = button("boughline-fold");
    this.#back = button("boughline-back");
    this.#body = make("div", "boughline-body");
    this.#body.tabIndex = 0;
    this.#body.setAttribute("role", "group");
    this.#body.setAttribute("aria-label", words.title);
    this.#content = make("div", "boughline-content");
    this.#spoken = make("p", "boughline-spoken");
    this.#spoken.setAttribute("aria-live", "polite");
    this.#body.append(this.#back, this.#content);
    this.element.append(this.#fold, this.#body, this.#spoken);
    const { signal } = this.#listeners;
    this.#fold.addEventListener("click", () => this.#setOpen(!this.#isOpen), { signal });
    this.#back.addEventListener("click", () => this.#leave(), { signal });
    this.element.addEventListener("keydown", (event) => this.#onKey(event), { signal });
    this.element.addEventListener("treepick", (event) => this.#onTreePick(event), { signal });
    this.#setOpen(this.#isOpen);
  }

  show(state: PanelState): void {
    const before = this.#state;
    this.#state = state;
    const { hasCard, hasLegend } = this.#actions;
    const isSelection = hasCard && (state.treeId !== null || state.zoneId !== null);
    const content = this.#contentOf(state, isSelection);
    this.element.dataset.theme = state.theme;
    this.element.hidden = content === null;
    this.#back.hidden = !isSelection;
    this.#back.textContent = hasLegend ? this.#words.backToLegend : this.#words.close;
    this.#content.replaceChildren(...(content === null ? [] : [content]));
    if (isSelection) this.#setOpen(true);
    if (before?.treeId === state.treeId && before?.zoneId === state.zoneId) return;
    this.#body.scrollTop = 0;
    this.#spoken.textContent = this.#sentenceOf(state);
  }

  remove(): void {
    this.#listeners.abort();
    this.element.remove();
  }

  /** What stands in the panel; null where nothing is to be shown and the panel steps aside. */
  #contentOf(state: PanelState, isSelection: boolean): HTMLElement | null {
    const { opened, treeId, zoneId, units, theme, words } = state;
    if (opened === null || state.isOpening) {
      const { opening, notOpened, nothingLoaded } = this.#words;
      const empty = make("p", "boughline-empty");
      empty.textContent = state.isOpening ? opening : state.hasFailed ? notOpened : nothingLoaded;
      return empty;
    }
    if (isSelection && treeId !== null) return Object.assign(new TreeCard(), { opened, treeId, units, theme, words });
    if (isSelection) return Object.assign(new ZoneCard(), { opened, zoneId, units, theme, words });
    return this.#actions.hasLegend ? Object.assign(new Legend(), { theme, words }) : null;
  }

  #sentenceOf({ opened, treeId, zoneId }: PanelState): string {
    if (treeId !== null) return `${this.#words.selectedTree} ${treeId}`;
    const zone = opened?.plan.zones.find((one) => one.zoneId === zoneId);
    return zone === undefined ? "" : `${this.#words.selectedZone} ${zone.name}`;
  }

  #setOpen(isOpen: boolean): void {
    this.#isOpen = isOpen;
    this.#body.hidden = !isOpen;
    this.#fold.setAttribute("aria-expanded", String(isOpen));
    this.#fold.textContent = this.#words.title;
    this.#fold.title = isOpen ? this.#words.hidePanel : this.#words.showPanel;
  }

  #leave(): void {
    this.#actions.onClose();
    this.#fold.focus();
  }

  #onKey(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    if (this.#state?.treeId != null || this.#state?.zoneId != null) this.#leave();
    else this.#setOpen(false);
  }

  #onTreePick(event: Event): void {
    const treeId: unknown = (event as CustomEvent<{ treeId: unknown }>).detail?.treeId;
    if (typeof treeId === "string") this.#actions.onTreePick(treeId);
  }
}

function make(tag: string, className: string): HTMLElement {
  const element = document.createElement(tag);
  element.className = className;
  return element;
}

function button(className: string): HTMLButtonElement {
  const element = document.createElement("button");
  element.type = "button";
  element.className = className;
  return element;
}
