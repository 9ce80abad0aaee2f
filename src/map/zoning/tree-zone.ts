import { css, html, LitElement, nothing } from "lit";
import { property } from "lit/decorators.js";
import { live } from "lit/directives/live.js";
import type { Zone } from "../../core/model/zone.ts";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { MarkedTree } from "../symbols/tree-mark.ts";
import { DEFAULT_WORDS as WORDS } from "../words.ts";
import { controlStyles } from "./control-styles.ts";

/** A tree with the zone it is in. */
export interface ZonedTree extends MarkedTree {
  readonly zone: Zone | null;
}

/** The zone a tree's next visit is worked in, to be chosen. Fires `zone-edit` (detail: a ZoneEdit). */
export class TreeZone extends LitElement {
  static override styles = [
    controlStyles,
    css`
      label {
        display: flex;
        gap: 10px;
        align-items: center;
        padding-bottom: 12px;
      }
      span {
        flex: none;
        color: var(--ink-2);
      }
      select {
        flex: 0 1 auto;
        min-width: 0;
      }
    `,
  ];

  @property({ attribute: false }) entry: ZonedTree | null = null;
  @property({ attribute: false }) zones: readonly Zone[] = [];

  protected override render() {
    const { entry } = this;
    if (entry === null || entry.prescription.visits.length === 0) return nothing;
    const inZone = entry.zone?.zoneId ?? "";
    return html`<label>
      <span>Work zone</span>
      <select @change=${(event: Event) => this.choose(entry, event)}>
        <option value="" .selected=${live(inZone === "")}>None</option>
        <option value="new">A new zone for this tree</option>
        ${this.zones.map(
          ({ zoneId, name, crew }) =>
            html`<option value=${zoneId} .selected=${live(zoneId === inZone)}>${name} (${WORDS.crew[crew]})</option>`,
        )}
      </select>
    </label>`;
  }

  private choose({ tree, zone }: ZonedTree, event: Event) {
    const select = event.target as HTMLSelectElement;
    const { value } = select;
    // What is refused must not stay on the screen as if it had been done.
    select.value = zone?.zoneId ?? "";
    const trees = { treeIds: [tree.id] };
    // The reader sees which zone the tree leaves, so that needs no second question.
    const allow = ["take-from-others"] as const;
    if (value === "") this.edit({ kind: "drop", ...trees });
    else if (value === "new") this.edit({ kind: "make", trees, allow });
    else this.edit({ kind: "add", zoneId: value, trees, allow });
  }

  private edit(edit: ZoneEdit) {
    this.dispatchEvent(new CustomEvent("zone-edit", { detail: edit, bubbles: true, composed: true }));
  }
}
