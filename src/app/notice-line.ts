import { html, nothing } from "lit";

/** What went wrong or was done, in a sentence, until the reader closes it; nothing where nothing is to be said. */
export function noticeLine(sentence: string | null, close: () => void) {
  if (sentence === null) return nothing;
  return html`<div class="notice" role="alert">
    <p>${sentence}</p>
    <button type="button" @click=${close}>Close</button>
  </div>`;
}
