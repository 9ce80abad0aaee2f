import { css, html, LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import { CREWS, type Crew, URGENCIES, type Urgency } from "../../core/model/terms.ts";
import { formatDate } from "../../core/units/format-date.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { Legend, TreeCard, ZoneCard } from "../../map/index.ts";
import { sharedStyles } from "../shared-styles.ts";
import type { PageTheme } from "../theme.ts";
import { capitalized, counted, readableCount, WORDS } from "../words.ts";
import type { LargeSelection } from "./large-map.ts";
import type { LargePlan } from "./large-plan.ts";
import type { ListInView } from "./marks-in-view.ts";
import "./marks-list.ts";

/** Which trees keep their marks: all of no choice. */
export interface LargeFilter {
  readonly urgencies: ReadonlySet<Urgency>;
  readonly crews: ReadonlySet<Crew>;
}

/**
 * The column beside a large plan's map: what is loaded, the choice of trees and those in view, or the card of what is selected. Fires `filter-change`
 * (detail: LargeFilter), `units-change`, `theme-change`, `mark-open` (detail: tree id) and `selection-end`.
 */
@customElement("large-sheet")
export class LargeSheet extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        display: flex;
        flex-direction: column;
        min-height: 0;
        border-left: 1px solid var(--edge);
        background: var(--paper);
        overflow: auto;
      }
      .loaded,
      .filter,
      .card {
        padding: 12px 16px;
        border-bottom: 1px solid var(--edge);
      }
      .back {
        padding: 0 16px;
        border-bottom: 1px solid var(--edge);
      }
      .back button {
        min-height: 42px;
        font-weight: 600;
      }
      h2 {
        overflow-wrap: anywhere;
      }
      .choices {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 14px;
        margin-top: 8px;
      }
      a {
        color: inherit;
      }
      .why {
        margin-top: 8px;
      }
      .chips {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
      }
      .chips + .chips {
        margin-top: 8px;
      }
      .chip span {
        color: inherit;
        opacity: 0.85;
      }
      summary {
        padding: 12px 16px;
        cursor: pointer;
      }
      boughline-legend {
        display: block;
        padding: 0 16px 16px;
      }
      @media (max-width: 720px), (max-width: 980px) and (orientation: portrait) {
        :host {
          border-left: 0;
          border-top: 1px solid var(--edge);
        }
      }
    `,
  ];

  @property({ attribute: false }) plan: LargePlan | null = null;
  @property({ attribute: false }) inView: ListInView | "far" | null = null;
  @property({ attribute: false }) selection: LargeSelection | null = null;
  @property({ attribute: false }) filter: LargeFilter = { urgencies: new Set(), crews: new Set() };
  @property() units: DisplayUnits = "us";
  @property() theme: PageTheme = "light";

  protected override render() {
    const { plan, selection } = this;
    if (plan === null) return html``;
    if (selection !== null && (selection.treeId !== null || selection.zoneId !== null)) return this.selected(selection);
    return html`${this.loaded(plan)} ${this.choice(plan)}
      <marks-list .list=${this.inView}></marks-list>
      <details>
        <summary>Legend</summary>
        ${Object.assign(new Legend(), { theme: this.theme })}
      </details>`;
  }

  private loaded(plan: LargePlan) {
    return html`<section class="loaded" aria-label="What is loaded">
      <h2>${plan.name}</h2>
      <p class="small">
        ${counted(plan.trees, "tree")}, ${counted(plan.conflicts, "conflict")}, ${counted(plan.zones, "zone")}, revision
        ${plan.revision}${plan.asOf === null ? "" : `, as of ${formatDate(plan.asOf)}`}
      </p>
      <div class="choices">
        <button type="button" class="word" @click=${() => this.tell("units-change", this.units === "us" ? "metric" : "us")}>
          ${this.units === "us" ? "Show meters" : "Show feet"}
        </button>
        <button type="button" class="word" @click=${() => this.tell("theme-change", this.theme === "dark" ? "light" : "dark")}>
          ${this.theme === "dark" ? "Light page" : "Dark page"}
        </button>
        <a class="word" href="?by=whole">Read it whole</a>
      </div>
      <p class="small why">
        Too large to be read whole, it is looked at by its map tiles: of the trees only what is in view is read, and a card's records when it is opened. Dates,
        zones by hand, decisions and packets need the whole plan, or a part of it made with <code>enrich --bbox</code>.
      </p>
    </section>`;
  }

  private choice(plan: LargePlan) {
    const { urgencies, crews } = this.filter;
    const chip = (isOn: boolean, words: string, count: number, toggle: () => void) =>
      html`<button type="button" class="chip" aria-pressed=${isOn ? "true" : "false"} @click=${toggle}>
        ${capitalized(words)} <span class="small">${readableCount(count)}</span>
      </button>`;
    return html`<section class="filter" aria-label="Trees to show">
      <div class="chips">
        ${URGENCIES.filter((one) => plan.byUrgency[one] > 0).map((one) =>
          chip(urgencies.has(one), WORDS.urgency[one], plan.byUrgency[one], () =>
            this.tell("filter-change", { crews, urgencies: toggled(urgencies, one) }),
          ),
        )}
      </div>
      <div class="chips">
        ${CREWS.filter((one) => plan.byCrew[one] > 0).map((one) =>
          chip(crews.has(one), WORDS.crew[one], plan.byCrew[one], () =>
            this.tell("filter-change", { urgencies, crews: toggled(crews, one) }),
          ),
        )}
      </div>
    </section>`;
  }

  private selected({ opened, treeId, zoneId }: LargeSelection) {
    const { units, theme } = this;
    const card =
      treeId !== null
        ? Object.assign(new TreeCard(), { opened, treeId, units, theme })
        : Object.assign(new ZoneCard(), { opened, zoneId, units, theme });
    return html`<div class="back">
        <button type="button" @click=${() => this.tell("selection-end", null)}>‹ Back to the trees in view</button>
      </div>
      <div class="card">
        ${opened === null ? html`<p>This plan's tiles are without its other files, so that no card can be shown.</p>` : card}
      </div>`;
  }

  private tell(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

function toggled<T>(held: ReadonlySet<T>, one: T): ReadonlySet<T> {
  const next = new Set(held);
  if (!next.delete(one)) next.add(one);
  return next;
}
