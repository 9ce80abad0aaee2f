import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { repeat } from "lit/directives/repeat.js";
import type { Layer } from "../../core/model/terms.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { FindingGroup, IntakeReport } from "../../worker/intake/intake-messages.ts";
import { sharedStyles } from "../shared-styles.ts";
import { LAYER_WORDS } from "../words.ts";
import { countsOf, countsText } from "./count-bar.ts";
import { findingGroups, findingGroupsStyles } from "./finding-groups.ts";
import type { IntakeFile } from "./intake.ts";
import { middleTree, middleTreeOf, middleTreeStyles } from "./middle-tree.ts";
import "./column-table.ts";
import "./source-card.ts";

/**
 * One layer of an intake: its files, its columns, what would be set aside. A null layer shows the files that are left out. Passes on the events of
 * `source-card` as `file-change` and `file-remove` with the file's key, and fires `field-choice`, `choices-reset`, `map-save`, `map-load`.
 */
@customElement("layer-pane")
export class LayerPane extends LitElement {
  static override styles = [
    sharedStyles,
    findingGroupsStyles,
    middleTreeStyles,
    css`
      .head {
        display: flex;
        flex-wrap: wrap;
        gap: 2px 16px;
        align-items: baseline;
      }
      .head h2 {
        font-size: 22px;
      }
      .top {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 8px 40px;
        align-items: start;
      }
      .top.drawn {
        grid-template-columns: minmax(0, 1fr) 300px;
      }
      section {
        margin-top: 26px;
      }
      .over {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 18px;
        align-items: baseline;
        margin-bottom: 6px;
      }
      .over h3 {
        font-size: 16px;
      }
      .over p {
        flex: 1 1 260px;
      }
      @media (max-width: 680px) {
        .top.drawn {
          grid-template-columns: minmax(0, 1fr);
        }
        .middle-tree {
          max-width: 320px;
        }
      }
    `,
  ];

  @property() layer: Layer | null = null;
  @property({ attribute: false }) files: readonly IntakeFile[] = [];
  @property({ attribute: false }) report: IntakeReport | null = null;
  @property() units: DisplayUnits = "us";
  /** Name of the column map that was loaded; null without one. */
  @property({ attribute: false }) mapName: string | null = null;
  /** Whether the person chose anything in this layer. */
  @property({ type: Boolean }) isChanged = false;

  protected override render() {
    const { layer, report } = this;
    const keys = new Set(this.files.map(({ key }) => key));
    const sources = report?.sources.filter(({ key }) => keys.has(key)) ?? [];
    const rows = report?.layers.find((one) => one.layer === layer)?.rows ?? [];
    const tree = layer === "trees" ? middleTreeOf(rows) : null;
    const counts = countsOf(sources);
    return html`<div class="head">
        <h2>${layer === null ? "Left out" : LAYER_WORDS[layer]}</h2>
        ${counts.read === 0 || this.files.length < 2 ? nothing : html`<p>${countsText(counts)}.</p>`}
      </div>
      <div class="top ${tree === null ? "" : "drawn"}">
        <div>
          ${repeat(
            this.files,
            ({ key }) => key,
            (file) => html`<source-card
              .file=${file}
              .report=${report?.sources.find(({ key }) => key === file.key) ?? null}
              @file-change=${(event: CustomEvent<Partial<IntakeFile>>) => this.emit("file-change", { key: file.key, part: event.detail })}
              @file-remove=${() => this.emit("file-remove", file.key)}
            ></source-card>`,
          )}
        </div>
        ${tree === null ? nothing : middleTree(tree, this.units)}
      </div>
      ${layer === null ? nothing : this.columns(layer)} ${
        layer === null
          ? nothing
          : this.findings(
              layer,
              sources.flatMap(({ reasons }) => reasons),
              sources.flatMap(({ notes }) => notes),
            )
      }`;
  }

  private columns(layer: Layer) {
    const report = this.report?.layers.find((one) => one.layer === layer);
    if (report === undefined || report.rows.length + report.unused.length === 0) return nothing;
    return html`<section>
      <div class="over">
        <h3>Which column is what</h3>
        <p class="small">
          ${this.mapName === null ? "Guessed from names and values. Check the units above all." : `As ${this.mapName} says.`}
        </p>
        ${this.isChanged ? html`<button type="button" class="word" @click=${() => this.emit("choices-reset", layer)}>Undo my choices</button>` : nothing}
        <button type="button" class="word" @click=${() => this.emit("map-load", null)}>Load a column map</button>
        <button type="button" class="word" @click=${() => this.emit("map-save", null)}>Save the column map</button>
      </div>
      <column-table
        .report=${report}
        @field-choice=${(event: CustomEvent<unknown>) => this.emit("field-choice", event.detail)}
      ></column-table>
    </section>`;
  }

  private findings(layer: Layer, reasons: readonly FindingGroup[], notes: readonly FindingGroup[]) {
    const doubts = this.report?.layers.find((one) => one.layer === layer)?.doubts ?? [];
    const told = [...notes, ...doubts];
    const pressing = told.filter(({ severity }) => severity !== "info");
    const worthKnowing = told.filter(({ severity }) => severity === "info");
    return html`${
      reasons.length === 0
        ? nothing
        : html`<section>
              <div class="over">
                <h3>Will be set aside</h3>
                <p class="small">Kept as they are in set-aside.geojson; not planned with.</p>
              </div>
              ${findingGroups(reasons, "Set aside")}
            </section>`
    }
      ${
        pressing.length === 0
          ? nothing
          : html`<section>
              <div class="over"><h3>Used, with doubt</h3></div>
              ${findingGroups(pressing, "Doubt")}
            </section>`
      }
      ${
        worthKnowing.length === 0
          ? nothing
          : html`<section>
              <details>
                <summary>Worth knowing (${worthKnowing.length})</summary>
                ${findingGroups(worthKnowing, "Note")}
              </details>
            </section>`
      }`;
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
