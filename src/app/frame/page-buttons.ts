import { html, nothing } from "lit";
import type { SideView } from "../side-view.ts";
import type { PageContext, SidePage } from "./side-page.ts";
import { SIDE_PAGES } from "./side-pages.ts";

/** Tabs of the pages beside the lists. */
export const pageTabs = (context: PageContext | null, view: SideView) =>
  offered(context, "lists", null).map(
    ({ page, label, open }) =>
      html`<button
        type="button"
        aria-current=${view.name === "page" && view.page === page.name ? "page" : nothing}
        @click=${open}
      >
        ${label}
      </button>`,
  );

/** Buttons of the pages about a tree or a zone; nothing where there are none. */
export function pageButtons(context: PageContext | null, from: "tree" | "zone", subject: string) {
  const pages = offered(context, from, subject);
  if (pages.length === 0) return nothing;
  return html`<div class="pages">
    ${pages.map(({ label, open }) => html`<button type="button" class="button" @click=${open}>${label}</button>`)}
  </div>`;
}

function offered(context: PageContext | null, from: SidePage["from"], subject: string | null) {
  if (context === null) return [];
  return SIDE_PAGES.filter((page) => page.from === from).flatMap((page) => {
    const label = page.label(context, subject);
    return label === null ? [] : [{ page, label, open: () => context.openPage(page.name, subject) }];
  });
}
