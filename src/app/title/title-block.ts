import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { formatDate } from "../../core/units/format-date.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { askDesk, type DeskLine } from "../keep/desk-controller.ts";
import type { PlanIndex } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import type { PageTheme } from "../theme.ts";
import { counted } from "../words.ts";
import "../keep/keep-line.ts";
import "./search-field.ts";

/**
 * The corner of the drawing: a search field, what is loaded, and how the reader's work on it is kept. Fires `units-change`, `theme-change`, `files-choose`,
 * and `desk-act`.
 */
@customElement("title-block")
export class TitleBlock extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      section {
        border: 1px solid var(--edge);
        background: var(--paper);
      }
      .loaded,
      .choices {
        border-top: 1px solid var(--edge);
        padding: 7px 12px 8px;
      }
      .name {
        display: flex;
        align-items: baseline;
        justify-content: space-between;
        gap: 10px;
      }
      .plan {
        overflow: hidden;
        font-size: 15px;
        font-weight: 600;
        line-height: 1.35;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .name > span {
        flex: none;
      }
      .choices {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 13px;
        padding: 6px 12px;
        border-top-color: var(--rule);
      }
      .choices button {
        min-height: 24px;
      }
      @media (max-width: 720px) {
        section {
          border-width: 0 0 1px;
        }
        .loaded {
          padding: 5px 12px 0;
          border-top-color: var(--rule);
        }
        .counts {
          display: none;
        }
        .choices {
          gap: 0 9px;
          padding: 0 12px 2px;
          border-top: 0;
        }
        .choices button {
          min-height: 32px;
        }
      }
    `,
  ];

  @property({ attribute: false }) index: PlanIndex | null = null;
  @property() name = "";
  @property() text = "";
  @property() units: DisplayUnits = "us";
  @property() theme: PageTheme = "light";
  @property({ attribute: false }) desk: DeskLine | null = null;

  protected override render() {
    const plan = this.index?.opened.plan;
    if (plan === undefined) return nothing;
    return html`
      <section aria-label="What is loaded">
        <search-field .index=${this.index} .text=${this.text}></search-field>
        <div class="loaded">
          <div class="name">
            <p class="plan" title=${this.name}>${this.name}</p>
            <span class="small">as of ${formatDate(plan.options.asOf)}</span>
          </div>
          <p class="counts small">
            ${counted(plan.trees.length, "tree")}, ${counted(plan.conflicts.length, "conflict")},
            ${counted(plan.zones.length, "zone")}, revision ${plan.revision}
          </p>
        </div>
        <div class="choices">
          <button type="button" class="word" @click=${() => this.emit("units-change", this.units === "us" ? "metric" : "us")}>
            ${this.units === "us" ? "Show meters" : "Show feet"}
          </button>
          <button type="button" class="word" @click=${() => this.emit("theme-change", this.theme === "dark" ? "light" : "dark")}>
            ${this.theme === "dark" ? "Light page" : "Dark page"}
          </button>
          <button type="button" class="word" @click=${() => this.emit("files-choose", null)}>Open files</button>
          <button type="button" class="word" @click=${() => askDesk(this, { do: "copy-link" })}>Copy link</button>
          <button type="button" class="word" @click=${() => askDesk(this, { do: "print-map" })}>Print map</button>
        </div>
        <keep-line .line=${this.desk}></keep-line>
      </section>
    `;
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
