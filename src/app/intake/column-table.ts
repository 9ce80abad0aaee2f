import { html, LitElement, nothing, svg } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { repeat } from "lit/directives/repeat.js";
import type { ConfidenceLevel } from "../../core/model/column-guess.ts";
import { type ColumnUnit, FIELDS } from "../../core/model/column-map.ts";
import type { ColumnRow, FieldChoice, LayerReport } from "../../worker/intake/intake-messages.ts";
import { sharedStyles } from "../shared-styles.ts";
import { columnTableStyles } from "./column-table-styles.ts";
import { fieldWords } from "./field-words.ts";

const LEVEL_WORDS: Readonly<Record<ConfidenceLevel, string>> = { high: "Sure", medium: "Likely", low: "Doubtful" };
const FROM_WORDS = { guess: "Guessed", name: "By its name", map: "By your map", person: "Your choice" };

/** Which column feeds which field of a layer, to be checked and corrected. Fires `field-choice` (detail: FieldChoice). */
@customElement("column-table")
export class ColumnTable extends LitElement {
  static override styles = [sharedStyles, columnTableStyles];

  @property({ attribute: false }) report!: LayerReport;
  @state() private withSamples = false;

  protected override willUpdate(changed: Map<string, LayerReport | undefined>) {
    if (changed.has("report") && changed.get("report")?.layer !== this.report.layer) this.withSamples = false;
  }

  protected override render() {
    const { rows, unused } = this.report;
    const columns = everyColumn(this.report);
    return html`<table>
        <thead>
          <tr>
            <th scope="col">Field</th>
            <th scope="col">Your column</th>
            <th scope="col">Unit</th>
            <th scope="col">Samples</th>
            <th scope="col">How sure</th>
            <th scope="col">Empty</th>
            <th scope="col">A 0 means</th>
          </tr>
        </thead>
        <tbody>
          ${repeat(
            rows,
            ({ field }) => field,
            (row) => this.row(row, columns),
          )} ${this.addRow()}
        </tbody>
      </table>
      ${unused.length === 0 ? nothing : this.unusedColumns()}`;
  }

  private row(row: ColumnRow, columns: readonly ColumnUse[]) {
    const words = fieldWords(row.field);
    const select = (event: Event) => (event.target as HTMLSelectElement).value;
    return html`<tr class=${row.level === "low" || !row.isFound ? "doubtful" : ""}>
      <th scope="row">${words}</th>
      <td>
        <select
          aria-label="Column for ${words}"
          @change=${(event: Event) => this.choose(row.field, select(event) === "" ? null : select(event))}
        >
          ${columns.map(({ column, field }) => html`<option value=${column} .selected=${column === row.column}>${column}${field === null || field === row.field ? "" : ` (now ${fieldWords(field)})`}</option>`)}
          <option value="">No column</option>
        </select>
      </td>
      <td class="unit">
        ${
          row.units.length < 2
            ? (row.unit ?? html`<span class="small none" aria-label="no unit">–</span>`)
            : html`<select
                aria-label="Unit of ${words}"
                @change=${(event: Event) => this.choose(row.field, row.column, select(event) as ColumnUnit, row.zero)}
              >
                ${row.units.map((unit) => html`<option value=${unit} .selected=${unit === row.unit}>${unit}</option>`)}
              </select>`
        }
      </td>
      <td class="samples">${row.samples.length === 0 ? html`<span class="small">no value</span>` : row.samples.join(" · ")}</td>
      <td class="sure">
        <p>${levelMark(row.level, row.isFound)} ${row.level === null ? FROM_WORDS[row.from] : LEVEL_WORDS[row.level]}</p>
        <p class="small">${row.why}</p>
      </td>
      <td class="empty">
        <span>${shareText(row.shareEmpty)}</span>
        <span class="bar" aria-hidden="true"><span .style=${`width: ${row.shareEmpty * 100}%`}></span></span>
      </td>
      <td class="zero">
        ${
          row.zero === null
            ? html`<span class="small none" aria-label="no numbers">–</span>`
            : html`<select
                  aria-label="What 0 means in ${words}"
                  @change=${(event: Event) => this.choose(row.field, row.column, row.unit, select(event) as "value" | "unknown")}
                >
                  <option value="unknown" .selected=${row.zero === "unknown"}>not known</option>
                  <option value="value" .selected=${row.zero === "value"}>a true 0</option>
                </select>
                ${row.shareZero === 0 ? nothing : html`<span class="small">${shareText(row.shareZero)} are 0</span>`}`
        }
      </td>
    </tr>`;
  }

  /** A field without a column, to be given one. */
  private addRow() {
    const fed = new Set(this.report.rows.map(({ field }) => field));
    const free = FIELDS[this.report.layer].filter((field: string) => !fed.has(field));
    const [column] = this.report.unused;
    if (free.length === 0 || column === undefined) return nothing;
    return html`<tr class="add">
      <th scope="row"><label for="add">Another field</label></th>
      <td colspan="6">
        <select
          id="add"
          @change=${(event: Event) => {
            const list = event.target as HTMLSelectElement;
            const field = list.value;
            list.value = "";
            if (field !== "") this.choose(field, column.column);
          }}
        >
          <option value="">Add one of ${free.length}</option>
          ${free.map((field) => html`<option value=${field}>${fieldWords(field)}</option>`)}
        </select>
        <span class="small">Fields without a column are estimated, assumed or not known, and the plan says which.</span>
      </td>
    </tr>`;
  }

  private unusedColumns() {
    const { unused } = this.report;
    return html`<details class="unused">
      <summary>Columns not used (${unused.length})</summary>
      <p class="small">
        They stay in the plan's own files. Lists, cards, maps and packets do not show them, nor does a public export.
        ${this.withSamples ? nothing : html`<button type="button" class="word" @click=${this.showSamples}>Show their values here</button>`}
      </p>
      <ul>
        ${unused.map(
          ({ column, shareEmpty, samples }) => html`<li>
            <span class="column">${column}</span>
            <span class="small">${this.withSamples ? samples.join(" · ") || "no value" : `${shareText(shareEmpty)} empty`}</span>
          </li>`,
        )}
      </ul>
    </details>`;
  }

  private readonly showSamples = () => {
    this.withSamples = true;
  };

  private choose(
    field: string,
    column: string | null,
    unit: ColumnUnit | null = null,
    zero: FieldChoice["zero"] = null,
  ) {
    const detail: FieldChoice = { layer: this.report.layer, field, column, unit, zero };
    this.dispatchEvent(new CustomEvent("field-choice", { detail }));
  }
}

interface ColumnUse {
  readonly column: string;
  /** The field it feeds; null for one that feeds none. */
  readonly field: string | null;
}

/** All columns by name. The order never depends on what they feed, so that a list stays as it is while a person chooses from it. */
function everyColumn({ rows, unused }: LayerReport): ColumnUse[] {
  const uses = new Map<string, ColumnUse>(unused.map(({ column }) => [column, { column, field: null }]));
  for (const { column, field } of rows) if (!uses.has(column)) uses.set(column, { column, field });
  const lower = (text: string) => text.toLowerCase();
  return [...uses.values()].sort((one, other) => (lower(one.column) < lower(other.column) ? -1 : 1));
}

/** How sure a guess is, as a disc: full, half, open; a cross for a column that no feature has. */
function levelMark(level: ConfidenceLevel | null, isFound: boolean) {
  const inside = !isFound
    ? svg`<path d="M3 3 L11 11 M11 3 L3 11" />`
    : level === "low"
      ? svg`<circle cx="7" cy="7" r="5" />`
      : level === "medium"
        ? svg`<circle cx="7" cy="7" r="5" /><path class="full" d="M7 2 A5 5 0 0 1 7 12 Z" />`
        : svg`<circle class="full" cx="7" cy="7" r="5" />`;
  return html`<svg class="mark" viewBox="0 0 14 14" aria-hidden="true">${inside}</svg>`;
}

/** A share in whole percent, never rounded to none or to all: `under 1 %`, `over 99 %`. */
export function shareText(share: number): string {
  if (share > 0 && share < 0.01) return "under 1 %";
  if (share < 1 && share > 0.99) return "over 99 %";
  return `${Math.round(share * 100)} %`;
}
