import { html, LitElement, nothing, type PropertyValues } from "lit";
import { property, state } from "lit/decorators.js";
import type { Zone } from "../../core/model/zone.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { themeStyles } from "../card/card-styles.ts";
import { defineOnce } from "../define-once.ts";
import { ZoneCard } from "../panel/zone-card.ts";
import type { MarkedTree } from "../symbols/tree-mark.ts";
import type { ThemeName } from "../tokens.ts";
import { controlStyles } from "./control-styles.ts";
import { DrawBar } from "./draw-bar.ts";
import { OrderList } from "./order-list.ts";
import { TreeZone } from "./tree-zone.ts";
import type { ZoneEditing } from "./zone-editing.ts";
import { ZoneList } from "./zone-list.ts";
import { ZoneNotes } from "./zone-notes.ts";
import { ZoneTools } from "./zone-tools.ts";
import { zonesPanelStyles } from "./zones-panel-styles.ts";

/** What the panel shows. */
export interface ZonesPanelState {
  readonly opened: OpenedPlan;
  readonly editing: ZoneEditing;
  readonly zoneId: string | null;
  /** A tree selected on the map, which can be put into a zone. */
  readonly tree: (MarkedTree & { readonly zone: Zone | null }) | null;
  /** The zone's trees in order of work. */
  readonly order: readonly MarkedTree[];
  readonly units: DisplayUnits;
  readonly theme: ThemeName;
  /** What could not be begun; null for nothing. */
  readonly problem: string | null;
  /** Whether the zone's figures stand here. */
  readonly hasCard: boolean;
}

/** `<boughline-zones>`: the work zones of a plan with the tools to change them. Fires what its parts fire, `zone-open` and `zones-back`. */
export class ZonesPanel extends LitElement {
  static override styles = [themeStyles, controlStyles, zonesPanelStyles];

  @property({ attribute: false }) shown: ZonesPanelState | null = null;
  @property({ reflect: true }) theme: ThemeName = "light";
  /** Unfolded; a drawing unfolds it too, for what it says stands here. */
  @property({ attribute: false }) isOpen = true;
  @state() private isOrdering = false;
  private isDrawing = false;

  protected override willUpdate(changed: PropertyValues<this>) {
    if (changed.has("shown") && changed.get("shown")?.zoneId !== this.shown?.zoneId) this.isOrdering = false;
    if (this.shown?.editing.drawing != null && !this.isDrawing) this.isOpen = true;
  }

  protected override updated() {
    const isDrawing = this.shown?.editing.drawing != null;
    // What began the drawing has made room for it, and the keys with it.
    if (isDrawing && !this.isDrawing) this.renderRoot.querySelector<HTMLElement>(".body")?.focus();
    this.isDrawing = isDrawing;
  }

  protected override render() {
    const { shown } = this;
    return html`<section class="root" aria-label="Work zones">
      <button type="button" class="fold" aria-expanded=${this.isOpen} @click=${() => this.fold()}>Work zones</button>
      ${
        this.isOpen
          ? html`<div class="body" tabindex="0" role="group" aria-label="Change the work zones">
            ${shown === null ? html`<p class="quiet none">No plan is open.</p>` : this.content(shown)}
          </div>`
          : nothing
      }
    </section>`;
  }

  private content(shown: ZonesPanelState) {
    const { editing, opened, tree, problem } = shown;
    const { zones } = opened.plan;
    const zone = zones.find(({ zoneId }) => zoneId === shown.zoneId);
    // The map is what one looks at meanwhile; on a phone the panel would hide it.
    if (editing.drawing !== null)
      return html`<boughline-draw-bar .drawing=${{ ...editing.drawing }}></boughline-draw-bar>`;
    return html`
      <p class="quiet none" role="status" ?hidden=${problem === null}>${problem}</p>
      <boughline-zone-notes .findings=${editing.findings}></boughline-zone-notes>
      ${tree === null ? nothing : html`<div class="tree"><h3>${tree.tree.commonName ?? tree.tree.species ?? "Tree"} ${tree.tree.id}</h3><boughline-tree-zone .entry=${tree} .zones=${zones}></boughline-tree-zone></div>`}
      ${zone === undefined ? this.list(zones, editing) : this.zone(shown, zone)}
    `;
  }

  private list(zones: readonly Zone[], editing: ZoneEditing) {
    return html`<boughline-zone-list canedit .zones=${zones} .undoes=${editing.undoes} .redoes=${editing.redoes}></boughline-zone-list>`;
  }

  private zone({ opened, editing, order, units, hasCard }: ZonesPanelState, zone: Zone) {
    const { undoes, redoes } = editing;
    return html`<div class="bar">
        <button type="button" class="word" @click=${() => this.emit("zones-back", null)}>All zones</button>
        <button type="button" class="word" ?disabled=${undoes === null} title=${undoes ?? nothing} @click=${() => this.emit("zones-undo", null)}>Undo</button>
        <button type="button" class="word" ?disabled=${redoes === null} title=${redoes ?? nothing} @click=${() => this.emit("zones-redo", null)}>Redo</button>
      </div>
      <div class="zone">
        ${
          hasCard
            ? html`<boughline-zone-card .opened=${opened} .zoneId=${zone.zoneId} .units=${units} .theme=${this.theme} .withOrder=${false}></boughline-zone-card>`
            : html`<h2>${zone.name}</h2>`
        }
        <boughline-zone-tools .zone=${zone} .zones=${opened.plan.zones}></boughline-zone-tools>
        <div class="order">
          <h3>Order of work</h3>
          ${
            zone.isHandOrdered === true
              ? html`<button type="button" class="word" @click=${() => this.emit("zone-edit", { kind: "order", zoneId: zone.zoneId })}>Find a short walk</button>`
              : nothing
          }
          <button type="button" class="word" aria-pressed=${this.isOrdering} @click=${() => this.turnOrder()}>
            ${this.isOrdering ? "Order is right" : "Change order"}
          </button>
        </div>
      </div>
      ${this.isOrdering ? html`<boughline-order-list .zoneId=${zone.zoneId} .trees=${order}></boughline-order-list>` : nothing}`;
  }

  private fold() {
    this.isOpen = !this.isOpen;
  }

  private async turnOrder() {
    this.isOrdering = !this.isOrdering;
    if (!this.isOrdering) return;
    await this.updateComplete;
    // The list begins below the fold of the panel, where nobody would see that it came.
    this.renderRoot.querySelector("boughline-order-list")?.scrollIntoView({ block: "start" });
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

for (const [name, element] of [
  ["boughline-draw-bar", DrawBar],
  ["boughline-order-list", OrderList],
  ["boughline-tree-zone", TreeZone],
  ["boughline-zone-list", ZoneList],
  ["boughline-zone-notes", ZoneNotes],
  ["boughline-zone-tools", ZoneTools],
  ["boughline-zone-card", ZoneCard],
  ["boughline-zones", ZonesPanel],
] as const)
  defineOnce(name, element);
