import { css, html, LitElement } from "lit";
import { property, state } from "lit/decorators.js";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { MarkedTree } from "../symbols/tree-mark.ts";
import { treeMark } from "../symbols/tree-mark.ts";
import { controlStyles } from "./control-styles.ts";

/**
 * The trees of a zone in order of work, to be dragged, moved by key or button, or taken out. Fires `zone-edit` (detail: a ZoneEdit) and `tree-open`
 * (detail: tree id).
 */
export class OrderList extends LitElement {
  static override styles = [
    controlStyles,
    css`
      :host {
        flex: 1 0 auto;
      }
      li {
        display: grid;
        grid-template-columns: 26px 24px minmax(0, 1fr) auto;
        gap: 8px;
        align-items: center;
        min-height: 42px;
        padding: 2px 16px;
        border-bottom: 1px solid var(--rule);
        background: var(--paper);
        cursor: grab;
      }
      li.over {
        border-top: 3px solid var(--ink);
      }
      li.held {
        opacity: 0.5;
      }
      .number {
        color: var(--ink-2);
        text-align: right;
      }
      .tree {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .tree b {
        font-weight: 600;
      }
      .buttons {
        display: flex;
        gap: 2px;
      }
      .buttons button {
        min-width: 32px;
        min-height: 32px;
        text-align: center;
      }
      .buttons button:hover:not(:disabled) {
        background: var(--paper-2);
      }
      .buttons button:disabled {
        opacity: 0.3;
        cursor: default;
      }
      @media (pointer: coarse) {
        .buttons button {
          min-width: 40px;
          min-height: 40px;
        }
      }
    `,
  ];

  @property() zoneId = "";
  @property({ attribute: false }) trees: readonly MarkedTree[] = [];
  @state() private held: number | null = null;
  @state() private over: number | null = null;

  protected override render() {
    const last = this.trees.length - 1;
    return html`<ol aria-label="Order of work, to be changed">
      ${this.trees.map((entry, at) => {
        const { id, commonName, species } = entry.tree;
        const name = commonName ?? species ?? "Tree";
        return html`<li
          draggable="true"
          class=${at === this.held ? "held" : at === this.over ? "over" : ""}
          @dragstart=${(event: DragEvent) => this.hold(event, at)}
          @dragover=${(event: DragEvent) => this.hover(event, at)}
          @drop=${(event: DragEvent) => this.drop(event, at)}
          @dragend=${() => this.letGo()}
        >
          <span class="number">${at + 1}</span>
          ${treeMark(entry)}
          <button type="button" class="tree" @click=${() => this.emit("tree-open", id)}><b>${name}</b> <span class="small">${id}</span></button>
          <span class="buttons">
            <button type="button" aria-label="Move ${name} ${id} up" ?disabled=${at === 0} @click=${() => this.move(at, at - 1)}>↑</button>
            <button type="button" aria-label="Move ${name} ${id} down" ?disabled=${at === last} @click=${() => this.move(at, at + 1)}>↓</button>
            <button type="button" aria-label="Take ${name} ${id} out of the zone" @click=${() => this.edit({ kind: "drop", treeIds: [id] })}>×</button>
          </span>
        </li>`;
      })}
    </ol>`;
  }

  private hold(event: DragEvent, at: number) {
    this.held = at;
    event.dataTransfer?.setData("text/plain", this.trees[at]?.tree.id ?? "");
    if (event.dataTransfer !== null) event.dataTransfer.effectAllowed = "move";
  }

  private hover(event: DragEvent, at: number) {
    if (this.held === null) return;
    event.preventDefault();
    this.over = at;
  }

  private drop(event: DragEvent, at: number) {
    if (this.held === null) return;
    event.preventDefault();
    this.move(this.held, at);
    this.letGo();
  }

  private letGo() {
    this.held = null;
    this.over = null;
  }

  private move(from: number, to: number) {
    const treeId = this.trees[from]?.tree.id;
    if (treeId === undefined || from === to || to < 0 || to >= this.trees.length) return;
    this.edit({ kind: "move-stop", zoneId: this.zoneId, treeId, to });
  }

  private edit(edit: ZoneEdit) {
    this.emit("zone-edit", edit);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}
