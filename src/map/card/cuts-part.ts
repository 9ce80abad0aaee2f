import { html, nothing, type TemplateResult } from "lit";
import type { Words } from "../words.ts";
import type { CutsOfTree } from "./cuts-of-tree.ts";
import { drawingElement } from "./drawing-element.ts";

/** The folded part of a card that shows how the tree is cut; its drawings are made when it is opened. */
export function cutsPart(
  cuts: CutsOfTree | null,
  isOpen: boolean,
  onToggle: (isOpen: boolean) => void,
  words: Words,
): TemplateResult | typeof nothing {
  if (cuts === null) return nothing;
  const toggle = (event: Event) => onToggle((event.currentTarget as HTMLDetailsElement).open);
  const list = (title: string, lines: readonly string[]) =>
    lines.length === 0
      ? nothing
      : html`<h4>${title}</h4>
          <ul class="rules small">${lines.map((line) => html`<li>${line}</li>`)}</ul>`;
  return html`<section class="cuts">
    <details ?open=${isOpen} @toggle=${toggle}>
      <summary>${words.card.cutGuide}</summary>
      ${
        isOpen
          ? html`${cuts.figures.map(
              ({ title, drawing }, at) => html`<figure class="cut">
                <figcaption>${title}</figcaption>
                ${drawingElement(drawing, `cut-${at}`, title)}
              </figure>`,
            )}
            ${list(words.card.cutSteps, cuts.steps)} ${list(words.card.cutDoNot, cuts.doNot)}
            ${list(words.card.cutTools, cuts.tools)}
            <p class="small quiet">${words.card.cutNote}</p>`
          : nothing
      }
    </details>
  </section>`;
}
