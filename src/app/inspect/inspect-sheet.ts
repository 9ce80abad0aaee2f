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
import type { RoundsInHand } from "./inspect-rounds.ts";

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
  private of: PlanIndex | null = null;

  override disconnectedCallback() {
    super.disconnectedCallback();
    const list = this.context?.list;
    if (list?.filter.chosen != null) void list.apply({ ...list.filter, chosen: null });
  }

  protected override willUpdate(changed: PropertyValues) {
    if (!changed.has("context") || this.context === null || this.context.index === this.of) return;
    this.of = this.context.index;
    this.found = null;
    void this.open(this.context);
  }

  private async open({ hand, index }: PageContext): Promise<void> {
    try {
      // Lets the page say what is being done before it is.
      await new Promise((resolve) => setTimeout(resolve, 30));
      const { roundsInHand } = await import("./inspect-rounds.ts");
      const found = await roundsInHand(hand);
      if (index === this.of) this.found = found;
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  protected override render() {
    const { context, found, problem } = this;
    if (problem !== null) return html`<p role="alert">${problem}</p>`;
    if (context === null || found === null)
      return html`<h2>Inspect first</h2>
        <p role="status">Finding out which figure settles each question … this can take half a minute.</p>`;
    const { zones } = found.rounds;
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

  private round(zone: Zone, found: RoundsInHand, { units }: PageContext) {
    return html`<details>
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
        ${zone.treeIds.map((treeId, at) => this.stop(treeId, at + 1, found))}
      </ol>
    </details>`;
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
    if (this.found !== null) saveFile("inspect.csv", new TextEncoder().encode(this.found.csv), "text/csv");
  };

  private async download(zoneId: string): Promise<void> {
    const { context, found } = this;
    if (context === null || found === null) return;
    this.packing = zoneId;
    try {
      const { roundPacket } = await import("./inspect-rounds.ts");
      const { name, bytes } = await roundPacket(context.hand, found, zoneId, context.units === "us" ? "letter" : "a4");
      saveFile(name, bytes, "application/zip");
    } catch (error) {
      context.tell(`The packet could not be made. ${error instanceof Error ? error.message : String(error)}`);
    }
    this.packing = null;
  }
}
