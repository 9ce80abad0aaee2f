import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { StandardChange } from "../../core/standard/standard.ts";
import type { StandardReport } from "../../worker/intake/intake-messages.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted } from "../words.ts";

/** The clearances a run would use: a shipped standard, the city's own values over it, and what is below a legal floor. Fires `base-change`, `own-load`, `own-remove`. */
@customElement("clearances-pane")
export class ClearancesPane extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      h2 {
        font-size: 22px;
      }
      section {
        margin-top: 24px;
      }
      h3 {
        margin-bottom: 4px;
        font-size: 16px;
      }
      .choose {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 16px;
        align-items: end;
        margin-top: 14px;
      }
      .choose label span {
        display: block;
        margin-bottom: 2px;
      }
      .choose select {
        width: min(680px, 100%);
      }
      .problem {
        margin-top: 10px;
        padding: 8px 12px;
        border-left: 5px solid var(--warn);
        background: var(--paper-2);
        overflow-wrap: anywhere;
      }
      table {
        width: 100%;
        border-collapse: collapse;
      }
      th,
      td {
        padding: 7px 14px 7px 0;
        border-bottom: 1px solid var(--rule);
        text-align: left;
        vertical-align: top;
        overflow-wrap: anywhere;
      }
      thead th {
        border-bottom: 1.5px solid var(--ink);
        font-size: 12.5px;
        font-weight: 400;
        color: var(--ink-2);
      }
      tbody th {
        font-weight: 600;
      }
      .figure {
        white-space: nowrap;
      }
      @media (max-width: 620px) {
        .source {
          display: none;
        }
        .figure {
          white-space: normal;
        }
      }
    `,
  ];

  @property({ attribute: false }) report: StandardReport | null = null;
  @property() base = "";
  @property({ attribute: false }) ownName: string | null = null;

  protected override render() {
    const { report } = this;
    if (report === null) return html`<h2>Clearances</h2>`;
    return html`<h2>Clearances</h2>
      <p>Local codes decide. What is below a legal floor is used as you give it, and said.</p>
      <div class="choose">
        ${
          report.isWhole
            ? html`<p>${this.ownName} is a whole standard of its own.</p>`
            : html`<label>
                <span class="small">${this.ownName === null ? "Standard" : `${this.ownName} changes values of`}</span>
                <select
                  @change=${(event: Event) => this.emit("base-change", (event.target as HTMLSelectElement).value)}
                >
                  ${report.shipped.map(({ id, title }) => html`<option value=${id} .selected=${id === this.base}>${title}</option>`)}
                </select>
              </label>`
        }
        <button type="button" class="button" @click=${() => this.emit("own-load", null)}>
          ${this.ownName === null ? "Load your own values" : "Load another file"}
        </button>
        ${this.ownName === null ? nothing : html`<button type="button" class="word" @click=${() => this.emit("own-remove", null)}>Take ${this.ownName} off</button>`}
      </div>
      ${report.faults.map((fault) => html`<p class="problem" role="alert">${fault}</p>`)}
      ${belowFloor(report).map(
        ({ feature, reason, whatToDo }) => html`<div class="problem">
          <p><strong>${feature}</strong>: ${reason}</p>
          <p class="small">${whatToDo}</p>
        </div>`,
      )}
      ${report.changes.length === 0 ? nothing : this.changes(report.changes.filter(isOfValue))} ${this.rules(report)}`;
  }

  private changes(changes: readonly StandardChange[]) {
    return html`<section>
      <h3>Changed from the base, ${counted(changes.length, "value")}</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">Value</th>
            <th scope="col">Was</th>
            <th scope="col">Is</th>
            <th scope="col" class="source">Says who</th>
          </tr>
        </thead>
        <tbody>
          ${changes.map(
            ({ path, from, to, by, source }) => html`<tr>
              <th scope="row">${path.replace(/^rules\./, "").replaceAll(".", ", ")}</th>
              <td>${valueText(from)}</td>
              <td>${valueText(to)}</td>
              <td class="small source">${source.title === by ? by : `${by}: ${source.title}`}</td>
            </tr>`,
          )}
        </tbody>
      </table>
    </section>`;
  }

  private rules({ rules }: StandardReport) {
    if (rules.length === 0) return nothing;
    return html`<section>
      <h3>What must stay free</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">Over or beside</th>
            <th scope="col">Least</th>
            <th scope="col">Pruned to</th>
            <th scope="col" class="source">Source</th>
          </tr>
        </thead>
        <tbody>
          ${rules.map(
            ({ protects, minimum, clearTo, source }) => html`<tr>
              <th scope="row">${protects}</th>
              <td class="figure">${minimum}</td>
              <td class="figure">${clearTo}</td>
              <td class="small source">${source}</td>
            </tr>`,
          )}
        </tbody>
      </table>
    </section>`;
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

/** What of a standard is below a legal floor. */
export const belowFloor = ({ warnings }: StandardReport) => warnings.filter(({ code }) => code === "below-legal-floor");

/** A change of who says a value stands beside the value. */
const isOfValue = ({ path }: StandardChange): boolean => !path.endsWith(".source");

const MOST_LETTERS = 160;

/** A changed value for reading; an object in short. */
function valueText(value: unknown): string {
  if (value === null || value === undefined) return "–";
  const text = typeof value === "object" ? JSON.stringify(value) : String(value);
  return text.length > MOST_LETTERS ? `${text.slice(0, MOST_LETTERS)} …` : text;
}
