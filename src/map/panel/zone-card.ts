import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import type { Zone } from "../../core/model/zone.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { type DisplayUnits, formatLength } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { themeStyles } from "../card/card-styles.ts";
import { defineOnce } from "../define-once.ts";
import { type PartialWords, type Words, wordsWith } from "../words.ts";

/** `<boughline-zone-card>`: what a work zone asks of a crew. Fires `treepick` with the id of a tree chosen from its order of work. */
export class ZoneCard extends LitElement {
  static override readonly styles = [
    themeStyles,
    css`
      dl {
        display: grid;
        grid-template-columns: max-content 1fr;
        gap: 2px 12px;
        margin-top: 8px;
      }
      .hazards {
        margin-top: 10px;
        padding: 2px 0 2px 10px;
        border-left: 3px solid var(--boughline-ink);
      }
      .hazards li + li {
        margin-top: 4px;
      }
      ol {
        columns: 2;
        column-gap: 16px;
      }
      button {
        display: block;
        width: 100%;
        min-height: 26px;
        border: 0;
        background: none;
        color: inherit;
        font: inherit;
        text-align: left;
        cursor: pointer;
      }
      button:hover span {
        text-decoration: underline;
      }
      b {
        display: inline-block;
        min-width: 2.2em;
        font-weight: 600;
      }
    `,
  ];
  static override readonly properties = {
    opened: { attribute: false },
    zoneId: { attribute: "zone-id" },
    units: {},
    theme: { reflect: true },
    words: { attribute: false },
  };

  declare opened: OpenedPlan | null;
  declare zoneId: string | null;
  declare units: DisplayUnits | undefined;
  declare theme: "light" | "dark";
  declare words: PartialWords | undefined;

  constructor() {
    super();
    this.opened = null;
    this.zoneId = null;
    this.theme = "light";
  }

  override render(): TemplateResult {
    const words = wordsWith(this.words);
    const zone = this.opened?.plan.zones.find((one) => one.zoneId === this.zoneId);
    if (zone === undefined) return html`<div class="root"><p class="quiet">${words.card.noZone}</p></div>`;
    const units = this.units ?? this.opened?.plan.options.units ?? "metric";
    return html`<article class="root" aria-label="${words.selectedZone} ${zone.name}">
      <h2>${zone.name}</h2>
      <p class="small quiet">${words.zoneState[zone.state]} · ${words.urgency[zone.urgency]}</p>
      ${facts(zone, units, words)}
      ${zone.hazards.length === 0 ? nothing : html`<ul class="hazards small">${zone.hazards.map((hazard) => html`<li>${hazard}</li>`)}</ul>`}
      <section>
        <h3>${words.card.order}</h3>
        <ol>
          ${[...new Set(zone.treeIds)].map(
            (treeId, index) =>
              html`<li><button type="button" @click=${() => this.#pick(treeId)}><b>${index + 1}</b><span>${treeId}</span></button></li>`,
          )}
        </ol>
      </section>
    </article>`;
  }

  #pick(treeId: string): void {
    this.dispatchEvent(new CustomEvent("treepick", { detail: { treeId }, bubbles: true, composed: true }));
  }
}

function facts(zone: Zone, units: DisplayUnits, words: Words): TemplateResult {
  const { card } = words;
  const { closure } = zone;
  const row = (name: string, text: string) => html`<dt class="quiet">${name}</dt><dd>${text}</dd>`;
  const closed = [card.closureKind[closure.kind], closure.roadName].filter((text) => text !== null).join(", ");
  return html`<dl>
    ${row(capital(card.due), formatDate(zone.due))}
    ${row(card.window, `${formatDate(zone.windowStart)} ${card.to} ${formatDate(zone.windowEnd)}`)}
    ${row(capital(card.trees), `${new Set(zone.treeIds).size} · ${words.crew[zone.crew]} · ${zone.hours.toFixed(1)} ${card.hours}`)}
    ${row(capital(card.walk), formatLength(zone.walkM, units))}
    ${row(card.closure, closure.kind === "none" ? closed : `${closed}. ${closure.note}`)}
  </dl>`;
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

defineOnce("boughline-zone-card", ZoneCard);
