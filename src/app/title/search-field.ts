import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { PlanIndex } from "../plan-index.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted } from "../words.ts";
import { findMatches, type Match } from "./find-matches.ts";

/**
 * The field that finds a tree, a species or a street. Fires `search-tree` (detail: tree id) when a tree is chosen and
 * `search-text` (detail: text) when the list and the map should show only what contains it.
 */
@customElement("search-field")
export class SearchField extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        position: relative;
      }
      input.find {
        width: 100%;
        min-height: 40px;
        padding: 0 12px;
        border: 0;
        background: transparent;
        font-size: 15px;
      }
      input.find::placeholder {
        color: var(--ink-2);
        opacity: 1;
      }
      input.find:focus-visible {
        outline-offset: -2px;
      }
      ul {
        position: absolute;
        top: 100%;
        left: -1px;
        right: -1px;
        z-index: 5;
        max-height: 46vh;
        overflow: auto;
        border: 1px solid var(--edge);
        background: var(--paper);
      }
      li {
        display: flex;
        justify-content: space-between;
        gap: 12px;
        padding: 7px 12px;
        cursor: pointer;
      }
      li + li {
        border-top: 1px solid var(--rule);
      }
      li > :first-child {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      li > :last-child {
        flex: none;
        max-width: 60%;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      li[aria-selected="true"],
      li:hover {
        background: var(--paper-2);
      }
    `,
  ];

  @property({ attribute: false }) index: PlanIndex | null = null;
  /** The text the list is filtered by; shown in the field. */
  @property() text = "";
  @state() private found: readonly Match[] = [];
  @state() private active = -1;

  protected override render() {
    const isOpen = this.found.length > 0;
    return html`
      <input
        class="find"
        type="text"
        role="combobox"
        aria-label="Find a tree, species or street"
        aria-expanded=${isOpen ? "true" : "false"}
        aria-controls="matches"
        aria-autocomplete="list"
        aria-activedescendant=${this.active >= 0 ? `match-${this.active}` : nothing}
        placeholder="Find a tree, species or street"
        autocomplete="off"
        spellcheck="false"
        maxlength="100"
        .value=${this.text}
        @input=${this.onInput}
        @keydown=${this.onKey}
        @blur=${() => this.close()}
      />
      <ul id="matches" role="listbox" aria-label="Matches" ?hidden=${!isOpen}>
        ${this.found.map(
          (match, at) =>
            html`<li
              id="match-${at}"
              role="option"
              aria-selected=${at === this.active ? "true" : "false"}
              @pointerdown=${(event: Event) => event.preventDefault()}
              @click=${() => this.choose(match)}
            >
              <span>${match.type === "tree" ? match.treeId : match.text}</span>
              <span class="small">${match.type === "tree" ? match.detail : `${match.type}, ${counted(match.trees, "tree")}`}</span>
            </li>`,
        )}
      </ul>
    `;
  }

  private onInput(event: Event) {
    const typed = (event.target as HTMLInputElement).value;
    this.found = this.index === null ? [] : findMatches(this.index, typed);
    this.active = -1;
    if (typed === "" && this.text !== "") this.emit("search-text", "");
  }

  private onKey(event: KeyboardEvent) {
    const last = this.found.length - 1;
    if (event.key === "ArrowDown") this.active = this.active >= last ? 0 : this.active + 1;
    else if (event.key === "ArrowUp") this.active = this.active <= 0 ? last : this.active - 1;
    else if (event.key === "Escape") {
      if (this.found.length === 0) this.emit("search-text", "");
      this.close();
    } else if (event.key === "Enter") {
      const match = this.found[this.active];
      if (match !== undefined) this.choose(match);
      else this.search((event.target as HTMLInputElement).value.trim());
    } else return;
    event.preventDefault();
  }

  private choose(match: Match) {
    if (match.type === "tree") {
      this.close();
      // A jump, not a filter: the field goes back to what the list is filtered by.
      const field = this.renderRoot.querySelector("input");
      if (field !== null) field.value = this.text;
      this.emit("search-tree", match.treeId);
    } else this.search(match.text);
  }

  private search(text: string) {
    this.close();
    this.emit("search-text", text);
  }

  private close() {
    this.found = [];
    this.active = -1;
  }

  private emit(name: string, detail: string) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
