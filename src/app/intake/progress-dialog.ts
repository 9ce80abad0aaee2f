import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { sharedStyles } from "../shared-styles.ts";

/** Work under way, or the sentence that says why it failed. */
export type Work =
  | { readonly type: "working"; readonly share: number; readonly doing: string }
  | { readonly type: "failed"; readonly title: string; readonly reason: string };

/** What is being done and how far it is. Fires `work-cancel`; after a failure `work-close`. */
@customElement("progress-dialog")
export class ProgressDialog extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      dialog {
        width: min(460px, calc(100vw - 24px));
        padding: 22px 24px 20px;
        border: 1px solid var(--edge);
        background: var(--paper);
        color: inherit;
      }
      dialog::backdrop {
        background: var(--veil);
      }
      .doing {
        display: flex;
        justify-content: space-between;
        gap: 12px;
        margin-top: 12px;
      }
      .doing span:first-child {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .track {
        height: 12px;
        margin: 6px 0 18px;
        border: 1px solid var(--ink);
      }
      .track > div {
        width: 100%;
        height: 100%;
        background: var(--ink);
        transform-origin: left;
        transition: transform 150ms linear;
      }
      .reason {
        margin: 10px 0 18px;
        overflow-wrap: anywhere;
        white-space: pre-line;
      }
      .buttons {
        display: flex;
        justify-content: flex-end;
      }
      @media (prefers-reduced-motion: reduce) {
        .track > div {
          transition: none;
        }
      }
    `,
  ];

  @property({ attribute: false }) work: Work | null = null;

  protected override updated() {
    const dialog = this.renderRoot.querySelector("dialog");
    if (dialog?.open === false) dialog.showModal();
  }

  protected override render() {
    const { work } = this;
    if (work === null) return nothing;
    if (work.type === "failed") {
      return html`<dialog aria-labelledby="title" @cancel=${() => this.emit("work-close")}>
        <h2 id="title">${work.title}</h2>
        <p class="reason" role="alert">${work.reason}</p>
        <div class="buttons">
          <button type="button" class="button main" autofocus @click=${() => this.emit("work-close")}>Back</button>
        </div>
      </dialog>`;
    }
    const percent = Math.round(Math.min(1, Math.max(0, work.share)) * 100);
    return html`<dialog
      aria-labelledby="title"
      @cancel=${(event: Event) => {
        event.preventDefault();
        this.emit("work-cancel");
      }}
    >
      <h2 id="title">Making the plan</h2>
      <p class="doing"><span>${work.doing}</span><span>${percent} %</span></p>
      <div
        class="track"
        role="progressbar"
        aria-label="Making the plan"
        aria-valuemin="0"
        aria-valuemax="100"
        aria-valuenow=${percent}
        aria-valuetext="${work.doing}, ${percent} percent"
      >
        <div .style=${`transform: scaleX(${percent / 100})`}></div>
      </div>
      <p class="unseen" role="status">${work.doing}</p>
      <div class="buttons">
        <button type="button" class="button" autofocus @click=${() => this.emit("work-cancel")}>Cancel</button>
      </div>
    </dialog>`;
  }

  private emit(name: string) {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }
}
