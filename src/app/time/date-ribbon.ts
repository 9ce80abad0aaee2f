import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { WORLDS } from "../../core/schedule/tree-on-date.ts";
import { addMonths, type IsoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import type { PlanIndex } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted, readableCount, WORDS } from "../words.ts";
import type { TimeController } from "./time-controller.ts";
import { WORLD_WORDS } from "./world-words.ts";

/**
 * Says over the map for which date the trees are shown. On another date than the plan's own it stands in ink, lets the reader choose what is taken of
 * the work to come, and leads back. Fires `date-sought` when somebody wants to look ahead.
 */
@customElement("date-ribbon")
export class DateRibbon extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      section {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 14px;
        align-items: center;
        padding: 5px 12px 6px;
        border: 1px solid var(--edge);
        background: var(--paper);
      }
      .ahead {
        background: var(--ink);
        border-color: var(--ink);
        color: var(--paper);
      }
      .ahead .word {
        text-decoration-color: color-mix(in srgb, var(--paper) 50%, transparent);
      }
      .ahead .word:hover {
        text-decoration-color: var(--paper);
      }
      .ahead :focus-visible {
        outline-color: var(--paper);
      }
      h2 {
        font-size: 15px;
      }
      .worlds {
        display: flex;
      }
      .worlds button {
        min-height: 26px;
        padding: 0 9px;
        border: 1px solid color-mix(in srgb, var(--paper) 55%, transparent);
        font-size: 13px;
      }
      .worlds button + button {
        border-left: 0;
      }
      .worlds button[aria-pressed="true"] {
        background: var(--paper);
        border-color: var(--paper);
        color: var(--ink);
        font-weight: 600;
      }
      .sum {
        flex-basis: 100%;
        font-size: 13px;
      }
      @media (max-width: 720px) {
        section {
          gap: 3px 10px;
          padding: 4px 8px 5px;
        }
        .ahead {
          justify-content: space-between;
        }
        .worlds {
          flex-basis: 100%;
          order: 1;
        }
        .worlds button {
          flex: 1;
          min-height: 32px;
          text-align: center;
        }
        /* The list below counts the same. */
        .sum {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
      }
    `,
  ];

  @property({ attribute: false, hasChanged: () => true }) time: TimeController | null = null;
  @property({ attribute: false }) index: PlanIndex | null = null;

  protected override render() {
    const { time, index } = this;
    if (time === null || index === null || time.outlook === null) return nothing;
    const { asOf } = index.opened.plan.options;
    return time.date === null ? this.today(asOf) : this.ahead(time, index, time.date);
  }

  private today(asOf: IsoDate) {
    const look = () => {
      void this.time?.set(`${addMonths(asOf, 12).slice(0, 7)}-01` as IsoDate);
      this.dispatchEvent(new CustomEvent("date-sought", { bubbles: true, composed: true }));
    };
    return html`<section aria-label="Date shown">
      <span>Trees as of ${formatDate(asOf)}</span>
      <button type="button" class="word" @click=${look}>Look ahead</button>
    </section>`;
  }

  private ahead(time: TimeController, index: PlanIndex, date: IsoDate) {
    const { asOf } = index.opened.plan.options;
    return html`<section class="ahead" aria-label="Date shown">
      <h2>${formatDate(date)}</h2>
      <div class="worlds" role="group" aria-label="What is taken of the work until then">
        ${WORLDS.map(
          (world) =>
            html`<button
              type="button"
              aria-pressed=${world === time.world ? "true" : "false"}
              @click=${() => time.set(date, world)}
            >
              ${WORLD_WORDS[world]}
            </button>`,
        )}
      </div>
      <button type="button" class="word" @click=${() => time.set(null)}>Back to ${formatDate(asOf)}</button>
      <p class="sum" role="status">${this.sum(time, index)}</p>
    </section>`;
  }

  /** How the trees of the plan stand on the date, in one line. */
  private sum({ dated, date }: TimeController, { trees }: PlanIndex): string {
    if (dated === null || dated.date !== date) return "Reckoning the forecast";
    let now = 0;
    let next = 0;
    let overdue = 0;
    let done = 0;
    for (const entry of trees) {
      if (entry.urgency === "now") now += 1;
      if (entry.urgency === "next-window") next += 1;
      if (entry.overdue) overdue += 1;
      done += dated.treeOn(entry.tree.row).done.length;
    }
    const waiting = `${readableCount(now)} ${WORDS.urgency.now}, ${readableCount(next)} ${WORDS.urgency["next-window"]}`;
    const doneByThen = done === 0 ? "" : `; ${counted(done, "visit")} done by then`;
    return `Forecast: ${waiting}, ${readableCount(overdue)} overdue${doneByThen}`;
  }
}
