import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { CONFLICT_KINDS, CREWS, URGENCIES } from "../../core/model/terms.ts";
import { sharedStyles } from "../shared-styles.ts";
import { isFiltering, NO_FILTER, type TreeFilter } from "../tree-filter.ts";
import { capitalized, counted, readableCount, readableMonth, WORDS } from "../words.ts";

/** How many trees of the plan have each value; only values that occur are offered. */
export interface FilterCounts {
  readonly urgencies: ReadonlyMap<string, number>;
  readonly kinds: ReadonlyMap<string, number>;
  readonly crews: ReadonlyMap<string, number>;
}

/**
 * The choice of trees to show. Fires `filter-change` (detail: TreeFilter), `trees-show` to see them all on the map, and `zones-draw`
 * (detail: whether the work zones are drawn).
 */
@customElement("filter-chips")
export class FilterChips extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        padding: 10px 16px;
        border-bottom: 1px solid var(--edge);
      }
      .chips {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
      }
      details {
        margin-top: 8px;
      }
      summary {
        width: fit-content;
        cursor: pointer;
        font-size: 13px;
      }
      h3 {
        margin: 8px 0 4px;
        font-size: 13px;
        font-weight: 400;
        color: var(--ink-2);
      }
      .shown {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        gap: 2px 12px;
        margin-top: 8px;
      }
      .buttons {
        display: flex;
        gap: 14px;
      }
      .chip span.small {
        color: inherit;
        opacity: 0.85;
      }
      @media (max-width: 720px) {
        :host {
          padding: 8px 12px;
        }
        .chips {
          flex-wrap: nowrap;
          overflow-x: auto;
          margin: 0 -12px;
          padding: 3px 12px;
        }
        .chip {
          flex: none;
        }
        details .chips {
          flex-wrap: wrap;
        }
      }
    `,
  ];

  @property({ attribute: false }) filter: TreeFilter = NO_FILTER;
  @property({ attribute: false }) counts: FilterCounts = { urgencies: new Map(), kinds: new Map(), crews: new Map() };
  @property({ type: Number }) shown = 0;
  @property({ type: Number }) all = 0;
  /** Whether the work zones are drawn; null for a plan without any. */
  @property({ attribute: false }) zones: boolean | null = null;

  protected override render() {
    const { filter } = this;
    const more = filter.kinds.size + filter.crews.size;
    return html`
      <div class="chips" role="group" aria-label="Urgency">${this.chips("urgencies", URGENCIES, WORDS.urgency, true)}</div>
      <p class="shown small">
        <span role="status">
          ${isFiltering(filter) ? `${readableCount(this.shown)} of ${counted(this.all, "tree")}${this.reasons()}` : counted(this.all, "tree")}
        </span>
        <span class="buttons">
          ${
            this.zones === null
              ? nothing
              : html`<button type="button" class="word" @click=${() => this.emit("zones-draw", this.zones !== true)}>
                  ${this.zones ? "Hide zones" : "Draw zones"}
                </button>`
          }
          <button type="button" class="word" ?hidden=${this.shown === 0} @click=${() => this.emit("trees-show", null)}>
            Fit the map
          </button>
          ${
            isFiltering(filter)
              ? html`<button type="button" class="word" @click=${() => this.emit("filter-change", NO_FILTER)}>Show all trees</button>`
              : nothing
          }
        </span>
      </p>
      <details ?open=${more > 0}>
        <summary>By conflict and crew${more > 0 ? ` (${more} chosen)` : ""}</summary>
        <h3 id="kinds">In conflict with</h3>
        <div class="chips" role="group" aria-labelledby="kinds">${this.chips("kinds", CONFLICT_KINDS, WORDS.kind)}</div>
        <h3 id="crews">Done by</h3>
        <div class="chips" role="group" aria-labelledby="crews">${this.chips("crews", CREWS, WORDS.crew)}</div>
      </details>
    `;
  }

  /** The sides of the filter that are set elsewhere on the page. */
  private reasons(): string {
    const { text, months } = this.filter;
    const due =
      months === null
        ? ""
        : months.from === months.to
          ? `, due in ${readableMonth(months.from)}`
          : `, due ${readableMonth(months.from)} to ${readableMonth(months.to)}`;
    return `${text === "" ? "" : `, with “${text}”`}${due}`;
  }

  private chips<K extends string>(
    side: "urgencies" | "kinds" | "crews",
    keys: readonly K[],
    words: Readonly<Record<K, string>>,
    hasSwatch = false,
  ) {
    const chosen = this.filter[side] as ReadonlySet<string>;
    return keys
      .filter((key) => this.counts[side].has(key) || chosen.has(key))
      .map(
        (key) =>
          html`<button
            type="button"
            class="chip"
            aria-pressed=${chosen.has(key) ? "true" : "false"}
            @click=${() => this.toggle(side, key)}
          >
            ${hasSwatch ? html`<span class="swatch ${key}"></span>` : nothing}${capitalized(words[key])}
            <span class="small">${readableCount(this.counts[side].get(key) ?? 0)}</span>
          </button>`,
      );
  }

  private toggle(side: "urgencies" | "kinds" | "crews", key: string) {
    const chosen = new Set<string>(this.filter[side]);
    if (!chosen.delete(key)) chosen.add(key);
    this.emit("filter-change", { ...this.filter, [side]: chosen });
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
