import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Finding } from "../../core/model/finding.ts";
import type { PlanIndex } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { capitalized, counted, LAYER_WORDS, readableCount, SEVERITY_WORDS, WORDS } from "../words.ts";
import { findingPlace } from "./finding-place.ts";
import { type FindingGroup, groupFindings } from "./group-findings.ts";

/** Lines drawn of an open group before "Show more". */
const FIRST_LINES = 50;

/** What was found in the files, by code, worst first. Fires `finding-open` (detail: FindingPlace). */
@customElement("findings-list")
export class FindingsList extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    sharedStyles,
    css`
      :host {
        min-height: 0;
        overflow: auto;
      }
      .lead {
        padding: 12px 16px;
        border-bottom: 1px solid var(--rule);
      }
      details {
        border-bottom: 1px solid var(--rule);
      }
      summary {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        gap: 1px 12px;
        padding: 10px 16px;
        cursor: pointer;
        list-style: none;
      }
      summary:hover {
        background: var(--paper-2);
      }
      summary:focus-visible {
        outline-offset: -2px;
      }
      b {
        font-weight: 600;
      }
      .error b,
      .error .severity {
        color: var(--warn);
      }
      summary > :nth-child(even):not(.whole) {
        text-align: right;
      }
      .whole {
        grid-column: 1 / 3;
      }
      li {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        gap: 0 12px;
        padding: 7px 16px 7px 28px;
        border-top: 1px solid var(--rule);
        overflow-wrap: anywhere;
      }
      .more {
        padding: 8px 28px;
      }
    `,
  ];

  @property({ attribute: false }) index: PlanIndex | null = null;
  @state() private lines: ReadonlyMap<string, number> = new Map();

  protected override render() {
    const { index } = this;
    if (index === null) return nothing;
    const { findings, notChecked } = index.opened.plan;
    return html`
      <div class="lead">
        <p>
          ${
            findings.length === 0
              ? "Nothing was found amiss in the files."
              : `${counted(findings.length, "finding")} in the files. Every feature was used or is listed here with the reason.`
          }
        </p>
        ${
          notChecked.length > 0
            ? html`<p class="small">
                Not checked, because a layer is missing or this version does not measure it: ${notChecked.map((kind) => WORDS.kind[kind]).join(", ")}.
              </p>`
            : nothing
        }
      </div>
      ${groupFindings(findings).map((group) => this.group(index, group))}
    `;
  }

  private group(index: PlanIndex, group: FindingGroup) {
    const first = group.findings[0];
    if (first === undefined) return nothing;
    const isSame = group.findings.every((finding) => finding.reason === first.reason);
    const shown = this.lines.get(group.code) ?? 0;
    return html`<details class=${group.severity} @toggle=${(event: Event) => this.onToggle(event, group)}>
      <summary>
        <b>${capitalized(group.code.replaceAll("-", " "))}</b>
        <b>${readableCount(group.findings.length)}</b>
        <span class="severity small">${SEVERITY_WORDS[group.severity]}</span>
        <span class="small">${[...new Set(group.findings.map((finding) => finding.layer))].join(", ")}</span>
        ${isSame ? html`<span class="whole">${first.reason}</span>` : nothing}
        <span class="whole small">${first.whatToDo}</span>
      </summary>
      <ul>
        ${group.findings.slice(0, shown).map((finding) => this.line(index, finding, isSame))}
      </ul>
      ${
        shown > 0 && shown < group.findings.length
          ? html`<p class="more">
              <button type="button" class="word" @click=${() => this.showLines(group, shown + 10 * FIRST_LINES)}>
                Show more (${readableCount(group.findings.length - shown)})
              </button>
            </p>`
          : nothing
      }
    </details>`;
  }

  private line(index: PlanIndex, finding: Finding, isSame: boolean) {
    const place = findingPlace(index, finding);
    const layer = finding.layer in LAYER_WORDS ? LAYER_WORDS[finding.layer as keyof typeof LAYER_WORDS] : finding.layer;
    const what = [finding.feature ?? finding.file ?? layer, finding.field, finding.value].filter(
      (text) => text !== null,
    );
    return html`<li>
      <span>
        ${what.join(", ")}
        ${isSame ? nothing : html`<span class="small"><br />${finding.reason}</span>`}
        ${finding.file === null ? nothing : html`<span class="small"><br />${finding.file}</span>`}
      </span>
      ${
        place === null
          ? nothing
          : html`<button type="button" class="word" @click=${() => this.open(place)}>Show it</button>`
      }
    </li>`;
  }

  private onToggle(event: Event, group: FindingGroup) {
    const isOpen = (event.currentTarget as HTMLDetailsElement).open;
    this.showLines(group, isOpen ? FIRST_LINES : 0);
  }

  private showLines(group: FindingGroup, count: number) {
    this.lines = new Map([...this.lines, [group.code, count]]);
  }

  private open(detail: unknown) {
    this.dispatchEvent(new CustomEvent("finding-open", { detail, bubbles: true, composed: true }));
  }
}
