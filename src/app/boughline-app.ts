import { html, LitElement, nothing } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { PlanJobRequest } from "../worker/plan-messages.ts";
import { DropController } from "./intake/drop-controller.ts";
import { type Intake, takeIn } from "./intake/intake.ts";
import { localDate } from "./intake/local-date.ts";
import { sampleRequest } from "./intake/sample-town.ts";
import { boundsOf } from "./map/bounds-of.ts";
import type { MapView } from "./map/map-view.ts";
import { type MonthBar, type MonthRange, monthBars } from "./months/month-bars.ts";
import { PacketController, type PacketWish } from "./packet-controller.ts";
import type { PlanInHand } from "./plan-in-hand.ts";
import { type IndexedTree, type PlanIndex, planIndex } from "./plan-index.ts";
import { saveFile } from "./save-file.ts";
import { servedPlan } from "./served-plan.ts";
import { type PageSettings, pageSettings } from "./settings.ts";
import type { FindingPlace } from "./sheet/finding-place.ts";
import type { SideView } from "./side-view.ts";
import { type PageTheme, showTheme, systemTheme } from "./theme.ts";
import { isFiltering, NO_FILTER, passes, type TreeFilter } from "./tree-filter.ts";
import { WorkController } from "./work-controller.ts";
import "./intake/intake-dialog.ts";
import "./intake/progress-dialog.ts";
import "./intake/start-sheet.ts";
import "./map/map-view.ts";
import "./months/months-strip.ts";
import "./sheet/side-sheet.ts";
import "./title/title-block.ts";

/** The page: holds what is loaded, shown and selected, and passes it to the parts. */
@customElement("boughline-app")
export class BoughlineApp extends LitElement {
  @state() private hand: PlanInHand | null = null;
  @state() private index: PlanIndex | null = null;
  @state() private filter: TreeFilter = NO_FILTER;
  @state() private shown: readonly IndexedTree[] = [];
  @state() private bars: readonly MonthBar[] = [];
  /** What the side sheet shows last; those before it are the way back. */
  @state() private views: readonly SideView[] = [{ name: "trees" }];
  @state() private treeId: string | null = null;
  @state() private zoneId: string | null = null;
  @state() private lastTreeId: string | null = null;
  @state() private units: DisplayUnits = "us";
  @state() private theme: PageTheme = systemTheme();
  @state() private intake: Intake | null = null;
  @state() private isStarting = true;
  @state() private notice: string | null = null;
  @query("map-view") private mapView!: MapView | null;
  @query("input[type=file]") private picker!: HTMLInputElement | null;
  private settings: PageSettings = { basemap: null };
  private readonly doing = new WorkController(this);
  private readonly packet = new PacketController(this, (sentence) => this.tell(sentence));
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
      const [settings, hand] = await Promise.all([pageSettings(), servedPlan()]);
      this.settings = settings;
      if (hand !== null) this.load(hand);
    } catch (error) {
      this.notice = `The plan could not be opened. ${error instanceof Error ? error.message : String(error)}`;
    }
    this.isStarting = false;
  }

  protected override render() {
    return html`
      ${this.index === null ? this.empty() : this.page(this.index)}
      <input type="file" multiple accept=".geojson,.json,.zip" hidden @change=${this.onPicked} />
      <intake-dialog
        .intake=${this.doing.work === null ? this.intake : null}
        .today=${localDate()}
        @plan-wanted=${(event: CustomEvent<PlanJobRequest>) => this.make(event.detail)}
        @files-choose=${this.chooseFiles}
        @intake-close=${() => {
          this.intake = null;
        }}
      ></intake-dialog>
      <progress-dialog
        .work=${this.doing.work}
        @work-cancel=${() => this.doing.cancel()}
        @work-close=${() => this.doing.cancel()}
      ></progress-dialog>
      ${this.drop.isOver ? html`<div class="drop-veil"><p>Let go to look at the files</p></div>` : nothing}
      ${
        this.notice === null
          ? nothing
          : html`<div class="notice" role="alert">
              <p>${this.notice}</p>
              <button
                type="button"
                @click=${() => {
                  this.notice = null;
                }}
              >
                Close
              </button>
            </div>`
      }
    `;
  }

  private empty() {
    if (this.isStarting) return html`<p class="unseen" role="status">Looking for a plan</p>`;
    return html`<div class="page empty">
      <start-sheet @files-choose=${this.chooseFiles} @sample-wanted=${this.openSample}></start-sheet>
    </div>`;
  }

  private page(index: PlanIndex) {
    const view = this.views.at(-1) ?? { name: "trees" };
    return html`<div class="page" @notice=${(event: CustomEvent<string>) => this.tell(event.detail)}>
      <main class="map">
        <title-block
          .index=${index}
          .name=${this.hand?.name ?? ""}
          .text=${this.filter.text}
          .units=${this.units}
          .theme=${this.theme}
          .canSave=${this.hand?.files != null}
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
          @plan-save=${this.savePlan}
        ></title-block>
        <map-view
          .opened=${index.opened}
          .shownIds=${isFiltering(this.filter) ? this.shown.map((entry) => entry.tree.id) : null}
          .treeId=${this.treeId}
          .zoneId=${this.zoneId}
          .withZones=${this.views.some((one) => one.name === "zones" || one.name === "zone")}
          .theme=${this.theme}
          .units=${this.units}
          .basemap=${this.settings.basemap}
          @map-tree=${(event: CustomEvent<string | null>) => this.onMapTree(event.detail)}
          @map-zone=${(event: CustomEvent<string | null>) => this.onMapZone(event.detail)}
          @map-problem=${(event: CustomEvent<string>) => this.tell(event.detail)}
        ></map-view>
      </main>
      <months-strip
        .bars=${this.bars}
        .range=${this.filter.months}
        @months-change=${(event: CustomEvent<MonthRange | null>) => this.apply({ ...this.filter, months: event.detail })}
      ></months-strip>
      <side-sheet
        role="complementary"
        aria-label="Side sheet"
        .index=${index}
        .view=${view}
        .backTo=${this.views.at(-2) ?? null}
        .filter=${this.filter}
        .shown=${this.shown}
        .lastTreeId=${this.lastTreeId}
        .units=${this.units}
        .theme=${this.theme}
        .packing=${this.packet.packing}
        @view-open=${(event: CustomEvent<"trees">) => this.openList(event.detail)}
        @view-back=${this.goBack}
        @tree-open=${(event: CustomEvent<string>) => this.openTree(event.detail)}
        @zone-open=${(event: CustomEvent<string>) => this.openZone(event.detail)}
        @filter-change=${(event: CustomEvent<TreeFilter>) => this.apply(event.detail)}
        @trees-show=${() => this.mapView?.showTrees(this.shown.map((entry) => entry.tree))}
        @finding-open=${(event: CustomEvent<FindingPlace>) => this.openPlace(event.detail)}
        @packet-wanted=${(event: CustomEvent<PacketWish>) => this.packet.download(this.hand, event.detail)}
      ></side-sheet>
    </div>`;
  }

  private load(hand: PlanInHand) {
    this.hand = hand;
    this.index = planIndex(hand.opened);
    this.units = hand.opened.plan.options.units;
    this.intake = null;
    this.views = [{ name: "trees" }];
    this.treeId = null;
    this.zoneId = null;
    this.lastTreeId = null;
    document.title = `${hand.name} - Boughline`;
    this.apply(NO_FILTER);
  }

  private apply(filter: TreeFilter) {
    const { index } = this;
    if (index === null) return;
    const { asOf } = index.opened.plan.options;
    this.filter = filter;
    this.shown = isFiltering(filter) ? index.trees.filter((entry) => passes(entry, filter, asOf)) : index.trees;
    // The bars show every month of what the other sides of the filter leave, so that the months stay comparable.
    const others = { ...filter, months: null };
    const visits = index.trees
      .filter((entry) => passes(entry, others, asOf))
      .flatMap((entry) => entry.prescription.visits)
      .filter((visit) => filter.crews.size === 0 || filter.crews.has(visit.crew));
    this.bars = monthBars(visits, asOf);
  }

  private searchFor(text: string) {
    this.apply({ ...this.filter, text });
    if (text !== "") this.openList("trees");
  }

  private openList(name: "trees" | "zones" | "findings" | "legend") {
    this.views = [{ name }];
    this.treeId = null;
    this.zoneId = null;
  }

  private openTree(treeId: string) {
    const entry = this.index?.treeById.get(treeId);
    if (entry === undefined) return;
    this.selectTree(treeId);
    this.mapView?.showTree(entry.tree.lonDeg, entry.tree.latDeg);
  }

  private selectTree(treeId: string) {
    const kept = this.views.filter((view) => view.name !== "tree");
    this.views = [...kept, { name: "tree", treeId }];
    this.treeId = treeId;
    this.lastTreeId = treeId;
  }

  private openZone(zoneId: string) {
    const index = this.index;
    const zone = index?.zoneById.get(zoneId);
    if (index == null || zone === undefined) return;
    this.views = [{ name: "zones" }, { name: "zone", zoneId }];
    this.zoneId = zoneId;
    this.treeId = null;
    const corners = zone.area.coordinates.flatMap((rings) => rings[0] ?? []);
    const box = boundsOf(corners.map(([lonDeg = Number.NaN, latDeg = Number.NaN]) => ({ lonDeg, latDeg })));
    if (box !== null) this.mapView?.showBox(box);
  }

  private openPlace(place: FindingPlace) {
    if ("treeId" in place) this.openTree(place.treeId);
    else this.mapView?.showBox(place.box);
  }

  private readonly goBack = () => {
    this.views = this.views.slice(0, -1);
    const view = this.views.at(-1);
    this.treeId = view?.name === "tree" ? view.treeId : null;
    this.zoneId = this.views.find((one) => one.name === "zone")?.zoneId ?? null;
  };

  private onMapTree(treeId: string | null) {
    if (treeId === this.treeId) return;
    if (treeId !== null) this.selectTree(treeId);
    else if (this.views.at(-1)?.name === "tree") this.goBack();
  }

  private onMapZone(zoneId: string | null) {
    if (zoneId === this.zoneId) return;
    if (zoneId !== null) {
      this.views = [{ name: "zones" }, { name: "zone", zoneId }];
      this.zoneId = zoneId;
    } else if (this.views.at(-1)?.name === "zone") this.goBack();
  }

  private readonly chooseFiles = () => this.picker?.click();

  private onPicked(event: Event) {
    const picker = event.target as HTMLInputElement;
    const files = [...(picker.files ?? [])];
    picker.value = "";
    if (files.length > 0) this.take(files);
  }

  private async take(files: readonly File[]) {
    const before = this.intake?.files ?? [];
    const names = new Set(files.map((file) => file.name));
    const kept = before.filter((file) => !names.has(file.name));
    const intake = await takeIn(files.map((file) => ({ name: file.name, blob: file })));
    if (intake.plan === null) {
      this.intake = { ...intake, files: [...kept, ...intake.files] };
      return;
    }
    const hand = await this.doing.open(intake.plan);
    if (hand !== null) this.load(hand);
  }

  private async make(request: PlanJobRequest, name?: string) {
    const hand = await this.doing.make(request, name);
    if (hand !== null) this.load(hand);
  }

  private readonly openSample = async () => {
    const request = await this.doing.run(
      "Fetching the sample town",
      "The sample town could not be opened",
      sampleRequest,
    );
    if (request !== null) await this.make(request, "Sample town");
  };

  private readonly savePlan = async () => {
    const { hand } = this;
    if (hand?.files == null) return;
    const { zip } = await import("../formats/zip.ts");
    const bytes = zip([...hand.files].map(([name, content]) => ({ name, bytes: content })));
    saveFile(`boughline plan ${hand.name}.zip`, bytes, "application/zip");
  };

  private tell(sentence: string) {
    this.notice = sentence;
  }
}
