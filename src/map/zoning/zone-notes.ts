import { css, html, LitElement, nothing } from "lit";
import { property } from "lit/decorators.js";
import type { ZoneEditFinding, ZoneMend } from "../../core/zone/edit/zone-edit-result.ts";
import { controlStyles } from "./control-styles.ts";

const SEVERITY_ORDER = ["error", "warning", "info"] as const;
const HEADS = { error: "Not done", warning: "Done, with doubt", info: "Done" } as const;

/**
 * What an edit of the zones had to say, what was refused first, each with its ways out as buttons. Fires `zone-edit` (detail: the edit a way out stands
 * for) and `notes-close`.
 */
export class ZoneNotes extends LitElement {
  static override styles = [
    controlStyles,
    css`
      section {
        max-height: 240px;
        padding: 10px 16px 12px;
        border-bottom: 1px solid var(--edge);
        background: var(--paper-2);
        overflow: auto;
      }
      .head {
        display: flex;
        justify-content: space-between;
        gap: 12px;
      }
      h2 {
        font-size: 14px;
      }
      li {
        padding: 4px 0 6px 10px;
        border-left: 4px solid var(--rule);
        line-height: 1.35;
      }
      li.error {
        border-left-color: var(--warn);
      }
      li + li {
        margin-top: 8px;
      }
      .mends {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
        margin-top: 6px;
      }
      .button {
        min-height: 30px;
        padding: 0 10px;
      }
    `,
  ];

  @property({ attribute: false }) findings: readonly ZoneEditFinding[] = [];

  protected override render() {
    if (this.findings.length === 0) return nothing;
    const sorted = [...this.findings].sort(
      (one, other) => SEVERITY_ORDER.indexOf(one.severity) - SEVERITY_ORDER.indexOf(other.severity),
    );
    return html`<section aria-label="About the last change" aria-live="polite">
      <div class="head">
        <h2>${HEADS[sorted[0]!.severity]}</h2>
        <button type="button" class="word" @click=${() => this.emit("notes-close", null)}>Put away</button>
      </div>
      <ul>
        ${sorted.map(
          ({ severity, reason, whatToDo, mends }) => html`<li class=${severity}>
            <p>${reason}</p>
            <p class="small">${whatToDo}</p>
            ${
              mends.length === 0
                ? nothing
                : html`<div class="mends">
                  ${mends.map(
                    (mend) =>
                      html`<button type="button" class="button" @click=${() => this.mend(mend)}>${mend.label}</button>`,
                  )}
                </div>`
            }
          </li>`,
        )}
      </ul>
    </section>`;
  }

  private mend({ edit }: ZoneMend) {
    this.emit("zone-edit", edit);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
