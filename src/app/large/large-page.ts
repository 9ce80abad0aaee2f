import { html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { TreeFilter } from "../../map/index.ts";
import { noticeLine } from "../notice-line.ts";
import { type PageTheme, showTheme, systemTheme } from "../theme.ts";
import type { LargeMap, LargeSelection, MapMember } from "./large-map.ts";
import type { LargePlan } from "./large-plan.ts";
import type { LargeFilter } from "./large-sheet.ts";
import { type ListInView, marksInView } from "./marks-in-view.ts";
import { MOST_LINES } from "./marks-list.ts";
import "./large-map.ts";
import "./large-sheet.ts";

/** A plan of more trees than a page reads whole: the map by its tiles, the trees in view as a list, and the card of the one that is chosen. */
@customElement("large-page")
export class LargePage extends LitElement {
  @property({ attribute: false }) plan: LargePlan | null = null;
  @property() basemap: string | null = null;
  @state() private theme: PageTheme = systemTheme();
  @state() private units: DisplayUnits | null = null;
  @state() private filter: LargeFilter = { urgencies: new Set(), crews: new Set() };
  @state() private inView: ListInView | "far" | null = null;
  @state() private selection: LargeSelection | null = null;
  @state() private notice: string | null = null;

  /** The page's own style sheet serves the parts that stand in it. */
  protected override createRenderRoot() {
    return this;
  }

  override connectedCallback() {
    super.connectedCallback();
    showTheme(this.theme);
  }

  protected override render() {
    const { plan } = this;
    if (plan === null) return nothing;
    const units = this.units ?? plan.units;
    const isDetail = this.selection?.treeId != null || this.selection?.zoneId != null;
    return html`<div class="page ${isDetail ? "detail" : ""}">
        <main class="map">
          <h1 class="unseen">${plan.name}</h1>
          <large-map
            .address=${plan.address}
            .theme=${this.theme}
            .units=${units}
            .basemap=${this.basemap}
            .filter=${this.mapFilter}
            @marks=${(event: CustomEvent<readonly MapMember[]>) => {
              this.inView = marksInView(
                event.detail.filter((one) => this.passes(one)),
                MOST_LINES,
              );
            }}
            @selection=${(event: CustomEvent<LargeSelection>) => {
              this.selection = event.detail;
            }}
            @map-problem=${(event: CustomEvent<string>) => {
              this.notice = event.detail;
            }}
          ></large-map>
        </main>
        <large-sheet
          role="complementary"
          aria-label="Side sheet"
          .plan=${plan}
          .inView=${this.inView}
          .selection=${this.selection}
          .filter=${this.filter}
          .units=${units}
          .theme=${this.theme}
          @filter-change=${(event: CustomEvent<LargeFilter>) => {
            this.filter = event.detail;
            this.mapFilter = mapFilterOf(event.detail);
          }}
          @units-change=${(event: CustomEvent<DisplayUnits>) => {
            this.units = event.detail;
          }}
          @theme-change=${(event: CustomEvent<PageTheme>) => {
            this.theme = event.detail;
            showTheme(event.detail);
          }}
          @mark-open=${(event: CustomEvent<string>) => this.map?.select(event.detail)}
          @selection-end=${() => this.map?.select(null)}
        ></large-sheet>
      </div>
      ${noticeLine(this.notice, () => {
        this.notice = null;
      })}`;
  }

  /** The same object as long as the filter is the same, so that the map is not told anew of each drawing. */
  private mapFilter: TreeFilter | null = null;

  private get map(): LargeMap | null {
    return this.querySelector("large-map");
  }

  /** Trees that the filter leaves out stay on the map as dots; the list is without them. */
  private passes({ properties: { urgency, crew } }: MapMember): boolean {
    const { urgencies, crews } = this.filter;
    return (
      (urgencies.size === 0 || [...urgencies].some((one) => one === urgency)) &&
      (crews.size === 0 || [...crews].some((one) => one === crew))
    );
  }
}

const mapFilterOf = ({ urgencies, crews }: LargeFilter): TreeFilter | null =>
  urgencies.size === 0 && crews.size === 0
    ? null
    : {
        ...(urgencies.size === 0 ? {} : { urgencies: [...urgencies] }),
        ...(crews.size === 0 ? {} : { crews: [...crews] }),
      };
