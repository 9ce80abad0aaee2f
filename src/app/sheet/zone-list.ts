import { css, html, LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Zone } from "../../core/model/zone.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { sharedStyles } from "../shared-styles.ts";
import { capitalized, counted, readableHours, WORDS } from "../words.ts";
import { zoneSwatch } from "./zone-swatch.ts";

/** The work zones, soonest due first. Fires `zone-open` (detail: zone id). */
@customElement("zone-list")
export class ZoneList extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    sharedStyles,
    css`
      :host {
        min-height: 0;
        overflow: auto;
      }
      button {
        display: grid;
        grid-template-columns: 42px minmax(0, 1fr) auto;
        gap: 1px 12px;
        align-items: center;
        width: 100%;
        padding: 10px 16px;
        border-bottom: 1px solid var(--rule);
      }
      button:hover {
        background: var(--paper-2);
      }
      button:focus-visible {
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

  protected override render() {
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
              <span class="small">${capitalized(WORDS.zoneState[zone.state])}, ${WORDS.crew[zone.crew]}, ${counted(zone.treeIds.length, "tree")}</span>
              <span class="due small">${readableHours(zone.hours)}</span>
            </button>
          </li>`,
      )}
    </ul>`;
  }

  private open(zone: Zone) {
    this.dispatchEvent(new CustomEvent("zone-open", { detail: zone.zoneId, bubbles: true, composed: true }));
  }
}
