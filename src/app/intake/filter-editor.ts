import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { ColumnChoices } from "../../worker/intake/intake-messages.ts";
import { sharedStyles } from "../shared-styles.ts";
import { readableCount } from "../words.ts";
import { filterText } from "./filter-text.ts";

/** Picks features of a file by a column and its values, or by a condition in words. Fires `filter-change` (detail: the filter's text). */
@customElement("filter-editor")
export class FilterEditor extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .fields {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1.4fr);
        gap: 8px 14px;
        align-items: end;
      }
      label > span {
        display: block;
        margin-bottom: 2px;
      }
      .fields select,
      .fields input {
        width: 100%;
      }
      fieldset {
        margin: 10px 0 0;
        padding: 0;
        border: 0;
      }
      legend {
        padding: 0;
      }
      ul {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(210px, 1fr));
        gap: 0 18px;
        max-height: 196px;
        margin-top: 4px;
        overflow: auto;
      }
      li label {
        position: relative;
        display: flex;
        gap: 8px;
        align-items: center;
        min-height: 28px;
        border-bottom: 1px solid var(--rule);
      }
      li input {
        flex: none;
        width: 16px;
        min-height: 16px;
        height: 16px;
        margin: 0;
        accent-color: var(--ink);
      }
      .value {
        flex: 1;
        min-width: 0;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .share {
        position: absolute;
        left: 24px;
        bottom: 0;
        height: 3px;
        background: var(--ink-2);
      }
      @media (max-width: 620px) {
        .fields {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  @property({ attribute: false }) choices: readonly ColumnChoices[] = [];
  @property() filter = "";
  /** What the file is called on the page. */
  @property() name = "";
  @state() private column = "";
  @state() private picked: readonly string[] = [];

  protected override render() {
    const pickable = this.choices.filter(({ values }) => values !== null && values.length > 1);
    const values = pickable.find(({ column }) => column === this.column)?.values ?? [];
    return html`<div class="fields">
        ${
          pickable.length === 0
            ? nothing
            : html`<label>
                <span class="small">Pick by the values of a column</span>
                <select aria-label="Column that ${this.name} is picked by" @change=${this.onColumn}>
                  <option value="">Choose a column</option>
                  ${pickable.map(
                    ({ column }) =>
                      html`<option value=${column} .selected=${column === this.column}>${column}</option>`,
                  )}
                </select>
              </label>`
        }
        <label>
          <span class="small">Only features where (empty takes all)</span>
          <input
            type="text"
            maxlength="2000"
            spellcheck="false"
            placeholder="TYPE = Road"
            aria-label="Only features of ${this.name} where"
            .value=${this.filter}
            @change=${(event: Event) => this.tell((event.target as HTMLInputElement).value)}
          />
        </label>
      </div>
      ${values.length === 0 ? nothing : this.valueList(values)}`;
  }

  private valueList(values: readonly { readonly value: string; readonly count: number }[]) {
    const most = Math.max(...values.map(({ count }) => count));
    return html`<fieldset>
      <legend class="small">Values of ${this.column} to keep</legend>
      <ul>
        ${values.map(
          ({ value, count }) => html`<li>
            <label>
              <input
                type="checkbox"
                .checked=${this.picked.includes(value)}
                @change=${(event: Event) => this.onValue(value, (event.target as HTMLInputElement).checked)}
              />
              <span class="value" title=${value}>${value}</span>
              <span class="small">${readableCount(count)}</span>
              <span class="share" .style=${`width: calc((100% - 24px) * ${count / most})`}></span>
            </label>
          </li>`,
        )}
      </ul>
    </fieldset>`;
  }

  private onColumn(event: Event) {
    this.column = (event.target as HTMLSelectElement).value;
    this.picked = [];
  }

  private onValue(value: string, isPicked: boolean) {
    this.picked = isPicked ? [...this.picked, value] : this.picked.filter((one) => one !== value);
    this.tell(filterText({ column: this.column, values: this.picked }));
  }

  private tell(text: string) {
    this.dispatchEvent(new CustomEvent("filter-change", { detail: text }));
  }
}
