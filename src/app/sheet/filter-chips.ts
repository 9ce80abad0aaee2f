import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { CONFLICT_KINDS, CREWS, URGENCIES } from "../../core/model/terms.ts";
import type { Zone } from "../../core/model/zone.ts";
import type { ListController } from "../list-controller.ts";
import { sharedStyles } from "../shared-styles.ts";
import { isFiltering, NO_FILTER, type TreeFilter } from "../tree-filter.ts";
import { capitalized, counted, readableCount, readableMonth, WORDS } from "../words.ts";
import { type FilterCounts, NO_COUNTS } from "./count-trees.ts";
import { SORTS, type Sort } from "./sorted-trees.ts";
import "./filter-selects.ts";

const SORT_WORDS: Readonly<Record<Sort, string>> = {
  urgency: "urgency",
  due: "due date",
  dose: "dose",
  hours: "hours",
  street: "street",
};

/**
 * The choice of trees to show and their order, which it tells its list. Fires `trees-show` to see them all on the map, and `zones-draw` (detail:
 * whether the work zones are drawn).
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
      .side {
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
      .order {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: 2px 16px;
        margin-top: 6px;
      }
      .order label {
        display: flex;
        gap: 6px;
        align-items: center;
      }
      .order select {
        min-height: 26px;
        padding: 0 4px;
        border-color: var(--rule);
        color: var(--ink);
      }
      .order input {
        flex: none;
        width: 16px;
        height: 16px;
        min-height: 0;
        margin: 0;
        accent-color: var(--ink);
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

  @property({ attribute: false, hasChanged: () => true }) list: ListController | null = null;
  @property({ attribute: false }) counts: FilterCounts = NO_COUNTS;
  /** Trees of the plan. */
  @property({ type: Number }) all = 0;
  @property({ attribute: false }) zones: readonly Zone[] = [];
  /** Whether the work zones are drawn. */
  @property({ type: Boolean }) withZones = false;

  private get filter(): TreeFilter {
    return this.list?.filter ?? NO_FILTER;
  }

  protected override render() {
    const { filter, list } = this;
    const isInView = list?.isInView === true;
    const sides = [filter.street, filter.species, filter.zoneId, filter.due, filter.owner ?? null];
    const named = sides.filter((side) => side !== null).length + (filter.protectedOnly === true ? 1 : 0);
    const more = filter.kinds.size + filter.crews.size + named;
    const isPart = isFiltering(filter) || isInView;
    const shown = list?.listed.length ?? 0;
    return html`
      <div class="chips" role="group" aria-label="Urgency">${this.chips("urgencies", URGENCIES, WORDS.urgency, true)}</div>
      <p class="shown small">
        <span role="status">
          ${isPart ? `${readableCount(shown)} of ${counted(this.all, "tree")}${this.reasons()}` : counted(this.all, "tree")}
        </span>
        <span class="buttons">
          ${
            this.zones.length === 0
              ? nothing
              : html`<button type="button" class="word" @click=${() => this.emit("zones-draw", !this.withZones)}>
                  ${this.withZones ? "Hide zones" : "Draw zones"}
                </button>`
          }
          <button type="button" class="word" ?hidden=${shown === 0} @click=${() => this.emit("trees-show", null)}>
            Fit the map
          </button>
          ${isPart ? html`<button type="button" class="word" @click=${this.showAll}>Show all trees</button>` : nothing}
        </span>
      </p>
      <div class="order small">
        <label class="view">
          <input type="checkbox" .checked=${isInView} @change=${() => list?.keepInView(!isInView)} />
          Only what the map shows
        </label>
        <label>
          Sort by
          <select @change=${this.onSort}>
            ${SORTS.map((sort) => html`<option value=${sort} ?selected=${sort === list?.sort}>${SORT_WORDS[sort]}</option>`)}
          </select>
        </label>
      </div>
      <details ?open=${more > 0}>
        <summary>More filters${more > 0 ? ` (${more} chosen)` : ""}</summary>
        <filter-selects
          .filter=${filter}
          .counts=${this.counts}
          .zones=${this.zones}
          @filter-change=${(event: CustomEvent<TreeFilter>) => list?.apply(event.detail)}
        ></filter-selects>
        <p class="side" id="kinds">In conflict with</p>
        <div class="chips" role="group" aria-labelledby="kinds">${this.chips("kinds", CONFLICT_KINDS, WORDS.kind)}</div>
        <p class="side" id="crews">Done by</p>
        <div class="chips" role="group" aria-labelledby="crews">${this.chips("crews", CREWS, WORDS.crew)}</div>
      </details>
    `;
  }

  private readonly showAll = () => {
    void this.list?.keepInView(false);
    void this.list?.apply(NO_FILTER);
  };

  private onSort(event: Event) {
    const { value } = event.target as HTMLSelectElement;
    void this.list?.sortBy(SORTS.find((sort) => sort === value) ?? "urgency");
  }

  /** The sides of the filter that are set elsewhere on the page. */
  private reasons(): string {
    const { text, months, chosen } = this.filter;
    const seen = this.list?.isInView === true ? " in view" : "";
    const due =
      months === null
        ? ""
        : months.from === months.to
          ? `, due in ${readableMonth(months.from)}`
          : `, due ${readableMonth(months.from)} to ${readableMonth(months.to)}`;
    return `${seen}${text === "" ? "" : `, with “${text}”`}${chosen == null ? "" : `, ${chosen.words}`}${due}`;
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
    void this.list?.apply({ ...this.filter, [side]: chosen });
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
