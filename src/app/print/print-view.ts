import { html, LitElement, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { formatDate } from "../../core/units/format-date.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { MapLook } from "../map/map-look.ts";
import { sharedStyles } from "../shared-styles.ts";
import "../../map/panel/legend.ts";
import { drawPrintMap } from "./draw-print-map.ts";
import { PAPERS, type PaperName, usualPaper } from "./paper.ts";
import { printPageSheet } from "./print-page-sheet.ts";
import { printStyles } from "./print-styles.ts";
import { metersPerPx, type ScaleBar, scaleBar } from "./scale-bar.ts";
import { scalePicture } from "./scale-picture.ts";

/** What stands on the sheet beside the map. */
export interface PrintWords {
  readonly name: string;
  /** What the filter leaves, in words; null where everything is shown. */
  readonly filtered: string | null;
}

/** The sheet has the caution at its foot. */
const WITHOUT_CAUTION = { legend: { caution: "" } };

/** Longest scale bar on the sheet, in CSS pixels: 2 in. */
const MOST_SCALE_PX = 192;

/** A sheet of paper over the page with the map as it is looked at: legend, scale, date, plan and caution. Fires `print-close`. */
@customElement("print-view")
export class PrintView extends LitElement {
  static override styles = [sharedStyles, printStyles];

  @property({ attribute: false }) look: MapLook | null = null;
  @property({ attribute: false }) words: PrintWords = { name: "", filtered: null };
  @property() units: DisplayUnits = "us";
  @state() private paper: PaperName | null = null;
  @state() private picture: string | null = null;
  @state() private scale: ScaleBar | null = null;
  @state() private problem: string | null = null;
  @query("figure") private figure!: HTMLElement | null;
  @query("[data-first]") private first!: HTMLElement | null;
  private drawing: AbortController | null = null;
  private endPage: () => void = () => {};

  override connectedCallback() {
    super.connectedCallback();
    window.addEventListener("keydown", this.onKey);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    window.removeEventListener("keydown", this.onKey);
    this.drawing?.abort();
    this.endPage();
    this.forgetPicture();
  }

  protected override willUpdate() {
    this.paper ??= usualPaper(this.units, innerWidth < innerHeight);
  }

  protected override firstUpdated() {
    this.first?.focus();
  }

  protected override updated(changed: Map<string, unknown>) {
    if (!changed.has("paper") || this.paper === null) return;
    this.endPage();
    this.endPage = printPageSheet(PAPERS[this.paper]);
    void this.draw();
  }

  protected override render() {
    const { look, paper, picture } = this;
    if (look === null || paper === null) return nothing;
    const { widthMm, heightMm } = PAPERS[paper];
    const { plan } = look.opened;
    const date = look.dated?.date ?? plan.options.asOf;
    return html`<section role="dialog" aria-modal="true" aria-label="Print the map">
      <div class="bar">
        <label>
          Paper
          <select data-first @change=${(event: Event) => this.choose((event.target as HTMLSelectElement).value as PaperName)}>
            ${Object.entries(PAPERS).map(([key, { name }]) => html`<option value=${key} ?selected=${key === paper}>${name}</option>`)}
          </select>
        </label>
        <button type="button" class="button main" ?disabled=${picture === null} @click=${() => window.print()}>Print</button>
        <button type="button" class="button" @click=${this.close}>Back to the map</button>
        <p class="small" role="status">${this.problem ?? (picture === null ? "Drawing the map ..." : "Print at 100 % for the scale in the corner; the bar is true at any size.")}</p>
      </div>
      <div class="desk">
        <article
          class="sheet ${paper} ${widthMm > heightMm ? "lying" : "upright"}"
        >
          <header>
            <h1>${this.words.name}</h1>
            <p>
              Trees to prune, as of ${formatDate(date)}${look.dated === null ? "" : " (forecast)"}${this.words.filtered === null ? "" : html`. Marks: ${this.words.filtered}; other trees are dots`}.
            </p>
          </header>
          <figure>
            ${picture === null ? html`<p class="wait">Drawing the map ...</p>` : html`<img src=${picture} alt="Map of the plan as it is shown on the page" />`}
            ${this.scale === null ? nothing : scalePicture(this.scale)}
          </figure>
          <aside><boughline-legend theme="print" .words=${WITHOUT_CAUTION}></boughline-legend></aside>
          <footer>
            <p>
              A plan, not a permit. It never says that a place is safe. Local codes, the road authority and licensed or line-clearance arborists decide.
            </p>
            <p class="id">Plan ${plan.planId}, revision ${plan.revision}, made as of ${formatDate(plan.options.asOf)}</p>
          </footer>
        </article>
      </div>
    </section>`;
  }

  private choose(paper: PaperName) {
    this.paper = paper;
  }

  private async draw() {
    const { look, figure } = this;
    if (look === null || figure === null) return;
    this.drawing?.abort();
    const drawing = new AbortController();
    this.drawing = drawing;
    this.forgetPicture();
    this.scale = null;
    this.problem = null;
    // The sheet may be shown smaller than it is; the map is drawn for its size on paper.
    const size = { widthPx: figure.offsetWidth, heightPx: figure.offsetHeight };
    try {
      const { picture, latDeg, zoom } = await drawPrintMap(look, size, this.units, drawing.signal);
      if (drawing.signal.aborted) return;
      this.picture = URL.createObjectURL(picture);
      this.scale = scaleBar(metersPerPx(latDeg, zoom), this.units, Math.min(MOST_SCALE_PX, size.widthPx / 2));
    } catch (error) {
      if (!drawing.signal.aborted)
        this.problem = `The map could not be drawn. ${error instanceof Error ? error.message : ""}`;
    }
  }

  private forgetPicture() {
    if (this.picture !== null) URL.revokeObjectURL(this.picture);
    this.picture = null;
  }

  private readonly onKey = (event: KeyboardEvent) => {
    if (event.key === "Escape") this.close();
  };

  private readonly close = () => this.dispatchEvent(new CustomEvent("print-close"));
}
