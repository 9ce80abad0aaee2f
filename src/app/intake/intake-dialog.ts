import { html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { PlanJobRequest } from "../../worker/plan-messages.ts";
import { sharedStyles } from "../shared-styles.ts";
import { LAYER_WORDS } from "../words.ts";
import type { Intake, IntakeFile } from "./intake.ts";
import { dialogStyles } from "./intake-dialog-styles.ts";
import { planOptions } from "./plan-options.ts";
import { readableBytes } from "./readable-bytes.ts";

/**
 * The table of dropped files: which layer each is, and what the plan needs to know. Fires `plan-wanted` (detail: PlanJobRequest),
 * `files-choose` for more files, and `intake-close`.
 */
@customElement("intake-dialog")
export class IntakeDialog extends LitElement {
  static override styles = [sharedStyles, dialogStyles];

  @property({ attribute: false }) intake: Intake | null = null;
  /** The as-of date the form starts with. */
  @property() today = "";
  @state() private files: readonly IntakeFile[] = [];
  @state() private problem: string | null = null;

  protected override willUpdate(changed: Map<string, unknown>) {
    if (changed.has("intake")) {
      this.files = this.intake?.files ?? [];
      this.problem = null;
    }
  }

  protected override updated(changed: Map<string, unknown>) {
    if (!changed.has("intake")) return;
    const dialog = this.renderRoot.querySelector("dialog");
    if (this.intake !== null && dialog?.open === false) dialog.showModal();
    if (this.intake === null && dialog?.open === true) dialog.close();
  }

  protected override render() {
    const { intake } = this;
    if (intake === null) return nothing;
    return html`<dialog aria-labelledby="title" @cancel=${this.close}>
      <form @submit=${this.submit} novalidate>
        <div class="body">
          <h2 id="title" tabindex="-1" autofocus>What is in these files?</h2>
          <p>Trees are needed; each other layer lets more be checked. The files stay on this machine.</p>
          ${intake.refused.map((sentence) => html`<p class="problem">${sentence}</p>`)}
          ${this.files.length > 0 ? this.table() : nothing}
          ${
            intake.columnsName === null
              ? nothing
              : html`<p class="small">${intake.columnsName} says which column is what.</p>`
          }
          ${
            intake.standardName === null
              ? nothing
              : html`<p class="small">${intake.standardName} sets the clearances.</p>`
          }
          <div class="options">${this.options()}</div>
        </div>
        <footer>
          <p class=${this.problem === null ? "unseen" : ""} role="alert">${this.problem}</p>
          <button type="button" class="button" @click=${() => this.emit("files-choose", null)}>Add files</button>
          <button type="button" class="button" @click=${this.close}>Close</button>
          <button class="button main">Make the plan</button>
        </footer>
      </form>
    </dialog>`;
  }

  private table() {
    return html`<table>
      <thead>
        <tr>
          <th scope="col">File</th>
          <th scope="col">Layer</th>
          <th scope="col">Only where (optional)</th>
        </tr>
      </thead>
      <tbody>
        ${this.files.map((file, at) => this.row(file, at))}
      </tbody>
    </table>`;
  }

  private row(file: IntakeFile, at: number) {
    const hint = file.layer === null ? "choose its layer" : file.because === null ? null : `by ${file.because}`;
    return html`<tr>
      <td class="name">
        ${file.name}
        <span class="small"><br />${readableBytes(file.blob.size)}${hint === null ? "" : `, ${hint}`}</span>
      </td>
      <td>
        <select
          aria-label="Layer of ${file.name}"
          @change=${(event: Event) => {
            const value = (event.target as HTMLSelectElement).value;
            this.change(at, { layer: value === "" ? null : (value as Layer), because: null });
          }}
        >
          <option value="" ?selected=${file.layer === null}>Leave out</option>
          ${LAYERS.map(
            (layer) => html`<option value=${layer} ?selected=${file.layer === layer}>${LAYER_WORDS[layer]}</option>`,
          )}
        </select>
      </td>
      <td>
        <input
          type="text"
          maxlength="256"
          spellcheck="false"
          placeholder="TYPE = Road"
          aria-label="Only features of ${file.name} where"
          .value=${file.filter}
          @input=${(event: Event) => this.change(at, { filter: (event.target as HTMLInputElement).value })}
        />
      </td>
    </tr>`;
  }

  private options() {
    return html`
      <label><span class="small">As of</span><input type="date" name="asOf" .value=${this.today} required /></label>
      <label>
        <span class="small">Lengths in</span>
        <select name="units">
          <option value="us">Feet and inches</option>
          <option value="metric">Meters</option>
        </select>
      </label>
      <label>
        <span class="small">Traffic drives on the</span>
        <select name="drive">
          <option value="right">Right</option>
          <option value="left">Left</option>
        </select>
      </label>
      <label>
        <span class="small">Hardiness zone (if known)</span>
        <input type="number" name="hardinessZone" min="1" max="13" step="1" inputmode="numeric" />
      </label>
      <label>
        <span class="small">Region (if known)</span>
        <input type="text" name="region" maxlength="6" placeholder="US-WI" spellcheck="false" />
      </label>
    `;
  }

  private change(at: number, part: Partial<IntakeFile>) {
    this.files = this.files.map((file, place) => (place === at ? { ...file, ...part } : file));
    this.problem = null;
  }

  private submit(event: Event) {
    event.preventDefault();
    const { intake } = this;
    if (intake === null) return;
    const form = new FormData(event.target as HTMLFormElement);
    const options = planOptions(form);
    if (typeof options === "string") {
      this.problem = options;
      return;
    }
    const files = this.files.flatMap(({ name, blob, layer, filter }) =>
      layer === null ? [] : [{ name, blob, layer, filter: filter.trim() === "" ? null : filter.trim() }],
    );
    if (!files.some((file) => file.layer === "trees")) {
      this.problem = "One file must be the trees: choose Trees as its layer.";
      return;
    }
    const request: PlanJobRequest = {
      revision: 1,
      files,
      columns: intake.columns,
      standardJson: intake.standardJson,
      options,
      crs: null,
      withZones: true,
    };
    this.emit("plan-wanted", request);
  }

  private readonly close = (event?: Event) => {
    event?.preventDefault();
    this.emit("intake-close", null);
  };

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
