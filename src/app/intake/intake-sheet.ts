import { html, LitElement, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { FieldChoice, IntakeReport } from "../../worker/intake/intake-messages.ts";
import { dialogFooterStyles } from "../dialog-footer-styles.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted, LAYER_WORDS, readableCount } from "../words.ts";
import { belowFloor } from "./clearances-pane.ts";
import { countBar, countBarStyles, countsOf, countsText, filesText } from "./count-bar.ts";
import { WITHOUT_LAYER } from "./field-words.ts";
import type { IntakeFile } from "./intake.ts";
import {
  type IntakeDraft,
  withChoice,
  withFile,
  withoutChoices,
  withoutFile,
  withoutStandard,
} from "./intake-draft.ts";
import { intakeSheetStyles } from "./intake-sheet-styles.ts";
import { layersSection, layersSectionStyles } from "./layers-section.ts";
import type { FormTexts } from "./plan-options.ts";
import "./layer-pane.ts";
import "./settings-form.ts";

/** What is open beside the list of layers. */
type Open = Layer | "left-out" | "clearances";

/**
 * The files on the table: each layer with its files, columns and counts, the clearances, date and place, before a plan is made of them. Fires
 * `draft-change` (detail: the new draft), `plan-wanted`, `files-choose`, `map-save` and `intake-close`.
 */
@customElement("intake-sheet")
export class IntakeSheet extends LitElement {
  static override styles = [sharedStyles, countBarStyles, layersSectionStyles, dialogFooterStyles, intakeSheetStyles];

  @property({ attribute: false }) draft: IntakeDraft | null = null;
  @property({ attribute: false }) report: IntakeReport | null = null;
  @property({ attribute: false }) doing: string | null = null;
  @property({ attribute: false }) problem: string | null = null;
  @state() private chosen: Open | null = null;
  @query("dialog") private dialog!: HTMLDialogElement | null;

  protected override willUpdate() {
    if (this.draft === null) this.chosen = null;
  }

  protected override updated(changed: Map<string, unknown>) {
    if (!changed.has("draft")) return;
    if (this.draft !== null && this.dialog?.open === false) this.dialog.showModal();
  }

  protected override render() {
    const { draft } = this;
    if (draft === null) return nothing;
    const open = this.open(draft);
    const given = new Set(draft.files.flatMap(({ layer }) => (layer === null ? [] : [layer])));
    return html`<dialog aria-labelledby="title" @cancel=${this.onEscape} @close=${() => this.emit("intake-close", null)}>
      <header>
        <h1 id="title" tabindex="-1" autofocus>What is in these files?</h1>
        <p role="status">${this.summary(draft)}</p>
      </header>
      <div class="side">
        <nav aria-label="What is on the table">
          ${layersSection(given, LAYERS.find((layer) => layer === open) ?? null)}
          <ul>
            ${LAYERS.map((layer) => this.layerItem(draft, layer, open))} ${this.leftOutItem(draft, open)}
            ${this.clearancesItem(draft, open)}
          </ul>
          ${draft.refused.map((sentence) => html`<p class="problem">${sentence}</p>`)}
        </nav>
        <settings-form
          .form=${draft.form}
          @form-change=${(event: CustomEvent<Partial<FormTexts>>) => this.change({ ...draft, form: { ...draft.form, ...event.detail } })}
        ></settings-form>
      </div>
      <div class="pane" role="region" aria-label="What is open" tabindex="0">${this.pane(draft, open)}</div>
      <footer>
        <p class=${this.problem === null ? "unseen" : ""} role="alert">${this.problem}</p>
        <button type="button" class="button" @click=${() => this.emit("files-choose", null)}>Add files</button>
        <button type="button" class="button" @click=${() => this.dialog?.close()}>Close</button>
        <button type="button" class="button main" @click=${() => this.emit("plan-wanted", null)}>Make the plan</button>
      </footer>
    </dialog>`;
  }

  /** What the reader opened, while there is such a layer; else the trees, or the first there is. */
  private open(draft: IntakeDraft): Open {
    const has = (open: Open) =>
      open === "clearances" || draft.files.some(({ layer }) => (open === "left-out" ? layer === null : layer === open));
    if (this.chosen !== null && has(this.chosen)) return this.chosen;
    const first = draft.files[0]?.layer ?? null;
    return first ?? (draft.files.length > 0 ? "left-out" : "clearances");
  }

  private summary(draft: IntakeDraft): string {
    if (this.doing !== null) return `${this.doing} …`;
    const counts = countsOf(this.report?.sources ?? []);
    if (counts.read === 0) return "The files stay on this machine.";
    const kept = draft.files.filter(({ layer }) => layer !== null).length;
    return `${countsText(counts)}, in ${filesText(kept)}. They stay on this machine.`;
  }

  private layerItem(draft: IntakeDraft, layer: Layer, open: Open) {
    const files = draft.files.filter((file) => file.layer === layer);
    if (files.length === 0) {
      return html`<li class="missing">
        <span class="name">${LAYER_WORDS[layer]}</span> <span class="small">${WITHOUT_LAYER[layer]}</span>
      </li>`;
    }
    const sources = this.report?.sources.filter(({ key }) => files.some((file) => file.key === key)) ?? [];
    const counts = countsOf(sources);
    const broken = sources.filter(({ fault }) => fault !== null).length;
    const doubts = this.report?.layers
      .find((one) => one.layer === layer)
      ?.doubts.filter(({ severity }) => severity !== "info");
    const parts = [
      ...(files.length > 1 ? [filesText(files.length)] : []),
      ...(broken > 0 ? [`${counted(broken, "file")} cannot be used`] : []),
      ...(counts.read > 0 ? [`${readableCount(counts.used)} used`] : []),
      ...(counts.aside > 0 ? [`${readableCount(counts.aside)} set aside`] : []),
      ...(counts.leftOut > 0 ? [`${readableCount(counts.leftOut)} left out`] : []),
      ...(doubts !== undefined && doubts.length > 0 ? [counted(doubts.length, "doubt")] : []),
    ];
    return this.item(layer, open, LAYER_WORDS[layer], parts.join(" · "), broken > 0, countBar(counts));
  }

  private leftOutItem(draft: IntakeDraft, open: Open) {
    const count = draft.files.filter(({ layer }) => layer === null).length;
    return count === 0
      ? nothing
      : this.item("left-out", open, "Left out", `${filesText(count)}: choose a layer`, false);
  }

  private clearancesItem(draft: IntakeDraft, open: Open) {
    const standard = this.report?.standard ?? null;
    const warnings = standard === null ? 0 : belowFloor(standard).length;
    const isBroken = (standard?.faults.length ?? 0) > 0;
    const parts = [
      ...(isBroken ? [`${draft.standardName ?? "The standard"} cannot be used`] : [standard?.title ?? ""]),
      ...(warnings > 0 ? [`${warnings} below a legal floor`] : []),
    ];
    return this.item("clearances", open, "Clearances", parts.join(" · "), isBroken || warnings > 0);
  }

  private item(key: Open, open: Open, name: string, text: string, isPressing: boolean, bar: unknown = nothing) {
    return html`<li>
      <button type="button" class="item" aria-current=${key === open ? "true" : "false"} @click=${() => this.show(key)}>
        <span class="name">${name}</span>
        <span class="small ${isPressing ? "pressing" : ""}">${text}</span>
        ${bar}
      </button>
    </li>`;
  }

  private pane(draft: IntakeDraft, open: Open) {
    if (open === "clearances") {
      return html`<clearances-pane
        .report=${this.report?.standard ?? null}
        .base=${draft.standard.base}
        .ownName=${draft.standardName}
        @base-change=${(event: CustomEvent<string>) => this.change({ ...draft, standard: { ...draft.standard, base: event.detail } })}
        @own-load=${() => this.emit("files-choose", null)}
        @own-remove=${() => this.change(withoutStandard(draft))}
      ></clearances-pane>`;
    }
    const layer = open === "left-out" ? null : open;
    return html`<layer-pane
      .layer=${layer}
      .files=${draft.files.filter((file) => file.layer === layer)}
      .report=${this.report}
      .units=${draft.form.units === "metric" ? "metric" : "us"}
      .mapName=${layer !== null && draft.given[layer] !== undefined ? draft.givenName : null}
      .isChanged=${draft.choices.some((choice) => choice.layer === layer)}
      @file-change=${(event: CustomEvent<{ key: string; part: Partial<IntakeFile> }>) => this.onFile(draft, event.detail)}
      @file-remove=${(event: CustomEvent<string>) => this.change(withoutFile(draft, event.detail))}
      @field-choice=${(event: CustomEvent<FieldChoice>) => this.change(withChoice(draft, event.detail))}
      @choices-reset=${(event: CustomEvent<Layer>) => this.change(withoutChoices(draft, event.detail))}
      @map-load=${() => this.emit("files-choose", null)}
    ></layer-pane>`;
  }

  /** A file that was given another layer is followed there. */
  private onFile(draft: IntakeDraft, { key, part }: { key: string; part: Partial<IntakeFile> }) {
    if (part.layer !== undefined && part.layer !== null) this.chosen = part.layer;
    this.change(withFile(draft, key, part));
  }

  private async show(key: Open) {
    this.chosen = key;
    await this.updateComplete;
    const pane = this.renderRoot.querySelector(".pane");
    pane?.scrollTo(0, 0);
    // On a narrow page the pane stands below the list.
    if (this.dialog !== null && getComputedStyle(this.dialog).display === "flex") pane?.scrollIntoView();
  }

  private readonly onEscape = (event: Event) => {
    // A key pressed by mistake must not throw away what was corrected.
    if ((this.draft?.choices.length ?? 0) > 0) event.preventDefault();
  };

  private change(draft: IntakeDraft) {
    this.emit("draft-change", draft);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
