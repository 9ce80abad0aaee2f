import { css, html, LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Zone } from "../../core/model/zone.ts";
import { sharedStyles } from "../shared-styles.ts";
import { DUE_CHOICES, type DueChoice, NO_FILTER, type TreeFilter } from "../tree-filter.ts";
import { readableCount } from "../words.ts";
import { type FilterCounts, NO_COUNTS } from "./count-trees.ts";

const DUE_WORDS: Readonly<Record<DueChoice, string>> = {
  overdue: "Overdue",
  30: "Within 30 days",
  90: "Within 90 days",
  365: "Within a year",
};

/** The sides of the filter that have one value of many: street, species, zone, owner and when the next work is due. Fires `filter-change` (detail: TreeFilter). */
@customElement("filter-selects")
export class FilterSelects extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        display: grid;
        grid-template-columns: repeat(2, minmax(0, 1fr));
        gap: 8px 12px;
        margin-top: 8px;
      }
      label {
        display: block;
        font-size: 13px;
        color: var(--ink-2);
      }
      select {
        display: block;
        width: 100%;
        margin-top: 2px;
        color: var(--ink);
        text-overflow: ellipsis;
      }
      select.chosen {
        border-width: 2px;
        padding: 0 7px;
      }
    `,
  ];

  @property({ attribute: false }) filter: TreeFilter = NO_FILTER;
  @property({ attribute: false }) counts: FilterCounts = NO_COUNTS;
  @property({ attribute: false }) zones: readonly Zone[] = [];

  protected override render() {
    const { filter, counts } = this;
    const due = filter.due === null ? null : String(filter.due);
    const dues = DUE_CHOICES.map((choice): Choice => [String(choice), DUE_WORDS[choice]]);
    return html`
      ${this.choice("Street", "All streets", counted(counts.streets), filter.street, (street) => ({ street }))}
      ${this.choice("Species", "All species", counted(counts.species), filter.species, (species) => ({ species }))}
      ${this.choice("Next work", "Any date", dues, due, (value) => ({ due: dueOf(value) }))}
      ${
        this.zones.length === 0
          ? null
          : this.choice(
              "Work zone",
              "In any zone or none",
              this.zones.map(({ zoneId, name }): Choice => [zoneId, name]),
              filter.zoneId,
              (zoneId) => ({ zoneId }),
            )
      }
      ${
        counts.owners.size < 2
          ? null
          : this.choice("Owner", "All owners", counted(counts.owners), filter.owner ?? null, (owner) => ({ owner }))
      }
      ${
        counts.isProtected === 0
          ? null
          : this.choice(
              "Protected",
              "Protected or not",
              [["yes", `Protected (${readableCount(counts.isProtected)})`]],
              filter.protectedOnly === true ? "yes" : null,
              (value) => ({ protectedOnly: value !== null }),
            )
      }
    `;
  }

  private choice(
    label: string,
    all: string,
    choices: readonly Choice[],
    chosen: string | null,
    side: (value: string | null) => Partial<TreeFilter>,
  ) {
    const onChange = (event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      const detail = { ...this.filter, ...side(value === "" ? null : value) };
      this.dispatchEvent(new CustomEvent("filter-change", { detail, bubbles: true, composed: true }));
    };
    const id = label.toLowerCase().replace(" ", "-");
    return html`<div>
      <label for=${id}>${label}</label>
      <select id=${id} class=${chosen === null ? "" : "chosen"} @change=${onChange}>
        <option value="" ?selected=${chosen === null}>${all}</option>
        ${choices.map(([value, word]) => html`<option value=${value} ?selected=${value === chosen}>${word}</option>`)}
      </select>
    </div>`;
  }
}

type Choice = readonly [value: string, word: string];

const NAMES = new Intl.Collator("en", { numeric: true });

/** Names in their order with how many trees have each. */
const counted = (counts: ReadonlyMap<string, number>): Choice[] =>
  [...counts]
    .sort(([one], [other]) => NAMES.compare(one, other))
    .map(([name, trees]) => [name, `${name} (${readableCount(trees)})`]);

const dueOf = (value: string | null): DueChoice | null =>
  DUE_CHOICES.find((choice) => String(choice) === value) ?? null;
