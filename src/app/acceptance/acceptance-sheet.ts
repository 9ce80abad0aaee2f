import { css, html, LitElement, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { GivenCheck } from "../../core/plan/acceptance/preview-checks.ts";
import type { CheckResult } from "../../core/plan/acceptance/recorded-check.ts";
import { type TreeToCheck, type ZoneAcceptance, zoneAcceptance } from "../../core/plan/acceptance/zone-acceptance.ts";
import { readRecord } from "../../core/plan/record/record-lines.ts";
import { EMPTY_RECORD } from "../../core/plan/record/work-record.ts";
import type { AcceptanceRules } from "../../core/standard/notice-rules.ts";
import { parseIsoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { CHECK_COLUMNS } from "../../formats/acceptance/read-checks.ts";
import { writeCsv } from "../../formats/csv.ts";
import type { PageContext } from "../frame/side-page.ts";
import { localDate } from "../intake/local-date.ts";
import type { PlanIndex } from "../plan-index.ts";
import { planStandard } from "../plan-standard.ts";
import { saveFile } from "../save-file.ts";
import { sharedStyles } from "../shared-styles.ts";

/** What was marked of one tree. */
interface Mark {
  readonly result: CheckResult;
  readonly reason: string;
}

/** The trees of a zone that are drawn to be checked, and what is found. */
@customElement("acceptance-sheet")
export class AcceptanceSheet extends LitElement {
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
      li {
        margin-top: 12px;
        padding-top: 10px;
        border-top: 1px solid var(--rule);
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        margin-top: 8px;
      }
      label {
        display: block;
        margin-top: 8px;
        font-size: 13px;
        color: var(--ink-2);
      }
      input {
        display: block;
        width: 100%;
        margin-top: 2px;
        color: var(--ink);
      }
      .two {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: 12px;
      }
    `,
  ];

  @property({ attribute: false }) context: PageContext | null = null;
  @property() zoneId = "";
  @state() private acceptance: ZoneAcceptance | null = null;
  @state() private marks: ReadonlyMap<string, Mark> = new Map();
  @state() private by = "";
  @state() private on: string = localDate();
  @state() private problem: string | null = null;
  @state() private isBusy = false;
  private rules: AcceptanceRules | null = null;
  private of: PlanIndex | null = null;

  protected override willUpdate(changed: PropertyValues) {
    if (this.context === null) return;
    if (changed.has("zoneId") || this.context.index !== this.of) {
      this.of = this.context.index;
      this.marks = new Map();
      void this.open(this.context);
    }
  }

  private async open({ hand, index }: PageContext): Promise<void> {
    try {
      const bytes = await hand.source.read("record.jsonl");
      const record = bytes === null ? EMPTY_RECORD : readRecord(new TextDecoder().decode(bytes));
      this.rules = (await planStandard(hand.source)).acceptance;
      this.acceptance = zoneAcceptance(index.opened.plan.planId, this.zoneId, record, this.rules);
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  protected override render() {
    const { acceptance, context, rules } = this;
    if (this.problem !== null && acceptance === null) return html`<p role="alert">${this.problem}</p>`;
    if (acceptance === null || context === null || rules === null)
      return html`<p role="status">Drawing the trees …</p>`;
    const zone = context.index.zoneById.get(this.zoneId);
    if (acceptance.finished === 0)
      return html`<h2>Check finished work</h2>
        <p>Nobody has reported finished work from this zone yet.</p>`;
    return html`
      <h2>Check of ${zone?.name ?? this.zoneId}</h2>
      <p role="status">${stateWords(acceptance)}</p>
      <p class="small">
        ${Math.round(rules.share * 100)} % of the finished trees, at least ${rules.leastTrees}, drawn by lot from the plan’s and the
        zone’s ids, so that nobody can choose; one more for each that does not pass.
      </p>
      <ol>
        ${acceptance.trees.map((tree) => this.tree(tree, context))}
      </ol>
      ${acceptance.toCheck === 0 ? nothing : this.signing()}
      ${this.problem === null ? nothing : html`<p role="alert">${this.problem}</p>`}
    `;
  }

  private tree({ treeId, visit, check, failedBefore }: TreeToCheck, { index, openTree, showPlaces }: PageContext) {
    const entry = index.treeById.get(treeId);
    const mark = this.marks.get(treeId);
    const chip = (result: CheckResult, words: string) =>
      html`<button
        type="button"
        class="chip"
        aria-pressed=${mark?.result === result ? "true" : "false"}
        @click=${() => this.mark(treeId, { result, reason: mark?.reason ?? "" })}
      >
        ${words}
      </button>`;
    return html`<li>
      <button type="button" class="word" @click=${() => openTree(treeId)}><b>${treeId}</b></button>
      ${entry?.tree.commonName ?? entry?.tree.species ?? ""}
      <div class="small">
        ${entry?.tree.address ?? entry?.tree.street ?? ""} · done ${formatDate(visit.entry.date)}
        ${visit.entry.who === "" ? "" : `by ${visit.entry.who}`}
        ${failedBefore > 0 ? "· made good after a check" : ""}
      </div>
      ${
        check !== null
          ? html`<p>
              ${check.result === "passed" ? "Passed" : `To be made good: ${check.reason}`} · ${formatDate(check.on)},
              ${check.by}
            </p>`
          : html`<div class="row" role="group" aria-label="Result of ${treeId}">
                ${chip("passed", "Passed")} ${chip("rework", "Make good")}
                ${
                  entry === undefined
                    ? nothing
                    : html`<button type="button" class="word" @click=${() => showPlaces([entry.tree])}>Show on the map</button>`
                }
              </div>
              ${
                mark?.result === "rework"
                  ? html`<label
                      >What is to be made good
                      <input
                        .value=${mark.reason}
                        @input=${(event: Event) =>
                          this.mark(treeId, { ...mark, reason: (event.target as HTMLInputElement).value })}
                      />
                    </label>`
                  : nothing
              }`
      }
    </li>`;
  }

  private signing() {
    const missing = this.missing();
    return html`
      <div class="two">
        <label>Checked by <input .value=${this.by} @input=${(event: Event) => this.set("by", event)} /></label>
        <label>On <input type="date" .value=${this.on} @input=${(event: Event) => this.set("on", event)} /></label>
      </div>
      <div class="row">
        <button
          type="button"
          class="button main"
          ?disabled=${missing !== null || this.isBusy || this.context?.canEdit !== true}
          @click=${this.record}
        >
          ${this.isBusy ? "Recording …" : "Record"}
        </button>
        <button type="button" class="button" ?disabled=${missing !== null} @click=${this.save}>Save as table</button>
      </div>
      ${missing === null ? nothing : html`<p class="small">${missing}</p>`}
    `;
  }

  /** What is still to be said before the marks can be recorded; null for nothing. */
  private missing(): string | null {
    if (this.marks.size === 0) return "Mark at least one tree.";
    if ([...this.marks.values()].some(({ result, reason }) => result === "rework" && reason.trim() === ""))
      return "Say what is to be made good.";
    if (this.by.trim() === "") return "Say who looked.";
    return parseIsoDate(this.on) === null ? "Give the day of the check." : null;
  }

  private mark(treeId: string, mark: Mark): void {
    this.marks = new Map([...this.marks, [treeId, mark]]);
  }

  private set(name: "by" | "on", event: Event): void {
    this[name] = (event.target as HTMLInputElement).value;
  }

  private given(): GivenCheck[] {
    const visits = new Map(this.acceptance?.trees.map(({ treeId, visit }) => [treeId, visit.entry.visitId]));
    return [...this.marks].map(([treeId, { result, reason }], at) => ({
      file: "on the page",
      sha256: "",
      line: at + 1,
      zoneId: this.zoneId,
      treeId,
      visitId: visits.get(treeId) ?? null,
      result,
      reason: result === "passed" ? "" : reason.trim(),
      on: parseIsoDate(this.on)!,
      by: this.by.trim(),
      notes: "",
    }));
  }

  private readonly save = () => {
    const rows = this.given().map((row) => [
      ...[row.zoneId, row.visitId, row.treeId, row.result, row.reason, row.on, row.by, row.notes],
    ]);
    saveFile(`checks-${this.zoneId}.csv`, new TextEncoder().encode(writeCsv(CHECK_COLUMNS, rows)), "text/csv");
  };

  private readonly record = async () => {
    if (this.context === null) return;
    if (this.context.desk.keep.edits.length > 0) {
      this.problem = "Save the edits of the zones first, or save the checks as a table and record them later.";
      return;
    }
    this.isBusy = true;
    this.problem = null;
    try {
      const { takeChecksIntoHand } = await import("./take-checks.ts");
      const reason = await takeChecksIntoHand(this.context, this.given());
      if (reason === null) this.context.tell("The checks are recorded.");
      this.problem = reason;
    } catch (error) {
      this.problem = `Nothing was recorded. ${error instanceof Error ? error.message : String(error)}`;
    }
    this.isBusy = false;
  };
}

function stateWords({ finished, trees, passed, rework, toCheck, isAccepted }: ZoneAcceptance): string {
  const of = `${trees.length} of ${finished} finished trees are to be checked`;
  if (isAccepted) return `Accepted: ${of.replace("are to be checked", "were checked, and all passed")}.`;
  return `${of}: ${passed} passed, ${rework} to be made good, ${toCheck} not looked at yet.`;
}
