import { css, html, LitElement, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { TreesOnDate } from "../../core/schedule/outlook.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { ListController } from "../list-controller.ts";
import { isDueIn } from "../months/month-bars.ts";
import type { IndexedTree, PlanIndex } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { type SideView, VIEW_WORDS } from "../side-view.ts";
import type { PageTheme } from "../theme.ts";
import { nextWork, type WorkItem } from "../tree-filter.ts";
import { capitalized, readableCount } from "../words.ts";
import type { ZoneController } from "../zoning/zone-controller.ts";
import { chosenColumns, keepChosenColumns } from "./chosen-columns.ts";
import { countTrees, type FilterCounts, NO_COUNTS } from "./count-trees.ts";
import type { TreeList } from "./tree-list.ts";
import "../../map/card/tree-card.ts";
import "../../map/panel/legend.ts";
import "../time/tree-then.ts";
import "../zoning/tree-zone.ts";
import "../zoning/zone-notes.ts";
import "./filter-chips.ts";
import "./findings-list.ts";
import "./tree-list.ts";
import "./zone-list.ts";
import "./zone-sheet.ts";

const LISTS = ["trees", "zones", "findings", "legend"] as const;

/** The column beside the map: one view at a time, with a way back. Fires `view-open` (detail: list name) and `view-back`. */
@customElement("side-sheet")
export class SideSheet extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        display: flex;
        flex-direction: column;
        border-left: 1px solid var(--edge);
        background: var(--paper);
      }
      nav {
        display: flex;
        flex: none;
        gap: 18px;
        padding: 0 16px;
        border-bottom: 1px solid var(--edge);
        overflow-x: auto;
      }
      nav button {
        flex: none;
        min-height: 42px;
        border-bottom: 3px solid transparent;
        color: var(--ink-2);
      }
      nav button:hover {
        color: var(--ink);
      }
      nav button[aria-current="page"] {
        border-bottom-color: var(--ink);
        color: var(--ink);
        font-weight: 600;
      }
      nav button:focus-visible {
        outline-offset: -3px;
      }
      .back {
        display: flex;
        flex: none;
        justify-content: space-between;
        gap: 16px;
        padding: 0 16px;
        border-bottom: 1px solid var(--edge);
      }
      .back button {
        flex: none;
        min-height: 42px;
        font-weight: 600;
      }
      .back .zone {
        flex: 0 1 auto;
        overflow: hidden;
        font-weight: 400;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .view {
        flex: 1;
        min-height: 0;
      }
      section.view {
        display: flex;
        flex-direction: column;
      }
      tree-list {
        flex: 1 1 128px;
        min-height: 128px;
      }
      filter-chips {
        flex: 0 1 auto;
        min-height: 56px;
        overflow: auto;
      }
      .padded {
        padding: 14px 16px;
        overflow: auto;
      }
      @media (max-width: 720px), (max-width: 980px) and (orientation: portrait) {
        :host {
          border-left: 0;
          border-top: 1px solid var(--edge);
        }
      }
      @media (max-width: 720px) {
        nav,
        .back,
        .padded {
          padding-inline: 12px;
        }
      }
    `,
  ];

  @property({ attribute: false }) index: PlanIndex | null = null;
  @property({ attribute: false }) view: SideView = { name: "trees" };
  /** Where "Back" leads; null on a list. */
  @property({ attribute: false }) backTo: SideView | null = null;
  /** Which trees are listed, and in what order. */
  @property({ attribute: false, hasChanged: () => true }) list: ListController | null = null;
  /** How the trees stand on the date that is shown; null for the plan's own. */
  @property({ attribute: false }) dated: TreesOnDate | null = null;
  /** The tree last looked at, marked in the list. */
  @property() lastTreeId: string | null = null;
  @property() units: DisplayUnits = "us";
  @property() theme: PageTheme = "light";
  /** Whether the work zones are drawn beside the list of trees. */
  @property({ type: Boolean }) withZones = false;
  @property() packing: string | null = null;
  /** Edits of the zones; null where there are none to be made. */
  @property({ attribute: false, hasChanged: () => true }) zoning: ZoneController | null = null;
  /** Whether the plan may be changed here. */
  @property({ type: Boolean }) canEdit = false;
  @query("tree-list") private lines!: TreeList | null;
  private hadFocus = false;
  private counts: FilterCounts = NO_COUNTS;
  /** Columns beside the mapped ones that the reader chose to see. */
  @state() private shownColumns: readonly string[] = [];

  protected override willUpdate(changed: Map<string, unknown>) {
    if (changed.has("view")) this.hadFocus = this.shadowRoot?.activeElement != null;
    if (!changed.has("index") || this.index === null) return;
    this.counts = countTrees(this.index.trees);
    this.shownColumns = chosenColumns(this.index.opened.plan.planId);
  }

  protected override updated(changed: Map<string, unknown>) {
    if (!changed.has("view")) return;
    const { view, lines, lastTreeId } = this;
    if (view.name === "trees" && lastTreeId !== null) lines?.updateComplete.then(() => lines.show(lastTreeId));
    // Opening a view takes away what had the focus, and so does coming back.
    if (!this.hadFocus || this.shadowRoot?.activeElement != null) return;
    const next = this.renderRoot.querySelector<HTMLElement>(this.backTo === null ? ".view" : ".back button");
    if (view.name === "trees") lines?.updateComplete.then(() => lines.focus());
    else next?.focus();
  }

  protected override render() {
    const { index, backTo } = this;
    if (index === null) return nothing;
    return html`
      ${
        backTo === null
          ? this.lists(index)
          : html`<div class="back">
            <button type="button" @click=${() => this.emit("view-back", null)}>
              <span aria-hidden="true">‹</span> Back to ${VIEW_WORDS[backTo.name]}
            </button>
            ${this.zoneLink(index)}
          </div>`
      }
      ${
        this.zoning === null || this.zoning.drawing !== null
          ? nothing
          : html`<zone-notes .findings=${this.zoning.findings}></zone-notes>`
      }
      ${this.body(index)}
    `;
  }

  /** The visit a line in the list is about: the first that falls into the chosen months, else the next. */
  private readonly visitOf = (entry: IndexedTree): WorkItem | undefined => {
    const months = this.list?.filter.months ?? null;
    const asOf = this.index?.opened.plan.options.asOf;
    if (months === null || asOf === undefined) return nextWork(entry);
    return entry.work.find((item) => isDueIn(item, months, asOf));
  };

  /** The way from a tree to the zone it is worked in. */
  private zoneLink(index: PlanIndex) {
    const { view } = this;
    const zone = view.name === "tree" ? (index.treeById.get(view.treeId)?.zone ?? null) : null;
    if (zone === null || this.backTo?.name === "zone") return nothing;
    return html`<button type="button" class="zone word" @click=${() => this.emit("zone-open", zone.zoneId)}>
      In zone ${zone.name}
    </button>`;
  }

  private lists(index: PlanIndex) {
    const { plan } = index.opened;
    const counts = { trees: plan.trees.length, zones: plan.zones.length, findings: plan.findings.length, legend: null };
    return html`<nav aria-label="Side sheet">
      ${LISTS.map(
        (name) =>
          html`<button
            type="button"
            aria-current=${this.view.name === name ? "page" : nothing}
            @click=${() => this.emit("view-open", name)}
          >
            ${capitalized(VIEW_WORDS[name])}${counts[name] === null ? "" : ` ${readableCount(counts[name])}`}
          </button>`,
      )}
    </nav>`;
  }

  private body(index: PlanIndex) {
    const { view, units, list, dated } = this;
    switch (view.name) {
      case "trees":
        return html`<section class="view" aria-label="Trees">
          <filter-chips
            .list=${list}
            .counts=${this.counts}
            .all=${index.trees.length}
            .zones=${index.opened.plan.zones}
            .withZones=${this.withZones}
          ></filter-chips>
          <tree-list .trees=${list?.listed ?? []} .visitOf=${this.visitOf} .selected=${this.lastTreeId} .units=${units}></tree-list>
        </section>`;
      case "zones":
        return html`<zone-list
          class="view"
          .zones=${index.opened.plan.zones}
          .canEdit=${this.canEdit}
          .undoes=${this.zoning?.undoes ?? null}
          .redoes=${this.zoning?.redoes ?? null}
        ></zone-list>`;
      case "findings":
        return html`<findings-list class="view" .index=${index}></findings-list>`;
      case "legend":
        return html`<section class="view padded" aria-label="Legend" tabindex="0">
          <boughline-legend .theme=${this.theme}></boughline-legend>
        </section>`;
      case "zone": {
        const zone = index.zoneById.get(view.zoneId) ?? null;
        const trees = (zone?.treeIds ?? []).flatMap((treeId) => index.treeById.get(treeId) ?? []);
        return html`<zone-sheet
          class="view"
          .zone=${zone}
          .trees=${trees}
          .units=${units}
          .options=${index.opened.plan.options}
          .packing=${this.packing}
          .zones=${index.opened.plan.zones}
          .canEdit=${this.canEdit}
        ></zone-sheet>`;
      }
      case "tree":
        return html`<section class="view padded" aria-label="Tree ${view.treeId}" tabindex="0">
          ${
            dated === null
              ? nothing
              : html`<tree-then .entry=${index.treeById.get(view.treeId) ?? null} .dated=${dated} .units=${units}></tree-then>`
          }
          ${
            this.canEdit
              ? html`<tree-zone .entry=${index.treeById.get(view.treeId) ?? null} .zones=${index.opened.plan.zones}></tree-zone>`
              : nothing
          }
          <boughline-tree-card
            .opened=${index.opened}
            .treeId=${view.treeId}
            .units=${units}
            .theme=${this.theme}
            .shownColumns=${this.shownColumns}
            .hasColumnChoice=${true}
            @columns-choose=${(event: CustomEvent<readonly string[]>) => this.chooseColumns(event.detail)}
          ></boughline-tree-card>
        </section>`;
    }
  }

  private chooseColumns(names: readonly string[]) {
    this.shownColumns = names;
    if (this.index !== null) keepChosenColumns(this.index.opened.plan.planId, names);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
