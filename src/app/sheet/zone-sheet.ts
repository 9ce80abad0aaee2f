import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Language } from "../../core/language/language.ts";
import type { PlanOptions } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import { closureSketch } from "../../core/packet/traffic/closure-sketch.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { type DisplayUnits, formatLength } from "../../core/units/format-length.ts";
import { sentenceInUnits } from "../../core/units/sentence-in-units.ts";
import { drawingElement } from "../../map/card/drawing-element.ts";
import { zoneSwatch } from "../../map/zoning/zone-swatch.ts";
import type { IndexedTree } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { capitalized, readableHours, WORDS } from "../words.ts";
import "../zoning/order-list.ts";
import "../zoning/zone-tools.ts";
import "./tree-list.ts";

export type Paper = "letter" | "a4";

/** One work zone: what it takes, its cautions, the order of work. Fires `packet-wanted` (detail: {zoneId, paper, language}) and what the zone's tools fire. */
@customElement("zone-sheet")
export class ZoneSheet extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .sketch {
        overflow-x: auto;
        margin-top: 6px;
      }
      .sketch svg {
        display: block;
        width: 700px;
        height: auto;
      }
      :host {
        display: flex;
        flex-direction: column;
        min-height: 0;
        overflow: auto;
      }
      .head {
        flex: none;
        padding: 14px 16px 12px;
      }
      .name {
        display: flex;
        align-items: center;
        gap: 12px;
      }
      dl {
        display: grid;
        grid-template-columns: auto minmax(0, 1fr);
        gap: 2px 14px;
        margin-top: 10px;
      }
      dt {
        color: var(--ink-2);
      }
      .cautions {
        margin-top: 14px;
        padding: 9px 12px;
        border-left: 5px solid var(--warn);
        background: var(--paper-2);
        line-height: 1.35;
      }
      .cautions li + li {
        margin-top: 6px;
        padding-top: 6px;
        border-top: 1px solid var(--rule);
      }
      summary {
        width: fit-content;
        cursor: pointer;
      }
      form {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: center;
        margin-top: 12px;
      }
      .order {
        display: flex;
        flex: none;
        gap: 16px;
        align-items: baseline;
        padding: 8px 16px;
        border-block: 1px solid var(--edge);
      }
      .order h3 {
        flex: 1;
      }
      tree-list {
        flex: 1 0 min(320px, 60%);
      }
    `,
  ];

  /** Of the plan: on which side people drive, and the units its own sentences are written in. */
  @property({ attribute: false }) options: PlanOptions | null = null;
  @property({ attribute: false }) zone: Zone | null = null;
  /** The zone's trees in order of work. */
  @property({ attribute: false }) trees: readonly IndexedTree[] = [];
  @property() units: DisplayUnits = "us";
  /** What the packet's maker is doing; null when it is not at work. */
  @property() packing: string | null = null;
  /** All zones of the plan. */
  @property({ attribute: false }) zones: readonly Zone[] = [];
  /** Whether the zone may be changed here. */
  @property({ type: Boolean }) canEdit = false;
  @state() private paper: Paper | null = null;
  @state() private language: Language = "en";
  @state() private isOrdering = false;

  private said(sentence: string): string {
    return sentenceInUnits(sentence, this.options?.units ?? this.units, this.units);
  }

  protected override render() {
    const { zone } = this;
    if (zone === null) return nothing;
    const { closure } = zone;
    return html`
      <div class="head">
        <div class="name">${zoneSwatch(zone)}<h2>${zone.name}</h2></div>
        <dl>
          <dt>Due</dt>
          <dd>${formatDate(zone.due)}</dd>
          <dt>Allowed</dt>
          <dd>${formatDate(zone.windowStart)} to ${formatDate(zone.windowEnd)}</dd>
          <dt>Work</dt>
          <dd>${readableHours(zone.hours)}, ${WORDS.crew[zone.crew]}${zone.walkM < 1 ? "" : `; walk of ${formatLength(zone.walkM, this.units)}`}</dd>
          <dt>State</dt>
          <dd>${capitalized(WORDS.zoneState[zone.state])}</dd>
          ${zone.streets.length > 0 ? html`<dt>Streets</dt><dd>${zone.streets.join(", ")}</dd>` : nothing}
          <dt>Traffic</dt>
          <dd>
            ${this.closureSentence(zone)}
            ${
              closure.kind === "none" || closure.note === ""
                ? nothing
                : html`<details class="small">
                  <summary>How these lengths are found</summary>
                  ${this.said(closure.note)}
                  ${(closure.control?.assumptions ?? []).map((one) => html`<p>${this.said(one)}</p>`)}
                </details>`
            }
          </dd>
        </dl>
        ${this.sketch(zone)}
        <form @submit=${this.want}>
          <button class="button main" ?disabled=${this.packing !== null}>Download packet</button>
          <label>
            <span class="unseen">Paper</span>
            <select @change=${this.onPaper}>
              <option value="letter" ?selected=${this.chosenPaper === "letter"}>Letter paper</option>
              <option value="a4" ?selected=${this.chosenPaper === "a4"}>A4 paper</option>
            </select>
          </label>
          <label>
            <span class="unseen">Language</span>
            <select @change=${this.onLanguage}>
              <option value="en" ?selected=${this.language === "en"}>English</option>
              <option value="es" lang="es" ?selected=${this.language === "es"}>Español</option>
            </select>
          </label>
          <span class="small" role="status">${this.packing ?? "Sheets, map and lists in one zip"}</span>
        </form>
        ${
          zone.hazards.length > 0
            ? html`<ul class="cautions">${zone.hazards.map((text) => html`<li>${this.said(text)}</li>`)}</ul>`
            : nothing
        }
        ${this.canEdit ? html`<zone-tools .zone=${zone} .zones=${this.zones}></zone-tools>` : nothing}
      </div>
      <div class="order">
        <h3>Order of work</h3>
        ${this.canEdit ? this.orderTools(zone) : nothing}
      </div>
      ${
        this.isOrdering && this.canEdit
          ? html`<order-list .zoneId=${zone.zoneId} .trees=${this.trees}></order-list>`
          : html`<tree-list numbered label="Trees in order of work" .trees=${this.trees} .units=${this.units}></tree-list>`
      }
    `;
  }

  private orderTools({ zoneId, isHandOrdered }: Zone) {
    const walk = () =>
      this.dispatchEvent(
        new CustomEvent("zone-edit", { detail: { kind: "order", zoneId }, bubbles: true, composed: true }),
      );
    return html`${
      isHandOrdered === true
        ? html`<button type="button" class="word" @click=${walk}>Find a short walk</button>`
        : nothing
    }
      <button
        type="button"
        class="word"
        aria-pressed=${this.isOrdering}
        @click=${() => {
          this.isOrdering = !this.isOrdering;
        }}
      >
        ${this.isOrdering ? "Order is right" : "Change order"}
      </button>`;
  }

  private get chosenPaper(): Paper {
    return this.paper ?? (this.units === "us" ? "letter" : "a4");
  }

  /** One set-up of the closure, to scale; wider than the sheet, so that its words can be read. */
  private sketch(zone: Zone) {
    const drawing = closureSketch(zone.closure, 182, this.units, this.options?.drive ?? "right");
    if (drawing === null) return nothing;
    return html`<details class="small">
      <summary>Sketch of one set-up${zone.closure.control?.application == null ? "" : ` (${zone.closure.control.application})`}</summary>
      <div class="sketch" tabindex="0" role="group" aria-label="Sketch of one set-up, scrolls sideways">
        ${drawingElement(drawing, "closure", "Sketch of one set-up of the closure")}
      </div>
    </details>`;
  }

  private closureSentence(zone: Zone): string {
    const { kind, roadName, taperM, bufferM } = zone.closure;
    if (kind === "none") return "No closure expected; confirm with the local authority";
    const what = {
      shoulder: "Shoulder closed",
      lane: "Lane closed",
      walk: "Walk closed",
      "parking-lane": "Parking lane closed",
      "lane-and-walk": "Lane and walk closed",
    }[kind];
    const lengths = [
      taperM === null ? null : `taper ${formatLength(taperM, this.units)}`,
      bufferM === null ? null : `buffer ${formatLength(bufferM, this.units)}`,
    ].filter((text) => text !== null);
    return [`${what}${roadName === null ? "" : ` on ${roadName}`}`, ...lengths].join(", ");
  }

  private onPaper(event: Event) {
    this.paper = (event.target as HTMLSelectElement).value === "a4" ? "a4" : "letter";
  }

  private onLanguage(event: Event) {
    this.language = (event.target as HTMLSelectElement).value === "es" ? "es" : "en";
  }

  private want(event: Event) {
    event.preventDefault();
    if (this.zone === null) return;
    const detail = { zoneId: this.zone.zoneId, paper: this.chosenPaper, language: this.language };
    this.dispatchEvent(new CustomEvent("packet-wanted", { detail, bubbles: true, composed: true }));
  }
}
