import { css, html, LitElement, nothing } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { CREWS } from "../../core/model/terms.ts";
import { type WaitingFigures, waitingWords } from "../../formats/plan/waiting-words.ts";
import { sharedStyles } from "../shared-styles.ts";
import { readableHours, WORDS } from "../words.ts";
import type { ForecastMonth } from "./forecast-months.ts";
import type { Month, MonthBar } from "./month-bars.ts";
import { yearsAhead } from "./years-ahead.ts";

/** The ten years ahead as a table of crew-hours, and what waiting a cycle would cost; opened by `show()`, closed by Escape. */
@customElement("years-dialog")
export class YearsDialog extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      dialog {
        width: min(720px, calc(100vw - 24px));
        max-height: calc(100dvh - 24px);
        margin: auto;
        padding: 18px 20px;
        overflow: auto;
        color: var(--ink);
        background: var(--paper);
        border: 1px solid var(--ink);
      }
      dialog::backdrop {
        background: rgb(0 0 0 / 0.35);
      }
      h2,
      h3 {
        margin: 0 0 6px;
        font-size: 17px;
      }
      h3 {
        margin-top: 18px;
        font-size: 15px;
      }
      .wide {
        overflow-x: auto;
      }
      table {
        width: 100%;
        border-collapse: collapse;
        font-variant-numeric: tabular-nums;
      }
      th,
      td {
        padding: 4px 10px 4px 0;
        text-align: right;
        font-weight: 400;
        white-space: nowrap;
      }
      th:first-child {
        text-align: left;
      }
      thead th {
        color: var(--ink-2);
        font-size: 13px;
      }
      tbody tr {
        border-top: 1px solid var(--rule);
      }
      tfoot tr {
        border-top: 1px solid var(--ink);
      }
      tfoot th,
      tfoot td {
        font-weight: 600;
      }
      p {
        margin: 8px 0 0;
      }
      .note {
        color: var(--ink-2);
        font-size: 13px;
      }
      .close {
        margin-top: 16px;
      }
    `,
  ];

  @property({ attribute: false }) bars: readonly MonthBar[] = [];
  @property({ attribute: false }) forecast: ReadonlyMap<Month, ForecastMonth> | null = null;
  @property({ attribute: false }) waiting: WaitingFigures | null = null;
  /** How far the cost of waiting is reckoned, in words; null when nothing is being reckoned. */
  @property({ attribute: false }) reckoning: string | null = null;
  /** Whether the plan's own files are at hand, so that the cost of waiting can be reckoned here. */
  @property({ attribute: false }) canReckon = false;
  @query("dialog") private dialog!: HTMLDialogElement;

  show() {
    this.dialog.showModal();
  }

  protected override render() {
    return html`<dialog aria-labelledby="years">
      <h2 id="years">Ten years of work</h2>
      ${this.table()}
      <p class="note">
        ${
          this.forecast === null
            ? "The forecast is being reckoned, or the plan's standard is not at hand: only planned visits are counted."
            : "Planned visits, and a forecast: returns when a cure wears off, and first visits where a crown grows into something. Removals, new trees, storms and referred trees are not in it."
        }
      </p>
      <h3>What waiting costs</h3>
      ${this.cost()}
      <button type="button" class="word close" autofocus @click=${() => this.dialog.close()}>Close</button>
    </dialog>`;
  }

  private table() {
    const years = yearsAhead(this.bars, this.forecast);
    const crews = CREWS.filter((crew) => years.some(({ hoursByCrew }) => hoursByCrew[crew] > 0));
    const sum = (of: (year: (typeof years)[number]) => number) => years.reduce((total, year) => total + of(year), 0);
    return html`<div class="wide" tabindex="0" role="region" aria-label="Crew-hours by year">
      <table>
        <thead>
          <tr>
            <th scope="col">Year</th>
            ${crews.map((crew) => html`<th scope="col">${WORDS.crew[crew]}</th>`)}
            <th scope="col">Planned</th>
            <th scope="col">Forecast</th>
            <th scope="col">All</th>
          </tr>
        </thead>
        <tbody>
          ${years.map(
            (year) => html`<tr>
              <th scope="row">${year.year}</th>
              ${crews.map((crew) => html`<td>${readableHours(year.hoursByCrew[crew])}</td>`)}
              <td>${readableHours(year.plannedHours)}</td>
              <td>${readableHours(year.forecastHours)}</td>
              <td>${readableHours(year.plannedHours + year.forecastHours)}</td>
            </tr>`,
          )}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">All</th>
            ${crews.map((crew) => html`<td>${readableHours(sum(({ hoursByCrew }) => hoursByCrew[crew]))}</td>`)}
            <td>${readableHours(sum(({ plannedHours }) => plannedHours))}</td>
            <td>${readableHours(sum(({ forecastHours }) => forecastHours))}</td>
            <td>${readableHours(sum((year) => year.plannedHours + year.forecastHours))}</td>
          </tr>
        </tfoot>
      </table>
    </div>`;
  }

  private cost() {
    if (this.waiting !== null) {
      return html`<p>${waitingWords(this.waiting)}</p>
        <p class="note">
          The whole plan slipped by a cycle: crowns grow and droop at the rates of the forecast, surroundings stay, nothing breaks or dies. Of the
          whole plan, whatever is filtered.
        </p>`;
    }
    if (this.reckoning !== null) return html`<p role="status">${this.reckoning}</p>`;
    if (!this.canReckon) {
      return html`<p>Not reckoned for this plan. On the command line <code>enrich --waiting</code> adds it.</p>`;
    }
    const wish = () => this.dispatchEvent(new CustomEvent("waiting-wanted", { bubbles: true, composed: true }));
    return html`<p>Grows every tree a cycle on, measures and prescribes again: about as long as making the plan.</p>
      <button type="button" @click=${wish}>Reckon it</button>${nothing}`;
  }
}
