import { html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { WORD_KINDS, type WordInForce, type WordKind } from "../../core/model/word.ts";
import { parseIsoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import type { PageContext } from "../frame/side-page.ts";
import { localDate } from "../intake/local-date.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted, readableCount } from "../words.ts";
import { wordStyles } from "./word-styles.ts";

const KIND_WORDS: Readonly<Record<WordKind, string>> = {
  "do-not-prune": "Do not prune",
  option: "Options",
  dates: "Dates",
  "referral-resolved": "Referrals",
  measurement: "Measured",
  inspected: "Inspected",
  note: "Notes",
};

interface ListedWord {
  readonly treeId: string;
  readonly word: WordInForce;
}

/** All that arborists said of the plan's trees and that is in force, by kind; where each can be taken back. */
@customElement("words-sheet")
export class WordsSheet extends LitElement {
  static override styles = [sharedStyles, wordStyles];

  @property({ attribute: false }) context: PageContext | null = null;
  @state() private kind: WordKind | "beyond" | null = null;
  /** The word that is being taken back. */
  @state() private taking: string | null = null;
  @state() private by = "";
  @state() private why = "";
  @state() private problem: string | null = null;
  @state() private isBusy = false;

  protected override render() {
    if (this.context === null) return nothing;
    const all = this.context.index.opened.plan.prescriptions.flatMap(({ treeId, words = [] }) =>
      words.map((word): ListedWord => ({ treeId, word })),
    );
    const kinds = WORD_KINDS.filter((kind) => all.some(({ word }) => word.kind === kind));
    const beyond = all.filter(({ word }) => word.breaks.length > 0);
    const shown =
      this.kind === null ? all : this.kind === "beyond" ? beyond : all.filter(({ word }) => word.kind === this.kind);
    const chip = (kind: WordKind | "beyond" | null, words: string, count: number) =>
      html`<button
        type="button"
        class="chip"
        aria-pressed=${this.kind === kind ? "true" : "false"}
        @click=${() => {
          this.kind = kind;
        }}
      >
        ${words} <span class="small">${readableCount(count)}</span>
      </button>`;
    return html`
      <h2>Decisions</h2>
      <p class="small">What people decided, measured or noted of trees. It outranks the plan's own choice until it is taken back.</p>
      <div class="chips" role="group" aria-label="Kind">
        ${chip(null, "All", all.length)}
        ${kinds.map((kind) => chip(kind, KIND_WORDS[kind], all.filter(({ word }) => word.kind === kind).length))}
        ${beyond.length === 0 ? nothing : chip("beyond", "Beyond a limit", beyond.length)}
      </div>
      <div class="row">
        <button type="button" class="word" @click=${() => this.showTrees(shown)}>
          Show ${counted(new Set(shown.map(({ treeId }) => treeId)).size, "tree")} on the map
        </button>
      </div>
      <ul class="spaced">
        ${shown.map((one) => this.line(one))}
      </ul>
      ${shown.length === 0 ? html`<p role="status">Nothing is decided.</p>` : nothing}
    `;
  }

  private line({ treeId, word }: ListedWord) {
    const { wordId, says, by, on, why, breaks, idle } = word;
    const name = this.context?.index.treeById.get(treeId)?.tree.commonName ?? "";
    return html`<li>
      <button type="button" class="word" @click=${() => this.context?.openTree(treeId)}><b>${treeId}</b></button> ${name}
      <p>${says}</p>
      <p class="small">${by}, ${formatDate(on)}${why === "" ? "" : ` · ${why}`}</p>
      ${breaks.map((limit) => html`<p class="small limit">${limit}</p>`)}
      ${idle === null ? nothing : html`<p class="small">Without effect: ${idle}</p>`}
      ${this.taking === wordId ? this.takingBack(wordId) : this.takeButton(wordId, treeId)}
    </li>`;
  }

  private takeButton(wordId: string, treeId: string) {
    if (this.context?.canEdit !== true) return nothing;
    return html`<div class="row">
      <button
        type="button"
        class="word"
        aria-label="Take back what is said of ${treeId}"
        @click=${() => {
          this.taking = wordId;
          this.problem = null;
        }}
      >
        Take back
      </button>
    </div>`;
  }

  private takingBack(wordId: string) {
    return html`<div class="two">
        <label
          >Who takes it back
          <input
            .value=${this.by}
            @input=${(event: Event) => {
              this.by = (event.target as HTMLInputElement).value;
            }}
          />
        </label>
        <label
          >Why
          <input
            .value=${this.why}
            @input=${(event: Event) => {
              this.why = (event.target as HTMLInputElement).value;
            }}
          />
        </label>
      </div>
      ${this.problem === null ? nothing : html`<p role="alert">${this.problem}</p>`}
      <div class="row">
        <button
          type="button"
          class="button main"
          ?disabled=${this.by.trim() === "" || this.isBusy}
          @click=${() => this.takeBack(wordId)}
        >
          ${this.isBusy ? "Measuring the tree anew …" : "Take back"}
        </button>
        <button
          type="button"
          class="button"
          @click=${() => {
            this.taking = null;
          }}
        >
          Leave it
        </button>
      </div>`;
  }

  private showTrees(words: readonly ListedWord[]): void {
    const { context } = this;
    if (context === null) return;
    const ids = new Set(words.map(({ treeId }) => treeId));
    context.showPlaces([...ids].flatMap((id) => context.index.treeById.get(id)?.tree ?? []));
  }

  private async takeBack(wordId: string): Promise<void> {
    const { context } = this;
    if (context === null || this.isBusy) return;
    this.isBusy = true;
    this.problem = null;
    try {
      const { sayOnPage } = await import("./say-on-page.ts");
      const on = parseIsoDate(localDate())!;
      await sayOnPage(context, [
        {
          file: "on the page",
          line: null,
          said: { type: "take-back", wordId, on, by: this.by.trim(), why: this.why.trim() },
        },
      ]);
      context.tell("Taken back; the tree is as it was before. Both stay in the history.");
      this.taking = null;
      this.why = "";
    } catch (error) {
      this.problem = `Nothing was taken back. ${error instanceof Error ? error.message : String(error)}`;
    }
    this.isBusy = false;
  }
}
