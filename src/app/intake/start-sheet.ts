import { css, html, LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import { askDesk } from "../keep/desk-controller.ts";
import type { KeptEntry } from "../keep/kept-work.ts";
import { sharedStyles } from "../shared-styles.ts";
import { LAYER_WORDS } from "../words.ts";
import { sketchStyles, streetSketch } from "./street-sketch.ts";
import "../keep/kept-plans.ts";

/** What each layer lets the plan say. */
const LAYERS_WANTED = [
  [
    "trees",
    "Points with species, stem diameter, height, crown base and spread. What is missing is estimated and says so.",
  ],
  ["buildings", "Outlines, with height or levels: how far branches stand from walls and roofs."],
  ["roads", "Centerlines or areas: headroom over lanes, and sight at corners."],
  ["paths", "Headroom over walks and bikeways."],
  ["signs", "Stop and yield signs: which corners need a clear view."],
  ["signals", "Traffic signals, shown on the map."],
  ["conductors", "Overhead lines: who may do the work."],
] as const;

/** The page before anything is loaded. Fires `files-choose`, `sample-wanted` and `desk-act`. */
@customElement("start-sheet")
export class StartSheet extends LitElement {
  static override styles = [
    sharedStyles,
    sketchStyles,
    css`
      main {
        max-width: 1020px;
        margin: 0 auto;
        padding: clamp(24px, 6vh, 72px) clamp(16px, 4vw, 40px) 40px;
      }
      .top {
        display: grid;
        grid-template-columns: minmax(0, 5fr) minmax(0, 6fr);
        gap: 24px 48px;
        align-items: end;
        padding-bottom: 28px;
        border-bottom: 1.5px solid var(--ink);
      }
      .brand {
        font-size: 15px;
        font-weight: 600;
      }
      h1 {
        margin: 10px 0 12px;
        font-size: clamp(26px, 3.4vw, 36px);
        font-weight: 600;
        line-height: 1.12;
        text-wrap: balance;
      }
      .lead {
        font-size: 16px;
        max-width: 44ch;
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: 10px;
        margin-top: 20px;
      }
      .actions .button {
        min-height: 42px;
        padding: 0 18px;
        font-size: 15px;
      }
      .below {
        display: grid;
        grid-template-columns: minmax(0, 5fr) minmax(0, 6fr);
        gap: 20px 48px;
        padding-top: 24px;
      }
      h2 {
        margin-bottom: 8px;
        font-size: 15px;
      }
      .below p + p {
        margin-top: 8px;
      }
      dl {
        display: grid;
        grid-template-columns: 164px minmax(0, 1fr);
      }
      dt,
      dd {
        padding: 7px 0;
        border-bottom: 1px solid var(--rule);
      }
      dt {
        padding-right: 16px;
        font-weight: 600;
      }
      .formats {
        padding-top: 8px;
      }
      dt .small {
        font-weight: 400;
      }
      @media (max-width: 720px) {
        .top,
        .below {
          grid-template-columns: minmax(0, 1fr);
        }
        dl {
          grid-template-columns: 120px minmax(0, 1fr);
        }
      }
    `,
  ];

  /** What is kept in this browser. */
  @property({ attribute: false }) entries: readonly KeptEntry[] = [];

  protected override render() {
    return html`<main>
      <div class="top">
        <div>
          <p class="brand">Boughline</p>
          <h1>Which trees to prune, how much, when and by whom</h1>
          <p class="lead">
            Drop your tree inventory anywhere on this page, with the buildings, roads, walks, signs and lines around it.
          </p>
          <div class="actions">
            <button type="button" class="button main" @click=${() => this.emit("files-choose")}>Choose files</button>
            <button type="button" class="button" @click=${() => this.emit("sample-wanted")}>Open the sample town</button>
            <button type="button" class="button" @click=${() => askDesk(this, { do: "open-folder" })}>Open a plan folder</button>
          </div>
          <kept-plans .entries=${this.entries}></kept-plans>
        </div>
        ${streetSketch}
      </div>
      <div class="below">
        <div>
          <h2>Before you rely on it</h2>
          <p>The files are read here, in this page. Nothing leaves this machine.</p>
          <p>
            Boughline plans; it never says that a place is safe. Local codes, the road authority and licensed or
            line-clearance arborists decide.
          </p>
        </div>
        <div>
          <h2>Layers it reads</h2>
          <dl>
            ${LAYERS_WANTED.map(
              ([layer, what]) =>
                html`<dt>${LAYER_WORDS[layer]}${layer === "trees" ? html`<span class="small"><br />needed</span>` : ""}</dt>
                  <dd>${what}</dd>`,
            )}
          </dl>
          <p class="formats small">GeoJSON, CSV, zipped Shapefile, GeoPackage, FlatGeobuf, GeoParquet.</p>
        </div>
      </div>
    </main>`;
  }

  override focus() {
    this.renderRoot.querySelector<HTMLElement>(".actions button")?.focus();
  }

  private emit(name: string) {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }
}
