import { css, html, svg, type TemplateResult } from "lit";
import type { Layer } from "../../core/model/terms.ts";

const PARTS: readonly (readonly [Layer, TemplateResult])[] = [
  ["buildings", svg`<path d="M236 94 V42 L266 24 L296 42 V94 Z M246 56 h12 v14 h-12 z M274 56 h12 v14 h-12 z" />`],
  ["paths", svg`<path d="M172 94 H230 M180 97.5 h6 M196 97.5 h6 M212 97.5 h6" />`],
  ["roads", svg`<path d="M22 99 H166 V94 H172 M66 96.5 h12 M92 96.5 h12 M118 96.5 h12" />`],
  ["conductors", svg`<path d="M22 14 V99 M12 20 H32 M13 20 q75 16 150 4 M31 20 q75 16 150 4" />`],
  ["signals", svg`<path d="M44 94 V46 H70 M66 46 v4 h8 v20 h-8 v-20 M70 55 h.01 M70 65 h.01" />`],
  ["signs", svg`<path d="M148 94 V62 M142.5 47 h11 l6 6 v8 l-6 6 h-11 l-6 -6 v-8 z" />`],
  [
    "trees",
    svg`<path d="M197 94 L199 52 H203 L206 94" /><path d="M201 66 C178 66 172 50 181 42 C178 28 194 20 204 26 C218 22 228 34 222 44 C230 56 218 66 201 66 Z" />`,
  ],
];

/**
 * A street in section with what each layer stands for: in ink where files give it, dashed where none does, heavy where it is open. Decoration
 * beside a list that says the same.
 */
export function layersSection(given: ReadonlySet<Layer>, open: Layer | null): TemplateResult {
  return html`<svg class="layers" viewBox="0 0 316 108" aria-hidden="true">
    ${PARTS.map(
      ([layer, shape]) =>
        svg`<g class="${given.has(layer) ? "given" : "missing"} ${layer === open ? "open" : ""} ${layer}">${shape}</g>`,
    )}
  </svg>`;
}

export const layersSectionStyles = css`
  .layers {
    display: block;
    width: 100%;
    height: auto;
  }
  .layers path {
    fill: var(--paper);
    stroke: var(--ink);
    stroke-width: 1.3;
    stroke-linejoin: round;
    stroke-linecap: round;
  }
  .layers .roads path,
  .layers .paths path,
  .layers .conductors path {
    fill: none;
  }
  .layers .trees.given path {
    fill: var(--boughline-vegetation-fill);
  }
  .layers .missing path {
    fill: none;
    stroke: var(--ink-2);
    stroke-width: 1;
    stroke-dasharray: 2.5 3;
  }
  .layers .open path {
    stroke-width: 2.4;
  }
`;
