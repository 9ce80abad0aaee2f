import { html } from "lit";

/** The first stops of the keyboard: the way past everything that stands before what is sought. Seen only while they have the focus. */
export function skipLinks(page: ParentNode) {
  const to = (selector: string) => () => page.querySelector<HTMLElement>(selector)?.focus();
  return html`<nav class="skip" aria-label="Skip to">
    <button type="button" @click=${to("side-sheet")}>Go to the list beside the map</button>
    <button type="button" @click=${to("map-view canvas")}>Go to the map</button>
    <button type="button" @click=${to("months-strip")}>Go to the months</button>
  </nav>`;
}
