import { html, LitElement, nothing, type TemplateResult } from "lit";
import { drawPlanInset } from "../../core/crown/plan-inset.ts";
import { drawSection } from "../../core/crown/section-drawing.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import { defineOnce } from "../define-once.ts";
import { markShape } from "../symbols/mark-shape.ts";
import { symbolPicture } from "../symbols/symbol-picture.ts";
import type { ThemeName } from "../tokens.ts";
import { type PartialWords, type Words, wordsWith } from "../words.ts";
import { themeStyles, treeCardStyles } from "./card-styles.ts";
import { cutsOfTree } from "./cuts-of-tree.ts";
import { cutsPart } from "./cuts-part.ts";
import { drawingElement } from "./drawing-element.ts";
import { sectionSubject } from "./section-subject.ts";
import { type ConflictLine, type TreeCardModel, treeCardModel, type VisitLine } from "./tree-card-model.ts";

/** Paper that the drawings are laid out on; on a card 350 pixels wide their writing then comes out at 11 to 12 pixels. */
const SECTION_MM = { widthMm: 64, heightMm: 50 };
const PLAN_MM = 21;

/** `<boughline-tree-card>`: everything a plan says of one tree, with its section drawing. */
export class TreeCard extends LitElement {
  static override readonly styles = [themeStyles, treeCardStyles];
  static override readonly properties = {
    opened: { attribute: false },
    treeId: { attribute: "tree-id" },
    units: {},
    theme: { reflect: true },
    words: { attribute: false },
    shownColumns: { attribute: false },
    hasColumnChoice: { type: Boolean, attribute: "column-choice" },
    isCutGuideOpen: { state: true },
  };

  declare opened: OpenedPlan | null;
  declare treeId: string | null;
  /** Default: the plan's own. */
  declare units: DisplayUnits | undefined;
  declare theme: ThemeName;
  declare words: PartialWords | undefined;
  /** Columns of the inventory to show although they feed no field. Default: none. */
  declare shownColumns: readonly string[];
  /** Whether the reader may choose such columns; fires `columns-choose` (detail: the names). Default: no. */
  declare hasColumnChoice: boolean;
  /** Stays as it is when another tree is shown, so that a reader going from tree to tree keeps the drawings. */
  declare isCutGuideOpen: boolean;

  constructor() {
    super();
    this.opened = null;
    this.treeId = null;
    this.theme = "light";
    this.shownColumns = [];
    this.hasColumnChoice = false;
    this.isCutGuideOpen = false;
  }

  override render(): TemplateResult {
    const words = wordsWith(this.words);
    const { opened, treeId } = this;
    const units = this.units ?? opened?.plan.options.units ?? "metric";
    const card =
      opened === null || treeId === null
        ? null
        : treeCardModel(opened, treeId, units, words, new Set(this.shownColumns));
    if (opened === null || treeId === null || card === null) {
      return html`<div class="root"><p class="quiet">${words.card.noTree}</p></div>`;
    }
    return html`<article class="root" aria-label="${words.selectedTree} ${card.treeId}">
      <div class="lead">${heading(card, words)} ${this.#section(opened, treeId, units, words)}</div>
      <div class="rest">
        ${this.#conflicts(opened, treeId, units, card, words)} ${optionsPart(card, words)} ${visitsPart(card, words)}
        ${cutsPart(
          cutsOfTree(opened, treeId, units),
          this.isCutGuideOpen,
          (isOpen) => {
            this.isCutGuideOpen = isOpen;
          },
          words,
        )}
        ${sizesPart(card, words)} ${notKnownPart(card, words)} ${this.#columns(card, words)}
      </div>
    </article>`;
  }

  #columns(card: TreeCardModel, words: Words): TemplateResult | typeof nothing {
    const { shown, unmapped } = card.columns;
    const isChoosing = this.hasColumnChoice && unmapped.length > 0;
    if (shown.length === 0 && !isChoosing) return nothing;
    const choose = (name: string, isShown: boolean) => {
      const others = this.shownColumns.filter((one) => one !== name);
      const detail = isShown ? [...others, name] : others;
      this.dispatchEvent(new CustomEvent("columns-choose", { detail, bubbles: true, composed: true }));
    };
    return columnsPart(
      shown,
      words,
      isChoosing ? columnChoice(unmapped, new Set(this.shownColumns), words, choose) : nothing,
    );
  }

  #section(opened: OpenedPlan, treeId: string, units: DisplayUnits, words: Words): TemplateResult | typeof nothing {
    const subject = sectionSubject(opened, treeId);
    if (subject === null) return nothing;
    const section = drawSection(subject, { units, ...SECTION_MM });
    return html`<figure class="section">${drawingElement(section, "section", words.card.section)}</figure>`;
  }

  #conflicts(
    opened: OpenedPlan,
    treeId: string,
    units: DisplayUnits,
    card: TreeCardModel,
    words: Words,
  ): TemplateResult {
    const subject = sectionSubject(opened, treeId);
    const plan =
      subject?.conflict == null
        ? nothing
        : html`<figure class="plan">
            ${drawingElement(drawPlanInset(subject, { units, sizeMm: PLAN_MM }), "plan", words.card.plan)}
          </figure>`;
    return html`<section>
      <h3>${words.card.conflicts}</h3>
      ${
        card.conflicts.length === 0
          ? html`<p class="quiet">${words.card.noConflicts}</p>`
          : html`<div class="conflicts">${plan}<ul>${card.conflicts.map(conflictLine)}</ul></div>`
      }
    </section>`;
  }
}

function conflictLine(conflict: ConflictLine): TemplateResult {
  return html`<li class="conflict">
    <p><span class="strong">${conflict.what}</span> <span class="small quiet">${conflict.certainty}</span></p>
    <p>${conflict.figures}</p>
    ${conflict.notes.length === 0 ? nothing : html`<p class="small quiet">${conflict.notes.join(" ")}</p>`}
  </li>`;
}

function heading(card: TreeCardModel, words: Words): TemplateResult {
  const tone = card.urgency === "clear" ? "none" : `var(--boughline-urgency-${card.urgency})`;
  const colors = { tone, ink: "var(--boughline-ink)", ground: "var(--boughline-paper)" };
  return html`<header>
      ${symbolPicture(markShape(card.remedy), colors, card.certainty, markShape(card.remedy).turns ? card.bearingDeg : 0)}
      <h2>${card.title}${card.title === card.treeId ? nothing : html` <span class="quiet">${card.treeId}</span>`}</h2>
      <p class="under small quiet">${card.species === null ? nothing : html`<i>${card.species}</i>`}${card.species !== null && card.place !== null ? " · " : nothing}${card.place}</p>
    </header>
    <p class="when">
      <span class="strong"><span class="tone" .style=${`background:${tone}`}></span>${words.urgency[card.urgency]}</span>
      <span>${words.remedy[card.remedy]}</span>
      <span>${card.due}${card.overdue ? html`, <span class="strong">${words.card.overdue}</span>` : nothing}</span>
    </p>
    <p class="why">${card.why}</p>
    ${card.refer === null ? nothing : html`<p class="refer"><span class="strong">${words.card.referred}</span> ${card.refer}</p>`}`;
}

function sizesPart(card: TreeCardModel, words: Words): TemplateResult {
  return html`<section class="sizes">
    <h3>${words.card.figures}</h3>
    <table>
      <tbody>
        ${card.figures.map(
          (figure) => html`<tr>
            <th scope="row">${figure.name}</th>
            <td>${figure.text}${figure.interval === "" ? nothing : html` <span class="small quiet">${figure.interval}</span>`}</td>
            <td class="small quiet">${figure.basis}${figure.source === "" ? nothing : html`, ${figure.source}`}</td>
          </tr>`,
        )}
      </tbody>
    </table>
  </section>`;
}

function optionsPart(card: TreeCardModel, words: Words): TemplateResult | typeof nothing {
  if (card.options.length === 0) return nothing;
  return html`<section class="options">
    <h3>${words.card.options}</h3>
    <table>
      <thead>
        <tr>
          <th scope="col">${words.card.way}</th>
          <th scope="col">${words.card.takes}</th>
          <th scope="col">${words.card.lasts}</th>
          <th scope="col">${words.card.limbs}</th>
        </tr>
      </thead>
      <tbody>
        ${card.options.map(
          (option) => html`<tr class=${option.isPrescribed ? "prescribed" : ""}>
              <th scope="row">${option.way}${option.isPrescribed ? html`<br /><span class="small">${words.card.prescribed}</span>` : nothing}</th>
              <td class="number">${option.takes}</td>
              <td class="number">${option.lasts}</td>
              <td class="number">${option.limbs}</td>
            </tr>
            ${
              option.tradeOff === ""
                ? nothing
                : html`<tr class="note"><td colspan="4" class="small quiet">${words.card.tradeOff} ${option.tradeOff}</td></tr>`
            }
            ${
              option.ruledOutBy === null
                ? nothing
                : html`<tr class="note"><td colspan="4" class="small quiet">${words.card.ruledOut} ${option.ruledOutBy}</td></tr>`
            }`,
        )}
      </tbody>
    </table>
    ${card.doseLimit === null ? nothing : html`<p class="small quiet">${card.doseLimit}</p>`}
  </section>`;
}

function visitsPart(card: TreeCardModel, words: Words): TemplateResult | typeof nothing {
  if (card.visits.length === 0 && card.cautions.length === 0) return nothing;
  const line = (visit: VisitLine, index: number) => html`<li class="visit">
    <p><span class="strong">${words.card.visit} ${index + 1}</span> ${visit.when}</p>
    <p class="small">${visit.facts}</p>
    ${visit.reason === "" ? nothing : html`<p class="small quiet">${visit.reason}</p>`}
    ${visit.tasks.map(
      (task) => html`<div class="task">
        <p><span class="strong">${task.what}.</span> ${task.cause}</p>
        <p class="small"><span class="quiet">${words.card.where}:</span> ${task.where}</p>
        <p class="small"><span class="quiet">${words.card.howToCut}:</span> ${task.how}</p>
      </div>`,
    )}
    ${visit.openAfter.length === 0 ? nothing : html`<p class="small">${words.card.openAfter} ${visit.openAfter.join(" ")}</p>`}
  </li>`;
  return html`<section>
    <h3>${card.visits.length === 0 ? words.card.cautions : words.card.visits}</h3>
    <ol>${card.visits.map(line)}</ol>
    ${
      card.cautions.length === 0
        ? nothing
        : html`<ul class="cautions small" aria-label=${words.card.cautions}>${card.cautions.map((caution) => html`<li>${caution}</li>`)}</ul>`
    }
  </section>`;
}

function notKnownPart(card: TreeCardModel, words: Words): TemplateResult | typeof nothing {
  if (card.notKnown.length === 0) return nothing;
  return html`<section>
    <h3>${words.card.notKnown}</h3>
    ${card.notKnown.map((line) => html`<p>${line}</p>`)}
  </section>`;
}

function columnsPart(
  shown: TreeCardModel["columns"]["shown"],
  words: Words,
  choice: TemplateResult | typeof nothing,
): TemplateResult {
  return html`<section>
    <details>
      <summary>${words.card.columns} (${shown.length})</summary>
      <dl class="small">${shown.map(([name, value]) => html`<dt class="quiet">${name}</dt><dd>${value}</dd>`)}</dl>
      ${choice}
    </details>
  </section>`;
}

/** Names of columns that feed no field, without their values until they are chosen. */
function columnChoice(
  names: readonly string[],
  chosen: ReadonlySet<string>,
  words: Words,
  choose: (name: string, isShown: boolean) => void,
): TemplateResult {
  return html`<fieldset class="small">
    <legend>${words.card.otherColumns}</legend>
    <p class="quiet">${words.card.otherColumnsNote}</p>
    ${names.map(
      (name) => html`<label>
        <input
          type="checkbox"
          .checked=${chosen.has(name)}
          @change=${(event: Event) => choose(name, (event.target as HTMLInputElement).checked)}
        />
        ${name}
      </label>`,
    )}
  </fieldset>`;
}

defineOnce("boughline-tree-card", TreeCard);
