import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { TreesOnDate } from "../../core/schedule/outlook.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { type DisplayUnits, formatLength } from "../../core/units/format-length.ts";
import type { IndexedTree } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { itemInBrief } from "../sheet/item-in-brief.ts";
import { nextWork } from "../tree-filter.ts";
import { counted, readableHours, WORDS } from "../words.ts";
import { WORLD_WORDS } from "./world-words.ts";

/** Over a tree's card: how the tree stands on the date that is shown, since the card itself tells of the plan's own. */
@customElement("tree-then")
export class TreeThen extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      section {
        margin-bottom: 14px;
        padding: 9px 12px 10px;
        border: 1px solid var(--edge);
        border-left: 5px solid var(--ink);
        background: var(--paper-2);
      }
      h2 {
        display: flex;
        font-size: 15px;
        flex-wrap: wrap;
        gap: 2px 8px;
        align-items: center;
      }
      .swatch {
        border-radius: 0;
      }
      p {
        margin-top: 4px;
      }
    `,
  ];

  @property({ attribute: false }) entry: IndexedTree | null = null;
  @property({ attribute: false }) dated: TreesOnDate | null = null;
  @property() units: DisplayUnits = "us";

  protected override render() {
    const { entry, dated } = this;
    if (entry === null || dated === null) return nothing;
    const { asOf } = dated.outlook;
    return html`<section aria-label="On ${formatDate(dated.date)}">
      <h2>
        <span class="swatch ${entry.urgency}"></span>On ${formatDate(dated.date)}:
        ${entry.overdue ? "overdue" : WORDS.urgency[entry.urgency]}
      </h2>
      <p>${WORLD_WORDS[dated.world]}. ${this.doneSentence(dated)} ${this.nextSentence(entry)}</p>
      <p class="small">${this.crownSentence(entry, dated)} Below, the tree as of ${formatDate(asOf)}.</p>
    </section>`;
  }

  private doneSentence(dated: TreesOnDate): string {
    const { done } = dated.treeOn(this.entry!.tree.row);
    const last = done.at(-1);
    return last === undefined
      ? "No visit done."
      : `${counted(done.length, "visit")} done, the last due ${formatDate(last.on)}.`;
  }

  private nextSentence(entry: IndexedTree): string {
    const next = nextWork(entry);
    if (next === undefined) return "No visit ahead.";
    const brief = itemInBrief(entry, next, this.units);
    return `Next, due ${formatDate(next.due)}: ${brief}; ${WORDS.crew[next.crew]}, ${readableHours(next.hours)}.`;
  }

  /** The crown as forecast, beside what it is today. */
  private crownSentence({ tree }: IndexedTree, dated: TreesOnDate): string {
    const { heightM, crownBaseM, radii } = dated.crownOn(tree.row);
    const meanM = (radii.northM + radii.eastM + radii.southM + radii.westM) / 4;
    const length = (valueM: number) => formatLength(valueM, this.units);
    return `Forecast crown: about ${length(heightM)} high, from ${length(crownBaseM)} up, ${length(2 * meanM)} across.`;
  }
}
