import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { isoDate } from "../../core/units/calendar.ts";
import { formatDate } from "../../core/units/format-date.ts";
import { sharedStyles } from "../shared-styles.ts";
import { counted } from "../words.ts";
import { askDesk } from "./desk-controller.ts";
import type { KeptEntry, KeptWork } from "./kept-work.ts";

/** Plans kept in this browser, to go on with or to forget. Fires `desk-act`. */
@customElement("kept-plans")
export class KeptPlans extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      section {
        margin-top: 22px;
      }
      h2 {
        margin-bottom: 4px;
        font-size: 15px;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        gap: 2px 16px;
        align-items: center;
        justify-content: space-between;
        padding: 9px 0;
        border-bottom: 1px solid var(--rule);
      }
      li > div:first-child {
        flex: 1 1 220px;
        min-width: 0;
      }
      .name {
        overflow: hidden;
        font-weight: 600;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .do {
        display: flex;
        gap: 14px;
        align-items: center;
      }
      .word {
        min-height: 34px;
      }
    `,
  ];

  @property({ attribute: false }) entries: readonly KeptEntry[] = [];
  /** Key of the plan whose forgetting the reader was asked about. */
  @state() private asked: string | null = null;

  protected override render() {
    if (this.entries.length === 0) return nothing;
    return html`<section aria-labelledby="kept">
      <h2 id="kept">Go on with</h2>
      <ul>
        ${this.entries.map((entry) => this.line(entry))}
      </ul>
    </section>`;
  }

  private line(entry: KeptEntry) {
    const key = entry.is === "whole" ? entry.work.key : entry.key;
    const name =
      entry.is === "whole" ? entry.work.name : entry.is === "newer" ? entry.name : "A plan that cannot be read";
    return html`<li>
      <div>
        <p class="name" title=${name}>${name}</p>
        <p class="small">${entry.is === "whole" ? wordsOf(entry.work) : entry.is === "newer" ? "Kept by a newer Boughline; this page leaves it alone. Reload to open it." : "What is kept of it is damaged."}</p>
      </div>
      <div class="do">${this.asked === key ? this.question(key, name) : this.actions(entry, key, name)}</div>
    </li>`;
  }

  private actions(entry: KeptEntry, key: string, name: string) {
    const ask = () => {
      this.asked = key;
    };
    return html`
      ${entry.is === "whole" ? html`<button type="button" class="button" aria-label=${`Go on with ${name}`} @click=${() => this.act("open-kept", key)}>Go on</button>` : nothing}
      ${entry.is === "newer" ? nothing : html`<button type="button" class="word" aria-label=${`Forget ${name}`} @click=${ask}>Forget</button>`}
    `;
  }

  private question(key: string, name: string) {
    const keep = () => {
      this.asked = null;
    };
    return html`
      <button type="button" class="button" aria-label=${`Forget ${name} for good`} @click=${() => this.act("forget-kept", key)}>Forget for good</button>
      <button type="button" class="word" @click=${keep}>Keep it</button>
    `;
  }

  private act(what: "open-kept" | "forget-kept", key: string) {
    this.asked = null;
    askDesk(this, { do: what, key });
  }
}

function wordsOf({ at, edits, counts, revision }: KeptWork): string {
  const what = edits === 0 ? "no edits" : counted(edits, "edit");
  return `${what}, last on ${dayOf(at)}; ${counted(counts.trees, "tree")}, ${counted(counts.zones, "zone")}, revision ${revision}`;
}

/** The day of a moment in the reader's own time. */
function dayOf(at: string): string {
  const date = new Date(at);
  const two = (number: number) => String(number).padStart(2, "0");
  return formatDate(isoDate(`${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`));
}
