import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { sharedStyles } from "../shared-styles.ts";
import { counted } from "../words.ts";
import { askDesk, type DeskAct, type DeskLine } from "./desk-controller.ts";
import type { KeptWork } from "./kept-work.ts";
import { NOT_KEPT_WORDS } from "./storage-fault.ts";

/** Says how the reader's work on the plan is kept, and offers what can be done to keep it elsewhere, as `desk-act` events. */
@customElement("keep-line")
export class KeepLine extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      div {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 12px;
        align-items: center;
        padding: 6px 12px 8px;
        border-top: 1px solid var(--rule);
      }
      p {
        flex: 1 1 100%;
      }
      .warn {
        padding-left: 8px;
        border-left: 4px solid var(--warn);
        color: var(--ink);
      }
      .word {
        min-height: 24px;
      }
      @media (max-width: 720px) {
        div {
          padding: 0 12px 4px;
          border-top: 0;
        }
        .word {
          min-height: 32px;
        }
      }
    `,
  ];

  @property({ attribute: false }) line: DeskLine | null = null;
  /** How many edits the reader was asked about forgetting; null for no question. One more edit, and it is another question. */
  @state() private askedAt: number | null = null;

  /** Key of the other work whose forgetting the reader was asked about. */
  @state() private askedOther: string | null = null;

  protected override render() {
    const { line } = this;
    if (line === null) return nothing;
    return html`${this.stateOf(line)}${line.others.map((work) => this.other(work))}`;
  }

  private stateOf(line: DeskLine) {
    const { keeping, home, savedTo, doing } = line;
    if (home !== "page" && keeping.is === "unchanged" && savedTo === null && doing === null) return nothing;
    const isWarning = keeping.is === "not-kept" || keeping.is === "elsewhere";
    return html`<div>
      <p class="small ${isWarning ? "warn" : ""}" role="status">${doing === null ? sentenceOf(line) : `${doing} ...`}</p>
      ${this.askedAt === line.edits && line.edits > 0 ? this.question(line.edits) : this.actions(line)}
    </div>`;
  }

  private actions({ keeping, home, edits, doing, canPick }: DeskLine) {
    const isMine = keeping.is !== "elsewhere";
    const isFailing = keeping.is === "not-kept" || (keeping.is === "elsewhere" && keeping.unkept > 0);
    const button = (act: DeskAct, words: string, isMain = false) =>
      html`<button
        type="button"
        class=${isMain ? "button main" : "word"}
        ?disabled=${doing !== null}
        @click=${() => askDesk(this, act)}
      >
        ${words}
      </button>`;
    const ask = () => {
      this.askedAt = edits;
    };
    const zip = { do: "save", to: "zip" } as const;
    return html`
      ${home === "folder" && edits > 0 && isMine ? button({ do: "save", to: "folder" }, "Save to the folder", true) : nothing}
      ${home === "page" ? button(zip, "Save plan as zip", isFailing) : edits > 0 || isFailing ? button(zip, "Download a copy", isFailing && home !== "folder") : nothing}
      ${canPick && isMine && home === "page" ? button({ do: "save", to: "picked" }, "Save to a folder") : nothing}
      ${keeping.is === "not-kept" ? button({ do: "retry" }, "Try again") : nothing}
      ${edits > 0 && isMine ? html`<button type="button" class="word" ?disabled=${doing !== null} @click=${ask}>Forget the edits</button>` : nothing}
    `;
  }

  /** Work on a revision that the plan has moved on from: nobody should lose sight of it. */
  private other({ key, revision, edits }: KeptWork) {
    return html`<div>
      <p class="small warn">${counted(edits, "edit")} on revision ${revision} of this plan ${edits === 1 ? "is" : "are"} saved in this browser too.</p>
      <button type="button" class="word" @click=${() => askDesk(this, { do: "open-kept", key })}>Open revision ${revision} with ${edits === 1 ? "it" : "them"}</button>
      ${this.askedOther === key ? html`<button type="button" class="button" @click=${() => askDesk(this, { do: "forget-kept", key })}>Forget for good</button>` : html`<button type="button" class="word" @click=${() => this.askOther(key)}>Forget</button>`}
    </div>`;
  }

  private askOther(key: string) {
    this.askedOther = key;
  }

  private question(edits: number) {
    const forget = () => {
      this.askedAt = null;
      askDesk(this, { do: "forget-edits" });
    };
    const keep = () => {
      this.askedAt = null;
    };
    return html`
      <p class="small">This cannot be undone.</p>
      <button type="button" class="button" @click=${forget}>Forget ${counted(edits, "edit")}</button>
      <button type="button" class="word" @click=${keep}>Keep them</button>
    `;
  }
}

function sentenceOf({ keeping, edits, savedTo }: DeskLine): string {
  switch (keeping.is) {
    case "unchanged":
      return savedTo ?? "Nothing was changed.";
    case "saving":
      return "Saving in this browser ...";
    case "kept": {
      const what = edits === 0 ? "" : ` with ${counted(edits, "edit")}`;
      return `${savedTo === null ? "" : `${savedTo} `}Saved in this browser${what}, ${timeOf(keeping.at)}.`;
    }
    case "not-kept":
      return `Not saved. ${NOT_KEPT_WORDS[keeping.why]}`;
    case "elsewhere":
      return keeping.unkept === 0
        ? "Another tab has this plan. Here you can look, not change; close that tab to go on here."
        : `Another tab changed this plan. ${counted(keeping.unkept, "edit")} made here ${keeping.unkept === 1 ? "is" : "are"} saved nowhere: download a copy.`;
  }
}

/** `14:32`, in the reader's own time. */
function timeOf(at: string): string {
  const date = new Date(at);
  return `${String(date.getHours()).padStart(2, "0")}:${String(date.getMinutes()).padStart(2, "0")}`;
}
