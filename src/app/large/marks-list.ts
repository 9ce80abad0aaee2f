import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { IsoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { markShape } from "../../map/symbols/mark-shape.ts";
import { symbolPicture } from "../../map/symbols/symbol-picture.ts";
import { sharedStyles } from "../shared-styles.ts";
import { capitalized, counted, readableCount, WORDS } from "../words.ts";
import type { ListInView, MarkInView } from "./marks-in-view.ts";

/** Most lines of the list: more are not read, and the map is the way to fewer. */
export const MOST_LINES = 200;

/** The trees that the map shows, the most urgent first. Fires `mark-open` (detail: tree id). */
@customElement("marks-list")
export class MarksList extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        display: block;
      }
      .said {
        padding: 10px 16px 8px;
      }
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
        border-top: 1px solid var(--edge);
      }
      li button {
        display: grid;
        grid-template-columns: 26px minmax(0, 1fr) auto;
        gap: 0 8px;
        align-items: center;
        width: 100%;
        min-height: 44px;
        padding: 4px 16px 4px 12px;
        border: 0;
        border-bottom: 1px solid var(--rule);
        text-align: left;
      }
      li button:hover {
        background: var(--paper-2);
      }
      li button:focus-visible {
        outline-offset: -3px;
      }
      .mark {
        height: 22px;
      }
      b {
        font-weight: 600;
        overflow-wrap: anywhere;
      }
    `,
  ];

  /** Null before the map is drawn; `far` where it is too far out for a list. */
  @property({ attribute: false }) list: ListInView | "far" | null = null;

  protected override render() {
    const { list } = this;
    if (list === null) return html`<p class="said" role="status">The map is being drawn.</p>`;
    if (list === "far")
      return html`<p class="said" role="status">Move closer to list the trees in view. A click on a mark opens its tree from any distance.</p>`;
    return html`
      <p class="said" role="status">${sentence(list)}</p>
      ${list.marks.length === 0 ? nothing : html`<ul>${list.marks.map((mark) => this.line(mark))}</ul>`}
    `;
  }

  private line(mark: MarkInView) {
    const shape = markShape(mark.remedy);
    const tone = mark.urgency === "clear" ? "var(--ground)" : `var(--urgency-${mark.urgency})`;
    const colors = { tone, ink: "var(--ink)", ground: "var(--ground)" };
    const work = [WORDS.remedy[mark.remedy], ...(mark.crew === null ? [] : [WORDS.crew[mark.crew]])].join(", ");
    return html`<li>
      <button
        type="button"
        @click=${() =>
          this.dispatchEvent(new CustomEvent("mark-open", { detail: mark.treeId, bubbles: true, composed: true }))}
      >
        <span class="mark">${symbolPicture(shape, colors, "confirmed", shape.turns ? mark.bearingDeg : 0)}</span>
        <span
          ><b>${mark.treeId}</b>
          <span class="small"
            >${work}${mark.stands > 1 ? html`; stands for ${readableCount(mark.stands)} trees here` : nothing}</span
          ></span
        >
        <span class="small">${
          mark.due === null
            ? capitalized(WORDS.urgency[mark.urgency])
            : `${mark.overdue ? "Overdue, " : ""}${formatDate(mark.due as IsoDate)}`
        }</span>
      </button>
    </li>`;
  }
}

function sentence({ marks, all, trees }: ListInView): string {
  if (all === 0) return "No tree of the filter is in view. Move the map, or take the filter off.";
  const inView =
    trees > all
      ? `${counted(trees, "tree")} in view, shown by ${counted(all, "mark")}`
      : `${counted(all, "tree")} in view`;
  const listed =
    marks.length < all ? `; the ${readableCount(marks.length)} most urgent are listed. Move closer for the others` : "";
  return `${inView}${listed}.`;
}
