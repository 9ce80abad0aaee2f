import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Prescription } from "../../core/model/prescription.ts";
import { DEFECTS } from "../../core/model/terms.ts";
import type { ArboristWord } from "../../core/model/word.ts";
import { parseIsoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { formatShare } from "../../core/units/format-length.ts";
import { formatYears } from "../../core/units/format-years.ts";
import type { PageContext } from "../frame/side-page.ts";
import { localDate } from "../intake/local-date.ts";
import { sharedStyles } from "../shared-styles.ts";
import { capitalized, WORDS } from "../words.ts";
import { contentOf, DECISIONS, type Decision, MEASURES, type Measure, needsWhy, type WordDraft } from "./word-draft.ts";
import { wordStyles } from "./word-styles.ts";

const DECISION_WORDS: Readonly<Record<Decision, string>> = {
  option: "Another option",
  dates: "Dates",
  "do-not-prune": "Do not prune",
  "referral-resolved": "Referral decided",
  measurement: "Measured",
  note: "Note",
};
const MEASURE_WORDS: Readonly<Record<Measure, string>> = {
  height: "Height",
  "crown-base": "Crown base",
  "crown-radius": "Crown radius",
  headroom: "Headroom over the road",
  dbh: "Trunk diameter",
  planted: "Planted on",
  defect: "Defect that is there",
  "no-defect": "Defect that is not there",
};
/** The name that was given last stays for the next tree. */
let lastBy = "";

/** What an arborist decides of one tree; it outranks the model and is applied at once. */
@customElement("decide-sheet")
export class DecideSheet extends LitElement {
  static override styles = [sharedStyles, wordStyles];

  @property({ attribute: false }) context: PageContext | null = null;
  @property() treeId = "";
  @state() private draft: WordDraft = freshDraft();
  @state() private problem: string | null = null;
  @state() private isBusy = false;

  protected override willUpdate(changed: Map<string, unknown>) {
    if (changed.has("treeId")) this.draft = freshDraft();
  }

  protected override render() {
    const entry = this.context?.index.treeById.get(this.treeId);
    if (this.context === null || entry === undefined) return html`<p role="status">This plan has no such tree.</p>`;
    const { tree, prescription } = entry;
    const { refer, visits } = prescription;
    const offered = DECISIONS.filter(
      (one) =>
        (one !== "option" || prescription.options.length > 0) &&
        (one !== "dates" || visits.length > 0) &&
        (one !== "referral-resolved" || refer !== null),
    );
    const decision = offered.includes(this.draft.decision) ? this.draft.decision : offered[0]!;
    const draft = { ...this.draft, decision };
    const content = contentOf(draft, prescription.options, refer?.code ?? null, this.context.units);
    return html`
      <h2>Decide on ${tree.commonName ?? tree.species ?? "tree"} ${tree.id}</h2>
      <p class="small">
        What is said here outranks the plan's own choice, is shown as such, and can be taken back. Limits that it breaks are marked. It does not
        say that the work is safe.
      </p>
      <div class="chips" role="group" aria-label="What is decided">
        ${offered.map(
          (one) =>
            html`<button
              type="button"
              class="chip"
              aria-pressed=${one === decision ? "true" : "false"}
              @click=${() => this.set({ decision: one })}
            >
              ${DECISION_WORDS[one]}
            </button>`,
        )}
      </div>
      ${this.fields(draft, prescription)} ${this.signing(draft)}
      ${this.problem === null ? nothing : html`<p role="alert">${this.problem}</p>`}
      <div class="row act">
        <button
          type="button"
          class="button main"
          ?disabled=${"missing" in content || this.isBusy || !this.context.canEdit}
          @click=${() => "missing" in content || this.say(content)}
        >
          ${this.isBusy ? "Measuring the tree anew …" : "Decide"}
        </button>
      </div>
      ${"missing" in content ? html`<p class="small" role="status">${content.missing}</p>` : nothing}
    `;
  }

  private fields(draft: WordDraft, prescription: Prescription): TemplateResult {
    switch (draft.decision) {
      case "option":
        return this.options(draft, prescription);
      case "dates": {
        const visit = prescription.visits[0]!;
        return html`<p class="small">
            The plan has ${formatDate(visit.windowStart)} to ${formatDate(visit.windowEnd)}, due ${formatDate(visit.due)}. ${visit.windowReason}
          </p>
          <div class="two">${this.date("First day", "from", draft.from)} ${this.date("Last day", "to", draft.to)}</div>`;
      }
      case "do-not-prune":
        return html`<p class="small">
            All visits are called off. With a last day they are only put off beyond it. A hazard's deadline runs on.
          </p>
          ${this.date("Until (left empty: for good)", "until", draft.until)}`;
      case "referral-resolved":
        return html`<p class="small">${prescription.refer?.reason ?? ""}</p>
          ${this.area("What was decided", draft.text)}
          <label class="option">
            <input
              type="checkbox"
              .checked=${draft.mayPrescribe}
              @change=${(event: Event) => this.set({ mayPrescribe: (event.target as HTMLInputElement).checked })}
            />
            <span>The rules may prescribe after all, where only a doubt held them back</span>
          </label>`;
      case "measurement":
        return this.measured(draft);
      case "note":
        return this.area("Note", draft.text);
    }
  }

  private options(draft: WordDraft, { options, chosen }: Prescription): TemplateResult {
    return html`<div role="radiogroup" aria-label="Options" class="spaced">
      ${options.map((option, at) => {
        const isNoOption =
          option.liveCrownRatioAfter <= 0 ||
          (option.leadersToM !== undefined && option.ruledOutBy?.startsWith("would be topping") === true);
        return html`<label class="option">
          <input
            type="radio"
            name="option"
            ?disabled=${isNoOption || at === chosen}
            .checked=${draft.option === at}
            @change=${() => this.set({ option: at })}
          />
          <span>
            <b>${capitalized(WORDS.remedy[option.remedy])}</b>${at === chosen ? html` <span class="small">· as planned</span>` : nothing}<br />
            Takes ${formatShare(option.doseShare)} of the crown, lasts ${formatYears(option.lastsYears)}
            ${
              option.ruledOutBy === null
                ? nothing
                : html`<br /><span class=${isNoOption ? "small" : "small limit"}
                      >${isNoOption ? "Not available" : "Breaks a limit"}: ${option.ruledOutBy}</span
                    >`
            }
          </span>
        </label>`;
      })}
    </div>`;
  }

  private measured(draft: WordDraft): TemplateResult {
    const isDefect = draft.measure === "defect" || draft.measure === "no-defect";
    const isUs = this.context?.units === "us";
    const unit = draft.measure === "dbh" ? (isUs ? "in" : "cm") : isUs ? "ft" : "m";
    const set = (event: Event) => this.set({ figure: (event.target as HTMLInputElement).value });
    return html`<div class="two">
      <label
        >What
        <select
          @change=${(event: Event) => this.set({ measure: (event.target as HTMLSelectElement).value as Measure, figure: "" })}
        >
          ${MEASURES.map((one) => html`<option value=${one} ?selected=${one === draft.measure}>${MEASURE_WORDS[one]}</option>`)}
        </select>
      </label>
      ${
        isDefect
          ? html`<label
              >Which
              <select @change=${set}>
                <option value="">Choose</option>
                ${DEFECTS.map((one) => html`<option value=${one} ?selected=${one === draft.figure}>${one.replaceAll("-", " ")}</option>`)}
              </select>
            </label>`
          : draft.measure === "planted"
            ? html`<label>Day <input type="date" .value=${draft.figure} @input=${set} /></label>`
            : html`<label>Figure, ${unit} <input inputmode="decimal" .value=${draft.figure} @input=${set} /></label>`
      }
    </div>`;
  }

  private signing(draft: WordDraft): TemplateResult {
    return html`
      <label>
        ${needsWhy(draft) ? "Why" : "Why, if there is more to say"}
        <textarea
          rows="2"
          maxlength="2000"
          .value=${draft.why}
          @input=${(event: Event) => this.set({ why: (event.target as HTMLTextAreaElement).value })}
        ></textarea>
      </label>
      <div class="two">
        <label
          >Who
          <input
            autocomplete="name"
            maxlength="200"
            .value=${draft.by}
            @input=${(event: Event) => this.set({ by: (event.target as HTMLInputElement).value })}
          />
        </label>
        ${this.date("On", "on", draft.on)}
      </div>
    `;
  }

  private date(words: string, name: "from" | "to" | "until" | "on", value: string): TemplateResult {
    return html`<label
      >${words}
      <input
        type="date"
        .value=${value}
        @input=${(event: Event) => this.set({ [name]: (event.target as HTMLInputElement).value })}
      />
    </label>`;
  }

  private area(words: string, value: string): TemplateResult {
    return html`<label
      >${words}
      <textarea
        rows="3"
        maxlength="2000"
        .value=${value}
        @input=${(event: Event) => this.set({ text: (event.target as HTMLTextAreaElement).value })}
      ></textarea>
    </label>`;
  }

  private set(part: Partial<WordDraft>): void {
    this.draft = { ...this.draft, ...part };
    this.problem = null;
  }

  private async say(content: Pick<ArboristWord, "kind" | "value">): Promise<void> {
    const { context, treeId, draft } = this;
    if (context === null || this.isBusy) return;
    this.isBusy = true;
    this.problem = null;
    lastBy = draft.by.trim();
    try {
      const [{ sayOnPage }, { wordIdOf }] = await Promise.all([
        import("./say-on-page.ts"),
        import("../../formats/word/word-id.ts"),
      ]);
      const said = {
        treeId,
        visitId: null,
        on: parseIsoDate(draft.on)!,
        by: lastBy,
        why: draft.why.trim(),
        ...content,
      };
      const word = { wordId: await wordIdOf(said), ...said, takenBack: null } as ArboristWord;
      const breaks = await sayOnPage(context, [{ file: "on the page", line: null, said: { type: "word", word } }]);
      context.tell(["Decided.", ...breaks, "It stands under Decisions, where it can be taken back."].join(" "));
      context.at.back();
      this.draft = freshDraft();
    } catch (error) {
      this.problem = `Nothing was decided. ${error instanceof Error ? error.message : String(error)}`;
    }
    this.isBusy = false;
  }
}

function freshDraft(): WordDraft {
  return {
    decision: "option",
    option: null,
    from: "",
    to: "",
    until: "",
    text: "",
    mayPrescribe: false,
    measure: "height",
    figure: "",
    by: lastBy,
    on: localDate(),
    why: "",
  };
}
