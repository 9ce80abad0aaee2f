import { html, LitElement, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { TreesOnDate } from "../../core/schedule/outlook.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { pageButtons, pageTabs } from "../frame/page-buttons.ts";
import type { PageContext } from "../frame/side-page.ts";
import { sidePage } from "../frame/side-pages.ts";
import type { ListController } from "../list-controller.ts";
import { isDueIn } from "../months/month-bars.ts";
import type { IndexedTree, PlanIndex } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { type SideView, VIEW_WORDS, viewWords } from "../side-view.ts";
import type { PageTheme } from "../theme.ts";
import { nextWork, type WorkItem } from "../tree-filter.ts";
import { capitalized, readableCount } from "../words.ts";
import type { ZoneController } from "../zoning/zone-controller.ts";
import { chosenColumns, keepChosenColumns } from "./chosen-columns.ts";
import { countTrees, type FilterCounts, NO_COUNTS } from "./count-trees.ts";
import { sideSheetStyles } from "./side-sheet-styles.ts";
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
  static override styles = [sharedStyles, sideSheetStyles];

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
  /** What the pages of other parts work with. */
  @property({ attribute: false }) context: PageContext | null = null;
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
    if (this.hadFocus && this.shadowRoot?.activeElement == null) this.focus();
  }

  /** Gives the focus to the lines of the trees, to the way back, or to the list's name. */
  override focus() {
    const top = () => this.renderRoot.querySelector<HTMLElement>("nav [aria-current], .back button")?.focus();
    if (this.view.name !== "trees" || this.lines === null) return top();
    const { lines } = this;
    lines.updateComplete.then(() => {
      lines.focus();
      if (this.shadowRoot?.activeElement !== lines) top();
    });
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
              <span aria-hidden="true">‹</span> Back to ${viewWords(backTo)}
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
      ${pageTabs(this.context, this.view)}
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
        ></zone-sheet>${pageButtons(this.context, "zone", view.zoneId)}`;
      }
      case "page": {
        const page = sidePage(view.page);
        return page === undefined || this.context === null ? nothing : page.render(this.context, view.subject);
      }
      case "tree":
        return html`<section class="view padded" aria-label="Tree ${view.treeId}" tabindex="0">
          ${pageButtons(this.context, "tree", view.treeId)}
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
