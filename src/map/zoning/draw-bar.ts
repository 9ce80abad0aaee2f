import { css, html, LitElement, nothing } from "lit";
import { property } from "lit/decorators.js";
import type { Zone } from "../../core/model/zone.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { counted, readableHours } from "../readable.ts";
import { DEFAULT_WORDS as WORDS } from "../words.ts";
import { controlStyles } from "./control-styles.ts";
import type { Drawing, DrawingPurpose } from "./drawing.ts";

const ASKS: Readonly<Record<DrawingPurpose["for"], string>> = {
  make: "Click the corners of an outline around the trees of the new zone; click the first corner again to close it.",
  add: "Click the corners of an outline around the trees to add; click the first corner again to close it.",
  split: "Click two or more points of a line across the zone; click the last one again to end it.",
};
const DOES: Readonly<Record<DrawingPurpose["for"], string>> = {
  make: "Make the zone",
  add: "Add the trees",
  split: "Split here",
};

/** Stands over the map while a shape is drawn: what to do, and what it would come to as it stands. Fires `drawing-done` and `drawing-cancel`. */
export class DrawBar extends LitElement {
  static override styles = [
    controlStyles,
    css`
      section {
        padding: 10px 14px 12px;
        border: 1px solid var(--edge);
        background: var(--paper);
      }
      .refused {
        color: var(--warn);
      }
      table {
        width: 100%;
        border-collapse: collapse;
      }
      th,
      td {
        padding: 2px 10px 2px 0;
        font-weight: 400;
        text-align: left;
        vertical-align: top;
      }
      th {
        font-weight: 600;
      }
      .buttons {
        display: flex;
        gap: 8px;
        justify-content: flex-end;
        margin-top: 10px;
      }
    `,
  ];

  @property({ attribute: false }) drawing: Drawing | null = null;

  protected override render() {
    const { drawing } = this;
    if (drawing === null) return nothing;
    const { purpose, result } = drawing;
    const isOpen = result !== null && !result.isRefused && result.changes.length > 0;
    return html`<section aria-label="Drawing on the map">
      <div aria-live="polite">${result === null ? html`<p>${ASKS[purpose.for]}</p>` : this.outcome(drawing)}</div>
      <div class="buttons">
        <button type="button" class="button" @click=${() => this.emit("drawing-cancel")}>Cancel</button>
        <button type="button" class="button main" ?disabled=${!isOpen} @click=${() => this.emit("drawing-done")}>
          ${DOES[purpose.for]}
        </button>
      </div>
    </section>`;
  }

  private outcome({ result }: Drawing) {
    const refusals = result!.findings.filter(({ severity }) => severity === "error");
    const zones = result!.changes.flatMap(({ after }) => (after === null ? [] : [after]));
    return html`
      ${zones.length === 0 ? nothing : html`<table><tbody>${zones.map((zone) => zoneLine(zone))}</tbody></table>`}
      ${refusals.slice(0, 2).map(({ reason }) => html`<p class="refused">${reason}</p>`)}
      ${refusals.length > 2 ? html`<p class="small">And ${counted(refusals.length - 2, "more remark")}.</p>` : nothing}
    `;
  }

  private emit(name: string) {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }
}

/** What a zone comes to, in a line. */
const zoneLine = ({ name, treeIds, hours, crew, windowStart, windowEnd, closure }: Zone) => html`<tr>
  <th scope="row">${name}</th>
  <td>${counted(treeIds.length, "tree")}, ${readableHours(hours)}, ${WORDS.crew[crew]}</td>
  <td>${formatDate(windowStart)} to ${formatDate(windowEnd)}${closure.kind === "none" ? "" : "; closure"}</td>
</tr>`;
