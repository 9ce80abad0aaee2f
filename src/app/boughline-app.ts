import { html, LitElement, nothing } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import type { DisplayUnits } from "../core/units/format-length.ts";
import { FocusKeeper } from "./frame/focus-keeper.ts";
import { pageLayout } from "./frame/page-layout.ts";
import type { PageContext } from "./frame/side-page.ts";
import { DropController } from "./intake/drop-controller.ts";
import { LAYER_ENDINGS } from "./intake/intake.ts";
import { IntakeController } from "./intake/intake-controller.ts";
import { intakeDialogs } from "./intake/intake-dialogs.ts";
import { DeskController } from "./keep/desk-controller.ts";
import { largePlan } from "./large/large-plan.ts";
import { ListController } from "./list-controller.ts";
import { boxCorners } from "./map/box-corners.ts";
import type { MapPlace } from "./map/map-place.ts";
import type { MapView } from "./map/map-view.ts";
import { mapFilter } from "./map-filter.ts";
import { MonthsController } from "./months/months-controller.ts";
import { noticeLine } from "./notice-line.ts";
import { PacketController } from "./packet-controller.ts";
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
import { NO_FILTER } from "./tree-filter.ts";
import { ViewController } from "./view-controller.ts";
import { WorkController } from "./work-controller.ts";
import { ZoneController } from "./zoning/zone-controller.ts";
import "./intake/start-sheet.ts";

/** The page: holds what is loaded and how it is filtered, and passes it to the parts. */
@customElement("boughline-app")
export class BoughlineApp extends LitElement {
  @state() hand: PlanInHand | null = null;
  @state() index: PlanIndex | null = null;
  @state() units: DisplayUnits = "us";
  @state() theme: PageTheme = systemTheme();
  @state() private isStarting = true;
  @state() private notice: string | null = null;
  /** Whether the work zones are drawn beside the list of trees too. */
  @state() withZones = false;
  /** Where a link wants the map to look; it goes there once. */
  @state() place: MapPlace | null = null;
  @query("map-view") mapView!: MapView | null;
  @query("input[type=file]") private picker!: HTMLInputElement | null;
  settings: PageSettings = NO_SETTINGS;
  readonly at = new ViewController(this);
  readonly months = new MonthsController(this, (outlook) => this.time.offer(outlook));
  readonly list = new ListController(this, (entries, filter, asOf) => this.months.apply(entries, filter, asOf));
  readonly time = new TimeController(this, (index) => this.showTrees(index));
  readonly doing = new WorkController(this);
  readonly packet = new PacketController(this, (sentence) => this.tell(sentence));
  private readonly files = new IntakeController(this, this.doing, (hand, isMadeHere) => this.load(hand, isMadeHere));
  /** All that becomes of the reader's work on the plan: kept in the browser, saved, put into a link. */
  readonly desk = new DeskController(this, this.doing, this);
  readonly zones = new ZoneController(this, {
    canEdit: () => this.desk.keep.canEdit,
    show: (zones, label) => this.desk.editZones(zones, label),
    open: (zoneId) => (zoneId === null ? this.at.openList("zones") : void this.openZone(zoneId)),
    tell: (sentence) => this.tell(sentence),
  });
  private readonly record = new RecordController(this, this.desk);
  protected readonly focusKeeper = new FocusKeeper(this, () => this.querySelector("side-sheet, start-sheet"));
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
      const large = await largePlan(this.settings, location.search);
      if (large !== null) {
        const { LargePage } = await import("./large/large-page.ts");
        return this.replaceWith(Object.assign(new LargePage(), { plan: large, basemap: this.settings.basemap }));
      }
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
      ${this.index === null ? this.empty() : pageLayout(this, this.index)}
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

  /** What the pages of other parts work with, for the plan as it is shown. */
  context(index: PlanIndex): PageContext | null {
    const { hand, units, theme, desk, doing, list, at, zones: zoning } = this;
    if (hand === null) return null;
    return {
      ...{ hand, index, units, theme, desk, doing, list, at, zoning },
      canEdit: desk.keep.canEdit,
      tell: (sentence) => this.tell(sentence),
      openTree: (treeId) => void this.openTree(treeId),
      openZone: (zoneId) => void this.openZone(zoneId),
      openPage: (page, subject) => at.openPage(page, subject),
      openDialog: (dialog) => at.openDialog(dialog),
      showPlaces: (places) => this.mapView?.showTrees(places),
      take: (files) => void this.take(files),
    };
  }

  /** What lies over the map's corner; on a phone it stands above the map. */
  readonly cornerOfMap = (): DOMRect | null => {
    const block = this.querySelector("title-block");
    return block === null || getComputedStyle(block).position === "static" ? null : block.getBoundingClientRect();
  };

  /** The same while nothing changed that it depends on: the map compares it by identity. */
  readonly filterOfMap = remembered(
    (index: PlanIndex, _view: unknown, _zoneId: unknown, shown: readonly IndexedTree[] | null) =>
      mapFilter(index, this.at, shown),
  );

  load(hand: PlanInHand, isMadeHere: boolean) {
    void this.list.apply(NO_FILTER);
    this.units = hand.opened.plan.options.units;
    this.at.reset();
    this.place = null;
    this.put(hand);
    this.desk.arrive(hand, isMadeHere);
  }

  /** Puts a plan in the place of the one shown, or the same in another state. */
  put(hand: PlanInHand) {
    // Other zones leave the trees' years ahead as they are.
    const isRezoned = this.hand?.opened.plan.prescriptions === hand.opened.plan.prescriptions;
    this.hand = hand;
    document.title = `${hand.name} - Boughline`;
    this.time.follow(planIndex(hand.opened, this.time.plain), isRezoned);
    if (!isRezoned) void this.months.follow(hand);
    this.zones.follow(hand.opened, hand.source);
  }

  viewNow(): PageView | null {
    if (this.hand === null) return null;
    const { planId, options } = this.hand.opened.plan;
    const units = this.units === options.units ? null : this.units;
    return {
      planId,
      view: this.at.view,
      filter: this.list.filter,
      units,
      date: this.time.date,
      place: this.mapView?.placeNow() ?? null,
    };
  }

  showView({ view, filter, units, date, place }: PageView) {
    if (units !== null) this.units = units;
    void this.list.apply(filter);
    if (view.name === "tree") this.openTree(view.treeId, place);
    else if (view.name === "zone") this.openZone(view.zoneId, place);
    else if (view.name === "page") this.at.openPage(view.page, view.subject);
    else this.at.openList(view.name);
    if (place !== null) this.place = place;
    if (date !== null) void this.time.set(date);
  }

  /** Takes the trees of another plan, or the same as they stand on another date. */
  private showTrees(index: PlanIndex) {
    this.index = index;
    void this.list.follow(index, this.time.date ?? index.opened.plan.options.asOf);
  }

  searchFor(text: string) {
    void this.list.apply({ ...this.list.filter, text });
    if (text !== "") this.at.openList("trees");
  }

  /** Opens a tree's card and moves the map to it, unless a place for the map is given. */
  async openTree(treeId: string, place: MapPlace | null = null) {
    const tree = this.index?.treeById.get(treeId)?.tree;
    if (tree === undefined) return;
    this.at.openTree(treeId);
    if (place !== null) return;
    await this.updateComplete;
    this.mapView?.showTree(tree.lonDeg, tree.latDeg);
  }

  async openZone(zoneId: string, place: MapPlace | null = null) {
    const zone = this.index?.zoneById.get(zoneId);
    if (zone === undefined) return;
    this.at.openZone(zoneId);
    if (place !== null) return;
    await this.updateComplete;
    const corners = zone.area.coordinates.flatMap((rings) => rings[0] ?? []);
    this.mapView?.showTrees(corners.map(([lonDeg = 0, latDeg = 0]) => ({ lonDeg, latDeg })));
  }

  openPlace(place: FindingPlace) {
    if ("treeId" in place) void this.openTree(place.treeId);
    else this.mapView?.showTrees(boxCorners(place.box));
  }

  async take(files: readonly File[]) {
    await this.files.take(await this.record.sort(files, this.hand));
  }

  readonly chooseFiles = () => this.picker?.click();

  private onPicked(event: Event) {
    const picker = event.target as HTMLInputElement;
    void this.take([...(picker.files ?? [])]);
    picker.value = "";
  }

  tell(sentence: string | null) {
    this.notice = sentence;
  }
}
