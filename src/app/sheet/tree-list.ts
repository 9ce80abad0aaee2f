import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { formatDate } from "../../core/units/format-date.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { treeMark } from "../../map/symbols/tree-mark.ts";
import type { IndexedTree } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { nextWork, type WorkItem } from "../tree-filter.ts";
import { capitalized, WORDS } from "../words.ts";
import { itemInBrief } from "./item-in-brief.ts";

const ROW_PX = 64;
/** Rows drawn beyond both edges of what is seen. */
const SPARE_ROWS = 6;

/**
 * Trees in lines of one height, of which only those in view are drawn, so that a hundred thousand scroll as well as ten. Arrows walk,
 * Enter opens. Fires `tree-open` (detail: tree id).
 */
@customElement("tree-list")
export class TreeList extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    sharedStyles,
    css`
      :host {
        min-height: 0;
        overflow: auto;
        overscroll-behavior: contain;
      }
      [role="listbox"] {
        position: relative;
      }
      [role="listbox"]:focus-visible {
        outline: none;
      }
      [role="listbox"]:focus-visible [data-active] {
        outline: 2px solid var(--focus);
        outline-offset: -2px;
      }
      [role="option"] {
        position: absolute;
        left: 0;
        right: 0;
        display: grid;
        grid-template-columns: 26px minmax(0, 1fr) auto;
        gap: 0 8px;
        align-content: center;
        height: ${ROW_PX}px;
        padding: 0 16px 0 12px;
        border-bottom: 1px solid var(--rule);
        cursor: pointer;
      }
      [role="option"]:hover,
      [aria-selected="true"] {
        background: var(--paper-2);
      }
      [aria-selected="true"] {
        box-shadow: inset 4px 0 0 var(--ink);
      }
      .mark {
        grid-row: 1 / 3;
        align-self: center;
        height: 22px;
      }
      .name,
      .work {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .name b {
        font-weight: 600;
      }
      .when {
        text-align: right;
      }
      .none {
        padding: 24px 16px;
        color: var(--ink-2);
      }
    `,
  ];

  @property({ attribute: false }) trees: readonly IndexedTree[] = [];
  @property() selected: string | null = null;
  @property() units: DisplayUnits = "us";
  @property() label = "Trees";
  /** Whether the lines are numbered, for an order of work. */
  @property({ type: Boolean }) numbered = false;
  /** The visit whose due date and dose a line tells; the next one unless said otherwise. */
  @property({ attribute: false }) visitOf = (entry: IndexedTree): WorkItem | undefined => nextWork(entry);
  @state() private scrolledPx = 0;
  @state() private seenPx = 800;
  @state() private active = 0;
  private readonly watch = new ResizeObserver(() => {
    this.seenPx = this.clientHeight;
  });

  override connectedCallback() {
    super.connectedCallback();
    this.addEventListener("scroll", this.onScroll, { passive: true });
    this.watch.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.removeEventListener("scroll", this.onScroll);
    this.watch.disconnect();
  }

  /** Brings a tree into view and makes it the one the arrows start from. */
  show(treeId: string) {
    const at = this.trees.findIndex((entry) => entry.tree.id === treeId);
    if (at >= 0) this.walkTo(at);
  }

  protected override willUpdate(changed: Map<string, unknown>) {
    if (changed.has("trees")) {
      const at = this.trees.findIndex((entry) => entry.tree.id === this.selected);
      this.active = Math.max(0, at);
      if (at < 0) this.scrollTop = 0;
    }
  }

  protected override render() {
    const count = this.trees.length;
    if (count === 0) return html`<p class="none">No tree passes the filter.</p>`;
    const first = Math.max(0, Math.floor(this.scrolledPx / ROW_PX) - SPARE_ROWS);
    const last = Math.min(count - 1, Math.ceil((this.scrolledPx + this.seenPx) / ROW_PX) + SPARE_ROWS);
    const drawn = this.trees.slice(first, last + 1);
    const isActiveDrawn = this.active >= first && this.active <= last;
    return html`<div
      role="listbox"
      tabindex="0"
      aria-label=${this.label}
      aria-activedescendant=${isActiveDrawn ? `row-${this.active}` : nothing}
      .style=${`height: ${count * ROW_PX}px`}
      @keydown=${this.onKey}
    >
      ${drawn.map((entry, at) => this.row(entry, first + at))}
    </div>`;
  }

  private row(entry: IndexedTree, at: number) {
    const { tree } = entry;
    const item = this.visitOf(entry);
    // Of the next visit the tree's own: a hazard that nobody may work on yet is more urgent than the visit.
    const isNext = item === undefined || item === nextWork(entry);
    const urgency = capitalized(WORDS.urgency[isNext ? entry.urgency : item.urgency]);
    return html`<div
      id="row-${at}"
      role="option"
      aria-selected=${tree.id === this.selected ? "true" : "false"}
      aria-setsize=${this.trees.length}
      aria-posinset=${at + 1}
      ?data-active=${at === this.active}
      .style=${`top: ${at * ROW_PX}px`}
      @click=${() => this.open(at)}
    >
      ${treeMark(entry)}
      <span class="name">
        ${this.numbered ? html`<b>${at + 1}.</b> ` : nothing}<b>${tree.commonName ?? tree.species ?? "Species unknown"}</b>
        <span class="small">${tree.id}</span>
      </span>
      <span class="when">${item === undefined ? urgency : formatDate(item.due)}</span>
      <span class="work small">${itemInBrief(entry, item, this.units)}</span>
      <span class="when small">
        ${item === undefined ? nothing : item.isDone ? "Done by then" : item.overdue ? "Overdue" : urgency}
      </span>
    </div>`;
  }

  private readonly onScroll = () => {
    this.scrolledPx = this.scrollTop;
  };

  private onKey(event: KeyboardEvent) {
    const page = Math.max(1, Math.floor(this.clientHeight / ROW_PX) - 1);
    const by = {
      ArrowDown: 1,
      ArrowUp: -1,
      PageDown: page,
      PageUp: -page,
      Home: -this.trees.length,
      End: this.trees.length,
    }[event.key];
    if (by !== undefined) this.walkTo(Math.min(this.trees.length - 1, Math.max(0, this.active + by)));
    else if (event.key === "Enter" || event.key === " ") this.open(this.active);
    else return;
    event.preventDefault();
  }

  private walkTo(at: number) {
    this.active = at;
    const top = at * ROW_PX;
    if (top < this.scrollTop) this.scrollTop = top;
    else if (top + ROW_PX > this.scrollTop + this.clientHeight) this.scrollTop = top + ROW_PX - this.clientHeight;
  }

  private open(at: number) {
    const entry = this.trees[at];
    if (entry === undefined) return;
    this.active = at;
    this.dispatchEvent(new CustomEvent("tree-open", { detail: entry.tree.id, bubbles: true, composed: true }));
  }
}
