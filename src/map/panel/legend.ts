import { css, html, LitElement, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { CERTAINTIES, REMEDIES, URGENCIES, ZONE_STATES, type ZoneState } from "../../core/model/terms.ts";
import { themeStyles } from "../card/card-styles.ts";
import { defineOnce } from "../define-once.ts";
import { CLEAR_SHAPE } from "../symbols/mark-images.ts";
import { markShape, PLAIN_DISC } from "../symbols/mark-shape.ts";
import { symbolPicture } from "../symbols/symbol-picture.ts";
import { type ThemeName, TOKENS } from "../tokens.ts";
import { type PartialWords, wordsWith } from "../words.ts";

const INK = "var(--boughline-ink)";
const GROUND = "var(--boughline-paper)";
/** The tone that shapes and certainties are shown in, where the tone itself says nothing. */
const SAMPLE_TONE = "var(--boughline-urgency-this-cycle)";
const SAMPLE = { tone: SAMPLE_TONE, ink: INK, ground: GROUND };

/** `<boughline-legend>`: the map's marks with their words, drawn from the same outlines and tones as on the map. */
export class Legend extends LitElement {
  static override readonly styles = [
    themeStyles,
    css`
      .groups {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(132px, 1fr));
        gap: 12px 16px;
      }
      h2 {
        margin-bottom: 2px;
        color: var(--boughline-quiet);
        font-size: var(--boughline-text-small);
        font-weight: 400;
      }
      li {
        display: flex;
        gap: 7px;
        align-items: center;
        min-height: 24px;
        line-height: 1.2;
      }
      svg {
        flex: none;
        width: 22px;
        height: 22px;
      }
      p {
        margin-top: 12px;
      }
    `,
  ];
  static override readonly properties = { theme: { reflect: true }, words: { attribute: false } };

  declare theme: ThemeName;
  declare words: PartialWords | undefined;

  constructor() {
    super();
    this.theme = "light";
  }

  override render(): TemplateResult {
    const words = wordsWith(this.words);
    const { legend } = words;
    const group = (title: string, items: readonly (readonly [SVGTemplateResult, string])[]) =>
      html`<div><h2>${title}</h2><ul>${items.map(([picture, text]) => html`<li>${picture}<span>${text}</span></li>`)}</ul></div>`;
    return html`<div class="root">
      <div class="groups">
        ${group(legend.how, [
          ...URGENCIES.map(
            (urgency) =>
              [
                urgency === "clear"
                  ? symbolPicture(
                      CLEAR_SHAPE,
                      { tone: "var(--boughline-quiet)", ink: "none", ground: GROUND },
                      "confirmed",
                    )
                  : symbolPicture(
                      PLAIN_DISC,
                      { tone: `var(--boughline-urgency-${urgency})`, ink: INK, ground: GROUND },
                      "confirmed",
                    ),
                words.urgency[urgency],
              ] as const,
          ),
          [dotPicture(), legend.nothingFound] as const,
        ])}
        ${group(
          legend.what,
          REMEDIES.map((remedy) => [
            symbolPicture(markShape(remedy), SAMPLE, "confirmed", markShape(remedy).turns ? 45 : 0),
            words.remedy[remedy],
          ]),
        )}
        ${group(
          legend.howSure,
          CERTAINTIES.map((certainty) => [symbolPicture(PLAIN_DISC, SAMPLE, certainty), words.certainty[certainty]]),
        )}
        ${group(
          legend.zones,
          ZONE_STATES.map((state) => [zonePicture(state), words.zoneState[state]]),
        )}
        ${group(legend.around, [
          [crownPicture(false), legend.crown],
          [crownPicture(true), legend.encroachment],
          [linePicture("none"), legend.conductor],
          [linePicture("4 2"), legend.sight],
          [blindPicture(), legend.blind],
        ])}
      </div>
      <p class="small quiet">${legend.caution}</p>
    </div>`;
  }
}

const dotPicture = (): SVGTemplateResult => svg`<svg viewBox="0 0 22 22" aria-hidden="true">
    <circle cx="11" cy="11" r="2.2" fill="var(--boughline-vegetation-dot)"></circle>
  </svg>`;

function zonePicture(state: ZoneState): SVGTemplateResult {
  const lines = {
    draft: "M6 8h.01M11 8h.01M16 8h.01M8.5 13h.01M13.5 13h.01",
    issued: "M3 12L9 6M6 16L16 6M13 16L19 10",
    "under-way": "M3 12L9 6M6 16L16 6M13 16L19 10M3 10L9 16M6 6L16 16M13 6L19 12",
    done: "",
  }[state];
  return svg`<svg viewBox="0 0 22 22" aria-hidden="true">
    <path d=${lines} fill="none" stroke=${INK} stroke-width=${state === "draft" ? 1.8 : 0.8} stroke-linecap="round" opacity="0.6"></path>
    <rect x="2.5" y="5.5" width="17" height="11" rx="2.5" fill="none" stroke=${INK} stroke-width="1.3"></rect>
    ${state === "done" ? svg`<path d="M2.5 5.5h6l-6 6z" fill=${INK}></path>` : ""}
  </svg>`;
}

const crownPicture = (encroaches: boolean): SVGTemplateResult => svg`<svg viewBox="0 0 22 22" aria-hidden="true">
    <circle cx="11" cy="11" r="8.5" fill="var(--boughline-vegetation-fill)" fill-opacity="0.6" stroke=${INK} stroke-width=${TOKENS.line.crownPx}></circle>
    ${encroaches ? svg`<path d="M3.6 15.2A8.5 8.5 0 0 0 18.4 15.2Z" fill=${SAMPLE_TONE} stroke=${INK} stroke-width=${TOKENS.line.crownPx}></path>` : svg`<circle cx="11" cy="11" r="1.3" fill="var(--boughline-vegetation-trunk)"></circle>`}
  </svg>`;

const blindPicture = (): SVGTemplateResult => svg`<svg viewBox="0 0 22 22" aria-hidden="true">
    <path d="M2 17L20 3V13L11 17.5Z" fill="var(--boughline-sight-blind)" fill-opacity="0.45"></path>
  </svg>`;

const linePicture = (dash: string): SVGTemplateResult => svg`<svg viewBox="0 0 22 22" aria-hidden="true">
    <path d="M1 14C7 16 14 14 21 9" fill="none" stroke=${dash === "none" ? "var(--boughline-surroundings-conductor)" : "var(--boughline-sight-edge)"} stroke-width="1.4" stroke-dasharray=${dash}></path>
  </svg>`;

defineOnce("boughline-legend", Legend);
