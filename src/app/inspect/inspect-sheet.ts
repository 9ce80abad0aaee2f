import { css, html, LitElement, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Zone } from "../../core/model/zone.ts";
import { questionText, settlingText } from "../../core/plan/inspect/settling-words.ts";
import { formatLength } from "../../core/units/format-length.ts";
import type { PageContext } from "../frame/side-page.ts";
import type { PlanIndex } from "../plan-index.ts";
import { saveFile } from "../save-file.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted } from "../words.ts";
import { type Inspection, type RoundsInHand, startInspection } from "./start-inspection.ts";

/** Rounds to look and measure, in walking order, with what settles each question. */
@customElement("inspect-sheet")
export class InspectSheet extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        padding: 14px 16px 24px;
        overflow: auto;
      }
      p {
        margin-top: 8px;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        margin-top: 10px;
      }
      details {
        margin-top: 12px;
        padding-top: 10px;
        border-top: 1px solid var(--rule);
      }
      progress {
        width: 100%;
        height: 6px;
        margin-top: 10px;
        accent-color: var(--ink);
      }
      summary {
        cursor: pointer;
        font-weight: 600;
      }
      ol {
        margin-top: 6px;
      }
      li {
        display: grid;
        grid-template-columns: 26px minmax(0, 1fr);
        padding: 8px 0;
        border-bottom: 1px solid var(--rule);
      }
      li > span {
        color: var(--ink-2);
      }
      li p {
        margin-top: 3px;
        font-size: 13px;
      }
    `,
  ];

  @property({ attribute: false }) context: PageContext | null = null;
  @state() private found: RoundsInHand | null = null;
  @state() private problem: string | null = null;
  @state() private packing: string | null = null;
  /** How far the questions are settled; null while they are not being settled. */
  @state() private work: { readonly share: number; readonly doing: string } | null = null;
  /** Rounds whose trees are shown; those of all are more than a page draws at once. */
  @state() private unfolded: ReadonlySet<string> = new Set();
  private of: PlanIndex | null = null;
  private inspection: Inspection | null = null;

  override connectedCallback() {
    super.connectedCallback();
    // Put back on the page after it was taken away: what was ended then begins anew.
    if (this.context !== null && this.inspection === null) this.open(this.context);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.end();
    const list = this.context?.list;
    if (list?.filter.chosen != null) void list.apply({ ...list.filter, chosen: null });
  }

  protected override willUpdate(changed: PropertyValues) {
    if (!changed.has("context") || this.context === null || this.context.index === this.of) return;
    this.of = this.context.index;
    this.open(this.context);
  }

  private open({ hand }: PageContext): void {
    this.end();
    this.found = null;
    this.problem = null;
    this.unfolded = new Set();
    const inspection = startInspection(hand.source, (share, doing) => {
      if (this.inspection === inspection) this.work = { share, doing };
    });
    this.inspection = inspection;
    this.work = { share: 0, doing: "Starting" };
    inspection.rounds
      .then((found) => {
        if (this.inspection === inspection) this.found = found;
      })
      .catch((error: unknown) => {
        if (this.inspection === inspection) this.problem = error instanceof Error ? error.message : String(error);
      })
      .finally(() => {
        if (this.inspection === inspection) this.work = null;
      });
  }

  /** Ends what is being done for the plan; its rounds are gone with it. */
  private end(): void {
    this.inspection?.end();
    this.inspection = null;
    this.work = null;
    this.packing = null;
  }

  protected override render() {
    const { context, found, problem } = this;
    if (problem !== null) return html`<p role="alert">${problem}</p>`;
    if (context === null) return nothing;
    if (found === null) return this.waiting(context);
    const { zones } = found;
    return html`
      <h2>Inspect first</h2>
      <p>
        ${counted(found.stops.size, "tree")} in ${counted(zones.length, "round")}: conflicts that are only possible, and trees that
        are referred. Nobody is sent to cut before they are looked at.
      </p>
      <div class="row">
        <button type="button" class="button" aria-pressed=${this.isOnMap ? "true" : "false"} @click=${this.onMap}>
          ${this.isOnMap ? "Show all trees on the map" : "Show them on the map"}
        </button>
        <button type="button" class="button" @click=${this.save}>Save list</button>
      </div>
      ${zones.map((zone) => this.round(zone, found, context))}
    `;
  }

  private waiting(context: PageContext) {
    const { work } = this;
    if (work === null)
      return html`<h2>Inspect first</h2>
        <p role="status">Stopped. Nothing is known yet of which figure settles which question.</p>
        <div class="row">
          <button type="button" class="button main" @click=${() => this.open(context)}>Start again</button>
        </div>`;
    return html`<h2>Inspect first</h2>
      <p role="status">${work.doing} …</p>
      <progress max="100" .value=${Math.round(work.share * 100)} aria-label=${work.doing}></progress>
      <div class="row"><button type="button" class="button" @click=${() => this.end()}>Cancel</button></div>`;
  }

  private round(zone: Zone, found: RoundsInHand, { units }: PageContext) {
    return html`<details @toggle=${(event: Event) => this.unfold(zone.zoneId, event)}>
      <summary>${zone.name} · ${counted(zone.treeIds.length, "tree")}, ${formatLength(zone.walkM, units)} on foot</summary>
      <div class="row">
        <button
          type="button"
          class="button main"
          ?disabled=${this.packing !== null}
          @click=${() => this.download(zone.zoneId)}
        >
          ${this.packing === zone.zoneId ? "Drawing the sheets …" : "Download packet"}
        </button>
      </div>
      <ol>
        ${this.unfolded.has(zone.zoneId) ? zone.treeIds.map((treeId, at) => this.stop(treeId, at + 1, found)) : nothing}
      </ol>
    </details>`;
  }

  private unfold(zoneId: string, event: Event): void {
    if ((event.target as HTMLDetailsElement).open) this.unfolded = new Set([...this.unfolded, zoneId]);
  }

  private stop(treeId: string, number: number, { stops }: RoundsInHand) {
    const stop = stops.get(treeId);
    const { context } = this;
    if (stop === undefined || context === null) return nothing;
    return html`<li>
      <span>${number}</span>
      <div>
        <button type="button" class="word" @click=${() => context.openTree(treeId)}><b>${treeId}</b></button>
        ${context.index.treeById.get(treeId)?.tree.street ?? ""}
        ${stop.questions.map(
          (question) => html`<p>${questionText(question, context.units)}</p>
            <p class="small">${settlingText(question, context.units).join(" ")}</p>`,
        )}
        ${stop.refer === null ? nothing : html`<p class="small">Referred: ${stop.refer.reason}</p>`}
      </div>
    </li>`;
  }

  private get isOnMap(): boolean {
    return this.context?.list.filter.chosen != null;
  }

  private readonly onMap = () => {
    const { context, found } = this;
    if (context === null || found === null) return;
    const { list } = context;
    const chosen = this.isOnMap ? null : { words: "to be inspected first", treeIds: new Set(found.stops.keys()) };
    void list.apply({ ...list.filter, chosen }).then(() => this.requestUpdate());
  };

  private readonly save = () => {
    if (this.found !== null) saveFile("inspect.csv", this.found.csv, "text/csv");
  };

  private async download(zoneId: string): Promise<void> {
    const { context, inspection } = this;
    if (context === null || inspection === null) return;
    this.packing = zoneId;
    try {
      const { loadFonts } = await import("../fonts.ts");
      const paper = context.units === "us" ? "letter" : "a4";
      const { name, bytes } = await inspection.packet(zoneId, paper, await loadFonts());
      saveFile(name, bytes, "application/zip");
    } catch (error) {
      context.tell(`The packet could not be made. ${error instanceof Error ? error.message : String(error)}`);
    }
    this.packing = null;
  }
}
