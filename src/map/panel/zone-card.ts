import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import type { Closure, TrafficControl, Zone } from "../../core/model/zone.ts";
import { closureSketch } from "../../core/packet/traffic/closure-sketch.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { type DisplayUnits, formatLength } from "../../core/units/format-length.ts";
import { sentenceInUnits } from "../../core/units/sentence-in-units.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { themeStyles } from "../card/card-styles.ts";
import { drawingElement } from "../card/drawing-element.ts";
import { defineOnce } from "../define-once.ts";
import type { ThemeName } from "../tokens.ts";
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
      .sketch {
        margin: 8px 0 0;
        overflow-x: auto;
      }
      .sketch svg {
        display: block;
        width: 100%;
        min-width: 560px;
        height: auto;
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
    withOrder: { attribute: false },
  };

  declare opened: OpenedPlan | null;
  declare zoneId: string | null;
  declare units: DisplayUnits | undefined;
  declare theme: ThemeName;
  declare words: PartialWords | undefined;
  /** Whether the order of work stands under the figures. Default true. */
  declare withOrder: boolean;

  constructor() {
    super();
    this.opened = null;
    this.zoneId = null;
    this.theme = "light";
    this.withOrder = true;
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
      ${zone.hazards.length === 0 ? nothing : html`<ul class="hazards small">${zone.hazards.map((hazard) => html`<li>${sentenceInUnits(hazard, this.opened?.plan.options.units ?? units, units)}</li>`)}</ul>`}
      ${closureSection(zone.closure, units, this.opened?.plan.options.drive ?? "right", words)}
      ${this.withOrder ? this.#order(zone, words) : nothing}
    </article>`;
  }

  #order(zone: Zone, words: Words): TemplateResult {
    return html`<section>
        <h3>${words.card.order}</h3>
        <ol>
          ${[...new Set(zone.treeIds)].map(
            (treeId, index) =>
              html`<li><button type="button" @click=${() => this.#pick(treeId)}><b>${index + 1}</b><span>${treeId}</span></button></li>`,
          )}
        </ol>
      </section>`;
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
    ${row(card.closure, closed)}
  </dl>`;
}

/** The case, its figures and the sketch of one set-up; the note alone where no road is concerned. */
function closureSection(closure: Closure, units: DisplayUnits, drive: "right" | "left", words: Words): TemplateResult {
  const { control, note } = closure;
  const sketch = closureSketch(closure, 182, units, drive);
  return html`<section>
    <h3>${words.card.closure}</h3>
    <p class="small">${note}</p>
    ${control == null ? nothing : controlFacts(closure, control, units, words)}
    ${
      sketch === null
        ? nothing
        : html`<div class="sketch" tabindex="0">${drawingElement(sketch, "closure", words.traffic.sketch)}</div>`
    }
    ${
      control == null || control.assumptions.length === 0
        ? nothing
        : html`<ul class="small quiet">${control.assumptions.map((one) => html`<li>${one}</li>`)}</ul>`
    }
  </section>`;
}

function controlFacts(closure: Closure, control: TrafficControl, units: DisplayUnits, words: Words): TemplateResult {
  const { traffic } = words;
  const row = (name: string, text: string) => html`<dt class="quiet">${name}</dt><dd>${text}</dd>`;
  const taperDevices = control.tapers.reduce((sum, { devices }) => sum + devices, 0);
  const devices = taperDevices + control.tangentDevices;
  return html`<dl class="small">
    ${row(traffic.typicalCase, [traffic.cases[control.caseId], control.application].filter((one) => one !== null).join(", "))}
    ${row(traffic.duration, traffic.durations[control.duration])}
    ${row(traffic.setUps, String(control.setUps))}
    ${control.tapers.map(({ kind, lengthM }) => row(traffic.tapers[kind], formatLength(lengthM, units)))}
    ${closure.bufferM === null ? nothing : row(traffic.buffer, formatLength(closure.bufferM, units))}
    ${row(traffic.workSpace, formatLength(control.workM, units))}
    ${devices === 0 ? nothing : row(traffic.devices, String(devices))}
    ${control.flaggers === 0 ? nothing : row(traffic.flaggers, String(control.flaggers))}
    ${control.isWalkClosed ? row(traffic.walkway, traffic.walkDetour) : nothing}
  </dl>`;
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

defineOnce("boughline-zone-card", ZoneCard);
