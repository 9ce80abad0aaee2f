import { html, LitElement, nothing } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import type { DisplayUnits } from "../core/units/format-length.ts";
import { DropController } from "./intake/drop-controller.ts";
import { LAYER_ENDINGS } from "./intake/intake.ts";
import { IntakeController } from "./intake/intake-controller.ts";
import type { IntakeDraft } from "./intake/intake-draft.ts";
import type { MapView } from "./map/map-view.ts";
import { mapFilter } from "./map-filter.ts";
import type { MonthRange } from "./months/month-bars.ts";
import { MonthsController } from "./months/months-controller.ts";
import type { YearsDialog } from "./months/years-dialog.ts";
import { PacketController, type PacketWish } from "./packet-controller.ts";
import type { PlanInHand } from "./plan-in-hand.ts";
import { type IndexedTree, type PlanIndex, planIndex } from "./plan-index.ts";
import { savePlan } from "./save-plan.ts";
import { servedPlan } from "./served-plan.ts";
import { type PageSettings, pageSettings } from "./settings.ts";
import type { FindingPlace } from "./sheet/finding-place.ts";
import { type PageTheme, showTheme, systemTheme } from "./theme.ts";
import { isFiltering, NO_FILTER, passes, type TreeFilter } from "./tree-filter.ts";
import { UnsavedController } from "./unsaved-controller.ts";
import { ViewController } from "./view-controller.ts";
import { WorkController } from "./work-controller.ts";
import "./intake/intake-sheet.ts";
import "./intake/progress-dialog.ts";
import "./intake/start-sheet.ts";
import "./map/map-view.ts";
import "./months/months-strip.ts";
import "./months/years-dialog.ts";
import "./sheet/side-sheet.ts";
import "./title/title-block.ts";

/** The page: holds what is loaded and how it is filtered, and passes it to the parts. */
@customElement("boughline-app")
export class BoughlineApp extends LitElement {
  @state() private hand: PlanInHand | null = null;
  @state() private index: PlanIndex | null = null;
  @state() private filter: TreeFilter = NO_FILTER;
  @state() private shown: readonly IndexedTree[] = [];
  @state() private units: DisplayUnits = "us";
  @state() private theme: PageTheme = systemTheme();
  @state() private isStarting = true;
  @state() private notice: string | null = null;
  /** Whether the work zones are drawn beside the list of trees too. */
  @state() private withZones = false;
  @query("map-view") private mapView!: MapView | null;
  @query("input[type=file]") private picker!: HTMLInputElement | null;
  private settings: PageSettings = { basemap: null, name: null };
  private readonly at = new ViewController(this);
  private readonly months = new MonthsController(this);
  private readonly unsaved = new UnsavedController(this);
  private readonly doing = new WorkController(this);
  private readonly packet = new PacketController(this, (sentence) => this.tell(sentence));
  private readonly files = new IntakeController(this, this.doing, (hand, isUnsaved) => this.load(hand, isUnsaved));
  private readonly drop = new DropController(this, (files) => this.files.take(files));

  /** The page's own style sheet serves the parts that stand in it. */
  protected override createRenderRoot() {
    return this;
  }

  override connectedCallback() {
    super.connectedCallback();
    showTheme(this.theme);
    this.start();
  }

  private async start() {
    try {
      this.settings = await pageSettings();
      const hand = await servedPlan(this.settings.name);
      if (hand !== null) this.load(hand, false);
    } catch (error) {
      this.notice = `The plan could not be opened. ${error instanceof Error ? error.message : String(error)}`;
    }
    this.isStarting = false;
  }

  protected override render() {
    return html`
      ${this.index === null ? this.empty() : this.page(this.index)}
      <input type="file" multiple accept=${LAYER_ENDINGS.join(",")} hidden @change=${this.onPicked} />
      <intake-sheet
        .draft=${this.doing.work === null ? this.files.draft : null}
        .report=${this.files.report}
        .doing=${this.files.doing}
        .problem=${this.files.problem}
        @draft-change=${(event: CustomEvent<IntakeDraft>) => this.files.change(event.detail)}
        @plan-wanted=${() => this.files.make()}
        @files-choose=${this.chooseFiles}
        @map-save=${() => this.files.saveMap()}
        @intake-close=${() => this.files.close()}
      ></intake-sheet>
      <progress-dialog
        .work=${this.doing.work}
        @work-cancel=${() => this.doing.cancel()}
        @work-close=${() => this.doing.cancel()}
      ></progress-dialog>
      ${this.drop.isOver ? html`<div class="drop-veil"><p>Let go to look at the files</p></div>` : nothing}
      ${this.notice === null ? nothing : this.noticeLine(this.notice)}
    `;
  }

  private empty() {
    if (this.isStarting) return html`<p class="unseen" role="status">Looking for a plan</p>`;
    return html`<div class="page empty">
      <start-sheet @files-choose=${this.chooseFiles} @sample-wanted=${() => this.files.openSample()}></start-sheet>
    </div>`;
  }

  private noticeLine(sentence: string) {
    const close = () => {
      this.notice = null;
    };
    return html`<div class="notice" role="alert">
      <p>${sentence}</p>
      <button type="button" @click=${close}>Close</button>
    </div>`;
  }

  private page(index: PlanIndex) {
    const { at } = this;
    const shown = isFiltering(this.filter) ? this.shown : null;
    return html`<div
      class="page ${at.backTo === null ? "" : "detail"}"
      @notice=${(event: CustomEvent<string>) => this.tell(event.detail)}
    >
      <main class="map">
        <h1 class="unseen">${this.hand?.name ?? ""}</h1>
        <title-block
          .index=${index}
          .name=${this.hand?.name ?? ""}
          .text=${this.filter.text}
          .units=${this.units}
          .theme=${this.theme}
          .saving=${this.hand?.files == null ? "served" : this.unsaved.hasUnsaved ? "unsaved" : "saved"}
          @search-tree=${(event: CustomEvent<string>) => this.openTree(event.detail)}
          @search-text=${(event: CustomEvent<string>) => this.searchFor(event.detail)}
          @units-change=${(event: CustomEvent<DisplayUnits>) => {
            this.units = event.detail;
          }}
          @theme-change=${(event: CustomEvent<PageTheme>) => {
            this.theme = event.detail;
            showTheme(event.detail);
          }}
          @files-choose=${this.chooseFiles}
          @plan-save=${this.save}
        ></title-block>
        <map-view
          .opened=${index.opened}
          .filter=${this.filterOfMap(index, at.view, at.zoneId, shown)}
          .corner=${this.cornerOfMap}
          .treeId=${at.treeId}
          .zoneId=${at.zoneId}
          .withZones=${this.withZones || at.isAtZones}
          .theme=${this.theme}
          .units=${this.units}
          .basemap=${this.settings.basemap}
          @map-tree=${(event: CustomEvent<string | null>) => at.follow("tree", event.detail)}
          @map-zone=${(event: CustomEvent<string | null>) => at.follow("zone", event.detail)}
          @map-problem=${(event: CustomEvent<string>) => this.tell(event.detail)}
        ></map-view>
      </main>
      <months-strip
        .bars=${this.months.bars}
        .forecast=${this.months.forecast}
        @years-wanted=${() => this.months.showYears(this.querySelector<YearsDialog>("years-dialog"))}
        .range=${this.filter.months}
        @months-change=${(event: CustomEvent<MonthRange | null>) => this.apply({ ...this.filter, months: event.detail })}
      ></months-strip>
      <years-dialog
        .bars=${this.months.bars}
        .forecast=${this.months.forecast}
        .waiting=${this.months.waiting}
        .reckoning=${this.months.reckoning}
        .canReckon=${this.doing.madeFrom !== null}
        @waiting-wanted=${() => this.doing.madeFrom !== null && this.months.reckon(this.doing.madeFrom)}
      ></years-dialog>
      <side-sheet
        role="complementary"
        aria-label="Side sheet"
        .index=${index}
        .view=${at.view}
        .backTo=${at.backTo}
        .filter=${this.filter}
        .shown=${this.shown}
        .lastTreeId=${at.lastTreeId}
        .units=${this.units}
        .theme=${this.theme}
        .withZones=${this.withZones}
        .packing=${this.packet.packing}
        @view-open=${(event: CustomEvent<"trees">) => at.openList(event.detail)}
        @view-back=${() => at.back()}
        @tree-open=${(event: CustomEvent<string>) => this.openTree(event.detail)}
        @zone-open=${(event: CustomEvent<string>) => this.openZone(event.detail)}
        @filter-change=${(event: CustomEvent<TreeFilter>) => this.apply(event.detail)}
        @trees-show=${() => this.mapView?.showTrees(this.shown.map((entry) => entry.tree))}
        @zones-draw=${(event: CustomEvent<boolean>) => {
          this.withZones = event.detail;
        }}
        @finding-open=${(event: CustomEvent<FindingPlace>) => this.openPlace(event.detail)}
        @packet-wanted=${(event: CustomEvent<PacketWish>) => this.packet.download(this.hand, event.detail)}
      ></side-sheet>
    </div>`;
  }

  /** What lies over the map's corner; on a phone it stands above the map. */
  private readonly cornerOfMap = (): DOMRect | null => {
    const block = this.querySelector("title-block");
    return block === null || getComputedStyle(block).position === "static" ? null : block.getBoundingClientRect();
  };

  /** Made anew only when something it depends on changed, since the map compares it by identity. */
  private readonly filterOfMap = remembered(
    (index: PlanIndex, _view: unknown, _zoneId: unknown, shown: readonly IndexedTree[] | null) =>
      mapFilter(index, this.at, shown),
  );

  private load(hand: PlanInHand, isUnsaved: boolean) {
    this.hand = hand;
    this.index = planIndex(hand.opened);
    this.units = hand.opened.plan.options.units;
    this.at.reset();
    this.unsaved.hasUnsaved = isUnsaved;
    document.title = `${hand.name} - Boughline`;
    this.months.follow(hand);
    this.apply(NO_FILTER);
  }

  private apply(filter: TreeFilter) {
    const { index } = this;
    if (index === null) return;
    const { asOf } = index.opened.plan.options;
    this.filter = filter;
    this.shown = isFiltering(filter) ? index.trees.filter((entry) => passes(entry, filter, asOf)) : index.trees;
    this.months.apply(index, filter);
  }

  private searchFor(text: string) {
    this.apply({ ...this.filter, text });
    if (text !== "") this.at.openList("trees");
  }

  private async openTree(treeId: string) {
    const entry = this.index?.treeById.get(treeId);
    if (entry === undefined) return;
    this.at.openTree(treeId);
    await this.updateComplete;
    this.mapView?.showTree(entry.tree.lonDeg, entry.tree.latDeg);
  }

  private async openZone(zoneId: string) {
    const zone = this.index?.zoneById.get(zoneId);
    if (zone === undefined) return;
    this.at.openZone(zoneId);
    await this.updateComplete;
    const corners = zone.area.coordinates.flatMap((rings) => rings[0] ?? []);
    this.mapView?.showTrees(corners.map(([lonDeg = 0, latDeg = 0]) => ({ lonDeg, latDeg })));
  }

  private openPlace(place: FindingPlace) {
    if ("treeId" in place) {
      this.openTree(place.treeId);
      return;
    }
    const [west, south, east, north] = place.box;
    this.mapView?.showTrees([
      { lonDeg: west, latDeg: south },
      { lonDeg: east, latDeg: north },
    ]);
  }

  private readonly chooseFiles = () => this.picker?.click();

  private onPicked(event: Event) {
    const picker = event.target as HTMLInputElement;
    const files = [...(picker.files ?? [])];
    picker.value = "";
    if (files.length > 0) this.files.take(files);
  }

  private readonly save = async () => {
    if (this.hand !== null && (await savePlan(this.hand))) this.unsaved.hasUnsaved = false;
  };

  private tell(sentence: string) {
    this.notice = sentence;
  }
}

/** The function with its last result kept while its arguments are the same. */
function remembered<Args extends readonly unknown[], Result>(of: (...args: Args) => Result): (...args: Args) => Result {
  let last: { readonly args: Args; readonly result: Result } | null = null;
  return (...args) => {
    if (last === null || args.some((one, place) => one !== last?.args[place])) last = { args, result: of(...args) };
    return last.result;
  };
}
