import { html, LitElement, nothing } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import {
  type FilePreview,
  RECORD_STATUSES,
  type RecordStatus,
  type VisitPreview,
} from "../../core/plan/record/record-preview.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { treeMark } from "../../map/symbols/tree-mark.ts";
import { dialogFooterStyles } from "../dialog-footer-styles.ts";
import type { PlanIndex } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted } from "../words.ts";
import { entryWords, STATUS_WORDS } from "./outcome-words.ts";
import type { Decisions, RecordShown } from "./record-messages.ts";
import { recordSheetStyles } from "./record-sheet-styles.ts";

/** Lines of one group that are drawn; a report of a crew's day has fewer. */
const MOST_LINES = 300;
/** What asks for a decision stands first. */
const IN_ORDER: readonly RecordStatus[] = ["conflict", "needs-decision", "take", "refused", "already-taken"];

/** What the reader decided on a visit: the report to take it from, null where one alone has it, undefined to leave it. */
export interface RecordChoice {
  readonly visitId: string;
  readonly reportId: string | null | undefined;
}

/**
 * What crews report, visit by visit, and what would become of it, before it is taken. Fires `record-choose` (detail: a {@link RecordChoice}),
 * `record-wanted`, `files-choose` and `record-close`.
 */
@customElement("record-sheet")
export class RecordSheet extends LitElement {
  static override styles = [sharedStyles, dialogFooterStyles, recordSheetStyles];

  @property({ attribute: false }) index: PlanIndex | null = null;
  /** How many files are on the table; none closes the sheet. */
  @property({ type: Number }) files = 0;
  @property({ attribute: false }) shown: RecordShown | null = null;
  @property({ attribute: false }) decisions: Decisions = new Map();
  @property() doing: string | null = null;
  @property() problem: string | null = null;
  @property() units: DisplayUnits = "us";
  @query("dialog") private dialog!: HTMLDialogElement | null;

  protected override updated() {
    if (this.files > 0 && this.dialog?.open === false) this.dialog.showModal();
  }

  protected override render() {
    if (this.files === 0) return nothing;
    const { shown } = this;
    const takes = shown?.preview.totals.take ?? 0;
    const canRecord = this.doing === null && shown?.preview.changesAnything === true;
    return html`<dialog aria-labelledby="title" @close=${() => this.emit("record-close", null)}>
      <header>
        <h1 id="title" tabindex="-1" autofocus>What the crews report</h1>
        <p role="status">${this.doing === null ? this.summary() : `${this.doing} …`}</p>
      </header>
      <div class="body" tabindex="0" role="region" aria-label="Reports">
        ${shown === null ? nothing : this.content(shown)}
      </div>
      <footer>
        <p class=${this.problem === null ? "unseen" : ""} role="alert">${this.problem}</p>
        <button type="button" class="button" @click=${() => this.emit("files-choose", null)}>Add reports</button>
        <button type="button" class="button" @click=${() => this.dialog?.close()}>Close</button>
        <button type="button" class="button main" ?disabled=${!canRecord} @click=${() => this.emit("record-wanted", null)}>
          ${takes === 0 ? "Record" : `Record ${counted(takes, "visit")}`}
        </button>
      </footer>
    </dialog>`;
  }

  private summary(): string {
    if (this.shown === null) return "";
    const { totals, additions } = this.shown.preview;
    const found = additions.filter(({ status }) => status === "take").length;
    const open = totals.conflict + totals["needs-decision"];
    const parts = [
      `${counted(totals.take, "visit")} will be recorded`,
      ...(found > 0 ? [`${found} found beside the list`] : []),
      ...(open > 0 ? [`${open} to decide`] : []),
      ...(totals["already-taken"] > 0 ? [`${totals["already-taken"]} recorded already`] : []),
      ...(totals.refused > 0 ? [`${totals.refused} cannot be`] : []),
    ];
    return `${parts.join(", ")}. Nothing is changed until you record.`;
  }

  private content({ preview, refused, notRead }: RecordShown) {
    const warnings = preview.findings.filter(({ severity }) => severity !== "error");
    return html`
      <section aria-label="Files">
        <ul class="files">
          ${preview.files.map((file) => this.file(file))}
          ${refused.map(
            ({ file, faults }) => html`<li class="refused">
              <p class="name">${file}</p>
              <p>Cannot be read. ${faults.slice(0, 4).join(" ")}${faults.length > 4 ? ` And ${faults.length - 4} more.` : ""}</p>
            </li>`,
          )}
        </ul>
        ${notRead.map((sentence) => html`<p class="small">${sentence}</p>`)}
      </section>
      ${IN_ORDER.filter((status) => RECORD_STATUSES.includes(status)).map((status) =>
        this.group(
          status,
          preview.visits.filter((visit) => visit.status === status),
        ),
      )}
      ${
        preview.additions.length === 0
          ? nothing
          : html`<section>
            <h2>Found beside the list <span class="count">${preview.additions.length}</span></h2>
            <ul class="visits">
              ${preview.additions.map(
                ({ addition, reason }) => html`<li>
                  <div>
                    <p class="name">${addition.kind === "tree" ? `Tree: ${addition.added.species === "" ? "species not said" : addition.added.species}` : "Hazard"}</p>
                    <p>${addition.added.notes}</p>
                    <p class="small">${reason}</p>
                  </div>
                </li>`,
              )}
            </ul>
          </section>`
      }
      ${
        warnings.length === 0
          ? nothing
          : html`<section>
            <h2>To look at <span class="count">${warnings.length}</span></h2>
            <ul class="visits">
              ${warnings.slice(0, MOST_LINES).map(
                ({ feature, reason, whatToDo }) => html`<li>
                  <div>
                    <p>${feature === null ? "" : `${feature}: `}${reason}</p>
                    <p class="small">${whatToDo}</p>
                  </div>
                </li>`,
              )}
            </ul>
          </section>`
      }
    `;
  }

  private file({ file, completion, status, reason }: FilePreview) {
    const { zoneId, revision, who, crewHours, notes } = completion;
    const zone = this.index?.zoneById.get(zoneId)?.name ?? `zone ${zoneId}`;
    const facts = [
      ...(who === "" ? [] : [who]),
      zone,
      `revision ${revision}`,
      ...(crewHours === null ? [] : [`${crewHours} person-hours`]),
    ];
    return html`<li class=${status === "refused" ? "refused" : ""}>
      <p class="name">${file}</p>
      <p>${facts.join(" · ")}</p>
      <p class="small">${reason}</p>
      ${notes.trim() === "" ? nothing : html`<p class="note">${notes}</p>`}
    </li>`;
  }

  private group(status: RecordStatus, visits: readonly VisitPreview[]) {
    if (visits.length === 0) return nothing;
    return html`<section class=${status}>
      <h2>${STATUS_WORDS[status]} <span class="count">${visits.length}</span></h2>
      <ul class="visits">
        ${visits.slice(0, MOST_LINES).map((visit) => this.visit(visit))}
      </ul>
      ${visits.length > MOST_LINES ? html`<p class="small">And ${counted(visits.length - MOST_LINES, "more visit")}, treated alike.</p>` : nothing}
    </section>`;
  }

  private visit(visit: VisitPreview) {
    const { treeId, visitId, reportId, entry, against, reason, canDecide, status } = visit;
    const tree = this.index?.treeById.get(treeId) ?? null;
    const isChosen = this.decisions.has(visitId) && [null, reportId].includes(this.decisions.get(visitId)!);
    return html`<li>
      ${tree === null ? html`<span class="mark"></span>` : treeMark(tree)}
      <div>
        <p class="name">${tree?.tree.commonName ?? tree?.tree.species ?? "Tree"} <span class="id">${treeId}</span></p>
        ${entry === null ? nothing : html`<p>${entryWords(entry, this.units)}</p>`}
        ${entry === null || entry.notes.trim() === "" ? nothing : html`<p class="note">${entry.notes}</p>`}
        ${against === null ? nothing : html`<p class="against">Against it: ${entryWords(against, this.units)}</p>`}
        ${status === "take" && !isChosen ? nothing : html`<p class="small">${reason}</p>`}
        ${
          canDecide || isChosen
            ? html`<label class="choice">
              <input
                type="checkbox"
                .checked=${isChosen}
                @change=${(event: Event) =>
                  this.choose({
                    visitId,
                    reportId: (event.target as HTMLInputElement).checked
                      ? status === "conflict"
                        ? reportId
                        : null
                      : undefined,
                  })}
              />
              ${entry === null ? "Take it back out of the record" : status === "conflict" ? "Take this report" : "Record it all the same"}
            </label>`
            : nothing
        }
      </div>
    </li>`;
  }

  private choose(choice: RecordChoice) {
    this.emit("record-choose", choice);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
