import { html, LitElement, nothing } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import type { DisplayUnits } from "../core/units/format-length.ts";
import { DropController } from "./intake/drop-controller.ts";
import { LAYER_ENDINGS } from "./intake/intake.ts";
import { IntakeController } from "./intake/intake-controller.ts";
import { intakeDialogs } from "./intake/intake-dialogs.ts";
import { DeskController } from "./keep/desk-controller.ts";
import { type Ground, ListController } from "./list-controller.ts";
import { boxCorners } from "./map/box-corners.ts";
import type { MapView } from "./map/map-view.ts";
import { mapFilter } from "./map-filter.ts";
import { MonthsController } from "./months/months-controller.ts";
import type { MonthsStrip } from "./months/months-strip.ts";
import type { YearsDialog } from "./months/years-dialog.ts";
import { yearsPart } from "./months/years-part.ts";
import { noticeLine } from "./notice-line.ts";
import { PacketController, type PacketWish } from "./packet-controller.ts";
import type { PlanInHand } from "./plan-in-hand.ts";
import { type IndexedTree, type PlanIndex, planIndex } from "./plan-index.ts";
import { RecordController } from "./record/record-controller.ts";
import { recordDialog } from "./record/record-dialog.ts";
import { remembered } from "./remembered.ts";
import { servedPlan } from "./served-plan.ts";
import { NO_SETTINGS, type PageSettings, pageSettings } from "./settings.ts";
import type { PageView } from "./share/page-view.ts";
import type { FindingPlace } from "./sheet/finding-place.ts";
import { type PageTheme, showTheme, systemTheme } from "./theme.ts";
import { TimeController } from "./time/time-controller.ts";
import { isFiltering, NO_FILTER } from "./tree-filter.ts";
import { ViewController } from "./view-controller.ts";
import { WorkController } from "./work-controller.ts";
import { shapeFor } from "./zoning/shape-for.ts";
import { ZoneController } from "./zoning/zone-controller.ts";
import "./intake/start-sheet.ts";
import "./map/map-view.ts";
import "./months/months-strip.ts";
import "./sheet/side-sheet.ts";
import "./time/date-ribbon.ts";
import "./title/title-block.ts";
import "./zoning/draw-bar.ts";

/** The page: holds what is loaded and how it is filtered, and passes it to the parts. */
@customElement("boughline-app")
export class BoughlineApp extends LitElement {
  @state() hand: PlanInHand | null = null;
  @state() private index: PlanIndex | null = null;
  @state() private units: DisplayUnits = "us";
  @state() private theme: PageTheme = systemTheme();
  @state() private isStarting = true;
  @state() private notice: string | null = null;
  /** Whether the work zones are drawn beside the list of trees too. */
  @state() private withZones = false;
  @query("map-view") private mapView!: MapView | null;
  @query("input[type=file]") private picker!: HTMLInputElement | null;
  private settings: PageSettings = NO_SETTINGS;
  private readonly at = new ViewController(this);
  private readonly months = new MonthsController(this, (outlook) => this.time.offer(outlook));
  private readonly list = new ListController(this, (entries, filter, asOf) => this.months.apply(entries, filter, asOf));
  private readonly time = new TimeController(this, (index) => this.showTrees(index));
  private readonly doing = new WorkController(this);
  private readonly packet = new PacketController(this, (sentence) => this.tell(sentence));
  private readonly files = new IntakeController(this, this.doing, (hand, isMadeHere) => this.load(hand, isMadeHere));
  /** All that becomes of the reader's work on the plan: kept in the browser, saved, put into a link. */
  readonly desk = new DeskController(this, this.doing, this);
  private readonly zones = new ZoneController(this, {
    canEdit: () => this.desk.keep.canEdit,
    show: (zones, label) => this.desk.editZones(zones, label),
    open: (zoneId) => (zoneId === null ? this.at.openList("zones") : void this.openZone(zoneId)),
    tell: (sentence) => this.tell(sentence),
  });
  private readonly record = new RecordController(this, this.desk);
  private readonly drop = new DropController(this, (files) => this.take(files));

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
      const hand = await servedPlan(this.settings);
      if (hand !== null) this.load(hand, false);
      else await this.desk.keep.list();
    } catch (error) {
      this.notice = `The plan could not be opened. ${error instanceof Error ? error.message : String(error)}`;
    }
    this.isStarting = false;
  }

  protected override render() {
    return html`
      ${this.index === null ? this.empty() : this.page(this.index)}
      <input type="file" multiple accept=${LAYER_ENDINGS.join(",")} hidden @change=${this.onPicked} />
      ${intakeDialogs(this.files, this.doing, this.chooseFiles)}
      ${recordDialog(this.record, this.index, this.units, this.chooseFiles)}
      ${this.drop.isOver ? html`<div class="drop-veil"><p>Let go to look at the files</p></div>` : nothing}
      ${noticeLine(this.notice, () => this.tell(null))}
    `;
  }

  private empty() {
    if (this.isStarting) return html`<p class="unseen" role="status">Looking for a plan</p>`;
    return html`<div class="page empty">
      <start-sheet .entries=${this.desk.keep.entries} @files-choose=${this.chooseFiles} @sample-wanted=${() => this.files.openSample()}></start-sheet>
    </div>`;
  }

  private page(index: PlanIndex) {
    const { at, list, time } = this;
    const shown = isFiltering(list.filter) ? list.shown : null;
    return html`<div
      class="page ${at.backTo === null ? "" : "detail"}"
      @notice=${(event: CustomEvent<string>) => this.tell(event.detail)}
    >
      <main class="map">
        <h1 class="unseen">${this.hand?.name ?? ""}</h1>
        <title-block
          .index=${index}
          .name=${this.hand?.name ?? ""}
          .text=${list.filter.text}
          .units=${this.units}
          .theme=${this.theme}
          .desk=${this.desk.line}
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
        ></title-block>
        <map-view
          .opened=${index.opened}
          .filter=${this.filterOfMap(index, at.view, at.zoneId, shown)}
          .dated=${time.dated}
          .corner=${this.cornerOfMap}
          .treeId=${at.treeId}
          .zoneId=${at.zoneId}
          .withZones=${this.withZones || at.isAtZones}
          .theme=${this.theme}
          .units=${this.units}
          .basemap=${this.settings.basemap}
          @map-tree=${(event: CustomEvent<string | null>) => at.follow("tree", event.detail)}
          @map-zone=${(event: CustomEvent<string | null>) => at.follow("zone", event.detail)}
          @map-look=${(event: CustomEvent<Ground>) => list.look(event.detail)}
          .drawing=${shapeFor(this.zones.drawing)}
          @map-problem=${(event: CustomEvent<string>) => this.tell(event.detail)}
        ></map-view>
        <draw-bar .drawing=${this.zones.drawing}></draw-bar>
        <date-ribbon
          .time=${time}
          .index=${index}
          @date-sought=${() => this.querySelector<MonthsStrip>("months-strip")?.seekDate()}
        ></date-ribbon>
      </main>
      <months-strip
        .bars=${this.months.bars}
        .forecast=${this.months.forecast}
        @years-wanted=${() => this.months.showYears(this.querySelector<YearsDialog>("years-dialog"))}
        .used=${this.months.used}
        .list=${list}
        .time=${time}
      ></months-strip>
      ${yearsPart(this.months, this.doing)}
      <side-sheet
        role="complementary"
        aria-label="Side sheet"
        .index=${index}
        .view=${at.view}
        .backTo=${at.backTo}
        .list=${list}
        .dated=${time.dated}
        .lastTreeId=${at.lastTreeId}
        .units=${this.units}
        .theme=${this.theme}
        .withZones=${this.withZones}
        .packing=${this.packet.packing}
        .zoning=${this.zones}
        .canEdit=${this.desk.keep.canEdit}
        @view-open=${(event: CustomEvent<"trees">) => at.openList(event.detail)}
        @view-back=${() => at.back()}
        @tree-open=${(event: CustomEvent<string>) => this.openTree(event.detail)}
        @zone-open=${(event: CustomEvent<string>) => this.openZone(event.detail)}
        @trees-show=${() => this.mapView?.showTrees(list.shown.map((entry) => entry.tree))}
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

  /** The same while nothing changed that it depends on: the map compares it by identity. */
  private readonly filterOfMap = remembered(
    (index: PlanIndex, _view: unknown, _zoneId: unknown, shown: readonly IndexedTree[] | null) =>
      mapFilter(index, this.at, shown),
  );

  load(hand: PlanInHand, isMadeHere: boolean) {
    void this.list.apply(NO_FILTER);
    this.units = hand.opened.plan.options.units;
    this.at.reset();
    this.put(hand);
    this.desk.arrive(hand, isMadeHere);
  }

  /** Puts a plan in the place of the one shown, or the same in another state. */
  put(hand: PlanInHand) {
    // Other zones leave the trees' years ahead as they are.
    const isRezoned = this.hand?.opened.plan.prescriptions === hand.opened.plan.prescriptions;
    this.hand = hand;
    document.title = `${hand.name} - Boughline`;
    this.time.follow(planIndex(hand.opened), isRezoned);
    if (!isRezoned) void this.months.follow(hand);
    this.zones.follow(hand.opened, hand.source);
  }

  viewNow(): PageView | null {
    if (this.hand === null) return null;
    const { planId, options } = this.hand.opened.plan;
    const units = this.units === options.units ? null : this.units;
    return { planId, view: this.at.view, filter: this.list.filter, units, date: this.time.date, place: null };
  }

  showView({ view, filter, units, date }: PageView) {
    if (units !== null) this.units = units;
    void this.list.apply(filter);
    if (view.name === "tree") this.openTree(view.treeId);
    else if (view.name === "zone") this.openZone(view.zoneId);
    else this.at.openList(view.name);
    if (date !== null) void this.time.set(date);
  }

  /** Takes the trees of another plan, or the same as they stand on another date. */
  private showTrees(index: PlanIndex) {
    this.index = index;
    void this.list.follow(index, this.time.date ?? index.opened.plan.options.asOf);
  }

  private searchFor(text: string) {
    void this.list.apply({ ...this.list.filter, text });
    if (text !== "") this.at.openList("trees");
  }

  private async openTree(treeId: string) {
    const tree = this.index?.treeById.get(treeId)?.tree;
    if (tree === undefined) return;
    this.at.openTree(treeId);
    await this.updateComplete;
    this.mapView?.showTree(tree.lonDeg, tree.latDeg);
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
    if ("treeId" in place) void this.openTree(place.treeId);
    else this.mapView?.showTrees(boxCorners(place.box));
  }

  async take(files: readonly File[]) {
    await this.files.take(await this.record.sort(files, this.hand));
  }

  private readonly chooseFiles = () => this.picker?.click();

  private onPicked(event: Event) {
    const picker = event.target as HTMLInputElement;
    void this.take([...(picker.files ?? [])]);
    picker.value = "";
  }

  tell(sentence: string | null) {
    this.notice = sentence;
  }
}
