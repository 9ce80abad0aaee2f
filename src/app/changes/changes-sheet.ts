import { css, html, LitElement, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { CHANGE_CAUSES, type ChangeAspect, type ChangeCause, IDENTITIES } from "../../core/model/plan-change.ts";
import { formatDate } from "../../core/units/format-date.ts";
import type { PageContext } from "../frame/side-page.ts";
import type { PlanIndex } from "../plan-index.ts";
import { saveFile } from "../save-file.ts";
import { sharedStyles } from "../shared-styles.ts";
import { capitalized, readableCount, WORDS } from "../words.ts";
import { ASPECT_WORDS, CAUSE_WORDS, IDENTITY_WORDS } from "./change-words.ts";
import { type ChangeLine, readChanges } from "./read-changes.ts";

/** Lines drawn at once; the table has all. */
const MOST_LINES = 60;

/** What is new since an earlier revision: counts by cause, the trees of each, and the same on the map. */
@customElement("changes-sheet")
export class ChangesSheet extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        padding: 14px 16px 24px;
        overflow: auto;
      }
      h2 + p,
      .block {
        margin-top: 10px;
      }
      .causes {
        margin: 12px -16px 0;
        border-top: 1px solid var(--rule);
      }
      .causes button {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        gap: 1px 12px;
        width: 100%;
        min-height: 44px;
        padding: 8px 16px;
        border: 0;
        border-bottom: 1px solid var(--rule);
        background: none;
        color: inherit;
        font: inherit;
        text-align: left;
        cursor: pointer;
      }
      .causes button:hover {
        background: var(--paper-2);
      }
      .causes button:focus-visible {
        outline-offset: -2px;
      }
      .causes button[aria-pressed="true"] {
        background: var(--paper-2);
        box-shadow: inset 3px 0 0 var(--ink);
      }
      .causes .small {
        grid-column: 1 / 3;
      }
      ol {
        margin: 6px -16px 0;
        padding: 0;
        list-style: none;
      }
      li {
        padding: 8px 16px;
        border-bottom: 1px solid var(--rule);
        overflow-wrap: anywhere;
      }
      .word {
        padding: 0;
        border: 0;
        background: none;
        color: inherit;
        font: inherit;
        font-weight: 600;
        text-decoration: underline;
        cursor: pointer;
      }
    `,
  ];

  @property({ attribute: false }) context: PageContext | null = null;
  @state() private lines: readonly ChangeLine[] | null = null;
  @state() private cause: ChangeCause | null = null;
  @state() private problem: string | null = null;
  private of: PlanIndex | null = null;

  override disconnectedCallback() {
    super.disconnectedCallback();
    // The map shows all trees again once the page is left.
    const list = this.context?.list;
    if (list?.filter.chosen != null) void list.apply({ ...list.filter, chosen: null });
  }

  protected override willUpdate(changed: PropertyValues) {
    if (!changed.has("context") || this.context === null || this.context.index === this.of) return;
    this.of = this.context.index;
    this.cause = null;
    this.lines = null;
    void this.open(this.context);
  }

  private async open({ hand }: PageContext): Promise<void> {
    try {
      this.lines = await readChanges(hand.source);
      this.problem = null;
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  protected override render() {
    const { context, lines, problem, cause } = this;
    if (problem !== null) return html`<p class="warn" role="alert">${problem}</p>`;
    const changes = context?.index.opened.plan.changes ?? null;
    if (context === null || changes === null) return nothing;
    if (lines === null) return html`<p role="status">Reading what changed …</p>`;
    const trees = IDENTITIES.filter((one) => changes.trees[one] > 0);
    const causes = CHANGE_CAUSES.filter((one) => changes.byCause[one] > 0);
    const shown = lines.filter((line) => cause === null || line.cause === cause);
    return html`
      <h2>What changed</h2>
      <p>
        Since revision ${changes.sinceRevision}, as of ${formatDate(changes.sinceAsOf)}.
        ${trees.map((one, at) => `${at === 0 ? "" : ", "}${readableCount(changes.trees[one])} ${IDENTITY_WORDS[one]}`)}.
      </p>
      <p class="block">
        ${changes.changed === 0 ? "Every tree is planned as before." : `${readableCount(changes.changed)} planned otherwise, each for one cause:`}
      </p>
      <div class="causes" role="group" aria-label="Causes">${causes.map((one) => this.causeButton(one, changes.byCause[one]))}</div>
      <p class="block">
        <button type="button" class="button" @click=${this.save}>Save table</button>
      </p>
      ${
        shown.length === 0
          ? nothing
          : html`<h3 class="block">${cause === null ? "All trees" : CAUSE_WORDS[cause].name} (${readableCount(shown.length)})</h3>
              <ol>
                ${shown.slice(0, MOST_LINES).map((line) => this.line(context, line))}
              </ol>
              ${shown.length > MOST_LINES ? html`<p class="small block">and ${readableCount(shown.length - MOST_LINES)} more: Save table has all.</p>` : nothing}`
      }
    `;
  }

  private causeButton(cause: ChangeCause, count: number) {
    return html`<button type="button" aria-pressed=${this.cause === cause ? "true" : "false"} @click=${() => this.choose(cause)}>
      <b>${CAUSE_WORDS[cause].name}</b>
      <b>${readableCount(count)}</b>
      <span class="small">${CAUSE_WORDS[cause].means}</span>
    </button>`;
  }

  private line({ index, openTree }: PageContext, line: ChangeLine) {
    const { treeId, formerly, identity, detail, before, now, aspects, cause } = line;
    const isThere = identity !== "removed" && index.treeById.has(treeId);
    const was = formerly === null ? "" : `, formerly ${formerly}`;
    const urgency =
      before === now || before === null || now === null ? "" : ` ${WORDS.urgency[before]} → ${WORDS.urgency[now]}.`;
    const what = aspects.map((aspect) => ASPECT_WORDS[aspect as ChangeAspect]).join(", ");
    return html`<li>
      ${isThere ? html`<button type="button" class="word" @click=${() => openTree(treeId)}>${treeId}</button>` : html`<b>${treeId}</b>`}
      <span class="small">${identity === "matched" ? was : `${IDENTITY_WORDS[identity]}${was}`}</span>
      <div>${readableDetail(detail)}.${urgency}</div>
      <div class="small">${cause === null ? "Planned as before" : CAUSE_WORDS[cause].name}${what === "" ? "" : `: ${what}`}</div>
    </li>`;
  }

  private choose(cause: ChangeCause): void {
    this.cause = this.cause === cause ? null : cause;
    const list = this.context?.list;
    if (list === undefined) return;
    const treeIds = new Set((this.lines ?? []).flatMap((line) => (line.cause === this.cause ? [line.treeId] : [])));
    const chosen = this.cause === null ? null : { words: `changed: ${CAUSE_WORDS[cause].name.toLowerCase()}`, treeIds };
    void list.apply({ ...list.filter, chosen });
  }

  private readonly save = async () => {
    const bytes = await this.context?.hand.source.read("changes.csv");
    if (bytes != null) saveFile("changes.csv", bytes, "text/csv");
  };
}

/** What changed as the table tells it, for reading. */
const readableDetail = (detail: string): string =>
  capitalized(detail.replaceAll(" -> ", " → ").replaceAll("clearTo ", "clear to "));

declare global {
  interface HTMLElementTagNameMap {
    "changes-sheet": ChangesSheet;
  }
}
