import { css, html, LitElement, nothing } from "lit";
import { property } from "lit/decorators.js";
import type { Zone } from "../../core/model/zone.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { capitalized, counted, readableHours } from "../readable.ts";
import { DEFAULT_WORDS as WORDS } from "../words.ts";
import { controlStyles } from "./control-styles.ts";
import { zoneSwatch } from "./zone-swatch.ts";

/**
 * The work zones, soonest due first, with the tools that are about none of them. Fires `zone-open` (detail: zone id), `zone-draw` (detail: what the
 * shape is for), `zones-undo` and `zones-redo`.
 */
export class ZoneList extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    controlStyles,
    css`
      :host {
        min-height: 0;
        overflow: auto;
      }
      .tools {
        display: flex;
        gap: 18px;
        padding: 10px 16px;
        border-bottom: 1px solid var(--edge);
      }
      .tools button:disabled {
        opacity: 0.45;
        cursor: default;
      }
      li button {
        display: grid;
        grid-template-columns: 42px minmax(0, 1fr) auto;
        gap: 1px 12px;
        align-items: center;
        width: 100%;
        padding: 10px 16px;
        border-bottom: 1px solid var(--rule);
      }
      li button:hover {
        background: var(--paper-2);
      }
      li button:focus-visible {
        outline-offset: -2px;
      }
      svg {
        grid-row: 1 / 3;
      }
      b {
        overflow: hidden;
        font-weight: 600;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .due {
        text-align: right;
      }
      .none {
        padding: 24px 16px;
        color: var(--ink-2);
      }
    `,
  ];

  @property({ attribute: false }) zones: readonly Zone[] = [];
  /** Whether the zones may be changed here. */
  @property({ type: Boolean }) canEdit = false;
  /** What would be undone and redone, for the buttons; null where nothing would. */
  @property() undoes: string | null = null;
  @property() redoes: string | null = null;

  protected override render() {
    return html`${this.canEdit ? this.tools() : nothing}${this.list()}`;
  }

  private tools() {
    const { undoes, redoes } = this;
    return html`<div class="tools">
      <button type="button" class="word" @click=${() => this.emit("zone-draw", { for: "make" })}>Draw a zone</button>
      <button type="button" class="word" ?disabled=${undoes === null} title=${undoes ?? nothing} @click=${() => this.emit("zones-undo", null)}>Undo</button>
      <button type="button" class="word" ?disabled=${redoes === null} title=${redoes ?? nothing} @click=${() => this.emit("zones-redo", null)}>Redo</button>
    </div>`;
  }

  private list() {
    if (this.zones.length === 0) {
      return html`<p class="none">This plan has no work zones yet.</p>`;
    }
    const sorted = this.zones
      .map((zone, place) => ({ zone, place }))
      .sort((one, other) =>
        one.zone.due === other.zone.due ? one.place - other.place : one.zone.due < other.zone.due ? -1 : 1,
      );
    return html`<ul>
      ${sorted.map(
        ({ zone }) =>
          html`<li>
            <button type="button" @click=${() => this.open(zone)}>
              ${zoneSwatch(zone)}
              <b>${zone.name}</b>
              <span class="due">${formatDate(zone.due)}</span>
              <span class="small">${capitalized(WORDS.zoneState[zone.state])}${zone.isLocked === true ? ", locked" : ""}, ${WORDS.crew[zone.crew]}, ${counted(zone.treeIds.length, "tree")}</span>
              <span class="due small">${readableHours(zone.hours)}</span>
            </button>
          </li>`,
      )}
    </ul>`;
  }

  private open(zone: Zone) {
    this.emit("zone-open", zone.zoneId);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
