import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { SourceReport } from "../../worker/intake/intake-messages.ts";
import { sharedStyles } from "../shared-styles.ts";
import { LAYER_WORDS } from "../words.ts";
import { countBar, countBarStyles, countsOf, countsText } from "./count-bar.ts";
import { pageWords } from "./field-words.ts";
import type { IntakeFile } from "./intake.ts";
import { readableBytes } from "./readable-bytes.ts";
import "./filter-editor.ts";

/** One file, or one table of it: its layer, how much of it is used, and which of its features. Fires `file-change` (detail: part of an `IntakeFile`) and `file-remove`. */
@customElement("source-card")
export class SourceCard extends LitElement {
  static override styles = [
    sharedStyles,
    countBarStyles,
    css`
      :host {
        padding: 10px 0 12px;
        border-bottom: 1px solid var(--rule);
      }
      .top {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 16px;
        align-items: center;
      }
      .name {
        flex: 1 1 200px;
        min-width: 0;
        overflow-wrap: anywhere;
      }
      .name strong {
        font-weight: 600;
      }
      .counts {
        display: grid;
        gap: 3px;
        margin-top: 8px;
      }
      .problem {
        margin-top: 8px;
        padding: 8px 12px;
        border-left: 5px solid var(--warn);
        background: var(--paper-2);
        overflow-wrap: anywhere;
      }
      details {
        margin-top: 6px;
      }
      summary {
        width: fit-content;
        cursor: pointer;
      }
      .inside {
        padding: 8px 0 4px 16px;
      }
      .crs {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 10px;
        align-items: center;
      }
      .crs input {
        width: 130px;
      }
    `,
  ];

  @property({ attribute: false }) file!: IntakeFile;
  @property({ attribute: false }) report: SourceReport | null = null;

  protected override render() {
    const { file, report } = this;
    const name = file.table === null ? file.name : `${file.table} in ${file.name}`;
    return html`<div class="top">
        <p class="name">
          <strong>${file.table ?? file.name}</strong>
          <span class="small">${this.under()}</span>
        </p>
        <select aria-label="Layer of ${name}" @change=${this.onLayer}>
          <option value="" .selected=${file.layer === null}>Leave out</option>
          ${LAYERS.map(
            (layer) => html`<option value=${layer} .selected=${file.layer === layer}>${LAYER_WORDS[layer]}</option>`,
          )}
        </select>
        <button type="button" class="word" aria-label="Remove ${name}" @click=${() => this.emit("file-remove")}>Remove</button>
      </div>
      ${report === null || file.layer === null ? nothing : this.body(report, name)}`;
  }

  private under(): string {
    const { file } = this;
    const parts = [
      ...(file.table === null ? [] : [`in ${file.name}`]),
      readableBytes(file.blob.size),
      ...(file.layer === null
        ? file.isOpened
          ? ["choose its layer"]
          : []
        : file.because === null
          ? []
          : [`${LAYER_WORDS[file.layer].toLowerCase()} by ${file.because}`]),
    ];
    return parts.join(" · ");
  }

  private body(report: SourceReport, name: string) {
    const { file } = this;
    if (report.fault !== null) {
      return html`<div class="problem">
          <p>${pageWords(report.fault.reason)}</p>
          <p>${pageWords(report.fault.whatToDo)}</p>
        </div>
        ${this.editors(report, name)}`;
    }
    const counts = countsOf([report]);
    return html`<div class="counts">
        ${countBar(counts)}
        <p class="small">${countsText(counts)}${file.crs === "" ? "" : ` · read as ${file.crs}`}</p>
      </div>
      ${this.editors(report, name)}`;
  }

  private editors(report: SourceReport, name: string) {
    const { file } = this;
    return html`<details ?open=${file.filter !== ""}>
        <summary class="small">Only some of its features</summary>
        <div class="inside">
          <filter-editor
            .choices=${report.choices}
            .filter=${file.filter}
            .name=${name}
            @filter-change=${(event: CustomEvent<string>) => this.tell({ filter: event.detail })}
          ></filter-editor>
        </div>
      </details>
      <details ?open=${file.crs !== ""}>
        <summary class="small">Coordinates: ${report.system ?? "not read"}</summary>
        <div class="inside crs">
          <label for="crs" class="small">Read them as</label>
          <input
            id="crs"
            type="text"
            maxlength="40"
            spellcheck="false"
            placeholder="EPSG:2263"
            .value=${file.crs}
            @change=${(event: Event) => this.tell({ crs: (event.target as HTMLInputElement).value.trim() })}
          />
          <span class="small">Empty takes what the file says.</span>
        </div>
      </details>`;
  }

  private onLayer(event: Event) {
    const { value } = event.target as HTMLSelectElement;
    this.tell({ layer: value === "" ? null : (value as Layer), because: null });
  }

  private tell(part: Partial<IntakeFile>) {
    this.dispatchEvent(new CustomEvent("file-change", { detail: part }));
  }

  private emit(name: string) {
    this.dispatchEvent(new CustomEvent(name));
  }
}
